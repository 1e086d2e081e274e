package blocks

import "blockbell/planner"

// stretched is what replaces an agreed plan that the calendar has overtaken. A meet
// that was moved later or dropped changes no running block (common practice): it
// lasts as agreed at least, where that is legal with no more rules set aside. Then
// the agreed plan with a longer running block stands for the old one, and only where
// the best plan gains keepGain over it, or the rules forbid it, is anything inserted.
func (s *season) stretched(f found) found {
	if !s.carriesOn() {
		return f
	}
	if held, ok := s.holding(f); ok {
		f = held
	}
	steps, none := s.movedAlong()
	if none {
		return f
	}
	old, ok := s.legal(f, steps)
	if !ok || f.objective-old.objective >= keepGain {
		return f
	}
	return old
}

// carriesOn tells whether the block that runs is the agreed one, and no main meet has
// come closer than the first that the agreed plan peaks for.
func (s *season) carriesOn() bool {
	first := s.Agreed[0]
	if s.Running == nil || first.Kind != s.Running.Kind || first.Start != s.Running.Start {
		return false
	}
	for _, b := range s.Agreed {
		if b.Kind == planner.Peaking {
			return s.main < 0 || s.stretches[s.main].end >= b.End
		}
	}
	return s.main < 0
}

// holding is the best plan in which the running block lasts as agreed at least, or
// where no rule lets it, for as much of that as one does: a dropped meet cuts no block
// that runs. It is none where f itself has as much.
func (s *season) holding(f found) (found, bool) {
	c := *s
	least := s.done
	if len(f.steps) > 0 && f.steps[0].running {
		least = f.steps[0].total
	}
	for c.hold = s.done + s.weeksBefore(s.Agreed[0].End.AddDays(1)); c.hold > least; c.hold-- {
		if held, ok := c.under(f.loosened); ok {
			held.loosened, held.g.season = f.loosened, s
			return held, true
		}
	}
	return found{}, false
}

// movedAlong is the agreed plan with the weeks that are new before its end given to
// the running block; none is true where there is no such plan.
func (s *season) movedAlong() (steps []step, none bool) {
	if s.rolling() {
		return nil, true
	}
	first := s.Agreed[0]
	sum := s.weeksBefore(first.End.AddDays(1))
	steps = []step{{kind: index(first.Kind), total: s.done + sum}}
	for _, b := range s.Agreed[1:] {
		sum += b.Weeks
		steps = append(steps, step{kind: index(b.Kind), total: b.Weeks})
	}
	more := len(s.weeks) - sum
	if more <= 0 {
		return nil, true
	}
	steps[0].total += more
	return steps, false
}
