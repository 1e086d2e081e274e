package blocks

// stretched is what replaces an agreed plan that the calendar has overtaken: the
// best plan f, or the agreed one moved along where that is legal and f gains less
// than keepGain over it. A meet moved later stretches the running block first, and
// only then is anything inserted (common practice).
func (s *season) stretched(f found) found {
	steps, why := s.movedAlong()
	if why {
		return f
	}
	old, ok := s.legal(f, steps)
	if !ok || f.objective-old.objective >= keepGain {
		return f
	}
	return old
}

// movedAlong is the agreed plan with the weeks that are new before its end given to
// the running block; none is true where there is no such plan.
func (s *season) movedAlong() (steps []step, none bool) {
	first := s.Agreed[0]
	if s.Running == nil || first.Kind != s.Running.Kind || first.Start != s.Running.Start || s.rolling() {
		return nil, true
	}
	sum := 0
	for i, b := range s.Agreed {
		n := s.weeksBefore(b.End.AddDays(1)) - s.weeksBefore(b.Start)
		if i > 0 {
			n = b.Weeks
		}
		sum += n
		total := n
		if i == 0 {
			total += s.done
		}
		steps = append(steps, step{kind: index(b.Kind), total: total})
	}
	more := len(s.weeks) - sum
	if more <= 0 {
		return nil, true
	}
	steps[0].total += more
	return steps, false
}
