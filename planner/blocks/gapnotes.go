package blocks

import "fmt"

// meetName is the meet that ends a stretch in words: its name, or its day.
func (s *season) meetName(st stretch) string {
	day := st.end.AddDays(1)
	if name := s.days[day].Name; name != "" {
		return name
	}
	return "the meet on " + day.Short()
}

// pastInGap says that a peak after the first meet passes the limit. One that a
// coach has pinned is no rule set aside; the notes have it.
func (s *season) pastInGap(b step, f found) []string {
	st := s.stretches[b.stretch]
	if b.kind != iP || b.total <= st.limit || b.next < st.hi || f.g.askedPeak(f.steps, b) {
		return nil
	}
	why := "the " + plural(st.weeks()) + " between the meets leave no plan within it."
	return []string{fmt.Sprintf("Peaking before %s lasts %s, above your limit of %d: %s", s.meetName(st), plural(b.total), st.limit, why)}
}

// unusualInGap says how a block differs from the row of its gap.
func (s *season) unusualInGap(b step, f found) []string {
	r, st := s.tableRow(b.stretch), s.stretches[b.stretch]
	between := "Between the meet on " + st.start.AddDays(-1).Short() + " and " + s.meetName(st)
	lo, hi := r.span[b.kind][0], r.span[b.kind][1]
	usual := plural(lo)
	if hi > lo {
		usual = fmt.Sprintf("%d to %d", lo, hi)
	}
	switch {
	case r.shape != nil && !holds(r.shape, b.kind):
		why := fmt.Sprintf("the usual blocks do not fill a gap of %d days", s.gapDays(b.stretch))
		if wide := func(o loosening) bool { return o.wide.has(b.stretch) }; wide(f.loosened) {
			why = s.because(wide, why)
		}
		return []string{fmt.Sprintf("%s, there is also a %s: %s.", between, screenName(b.kind), why)}
	case b.kind == iR && b.weeks == 2 && s.old():
		return nil
	case b.weeks < lo || b.weeks > hi && b.kind != iP:
		return []string{fmt.Sprintf("%s, %s lasts %s; usual for a gap of %d days is %s.", between, theBlock(b.kind), plural(b.weeks), s.gapDays(b.stretch), usual)}
	}
	return nil
}

func holds(shape []int, kind int) bool {
	for _, k := range shape {
		if k == kind {
			return true
		}
	}
	return false
}

// theBlock is the screen name of a kind inside a sentence.
func theBlock(kind int) string {
	if kind == iH || kind == iS {
		return "the " + screenName(kind)
	}
	return screenName(kind)
}

// gapNotes says what lies between two meets where it is not the usual, and warns
// of peaks that add up.
func (s *season) gapNotes(f found) (out []string) {
	peak := make([]int, len(s.stretches))
	for _, b := range f.steps {
		if b.kind == iP {
			peak[b.stretch] = b.total
		}
		if st := s.stretches[b.stretch]; b.kind == iP && b.total > st.limit && f.g.askedPeak(f.steps, b) {
			out = append(out, fmt.Sprintf("Peaking before %s lasts %s, above your limit of %d, as fixed by hand.", s.meetName(st), plural(b.total), st.limit))
		}
		if s.isGap(b.stretch) && !f.loosened.wide.has(b.stretch) {
			out = append(out, s.unusualInGap(b, f)...)
		}
	}
	for _, i := range s.gapList() {
		st := s.stretches[i]
		if sum := peak[i] + peak[i-1]; s.gapDays(i) < gapPeaks && sum > st.limit {
			out = append(out, fmt.Sprintf("Peaking before %s and the meet before it adds up to %s, above your limit of %d: keep muscle work in.",
				s.meetName(st), plural(sum), st.limit))
		}
	}
	return out
}
