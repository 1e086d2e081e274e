package blocks

import (
	"fmt"
	"strings"

	"blockbell/planner"
)

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
	if b.kind != iP || b.total <= st.limit || b.next < st.hi || f.g.pinnedStep(f.steps, b) {
		return nil
	}
	why := "the " + plural(st.weeks()) + " between the meets leave no plan within it."
	if f.loosened.over.has(b.stretch) {
		why = "what is fixed by hand between the meets leaves no plan within it."
	}
	return []string{fmt.Sprintf("Peaking before %s lasts %s, above your limit of %d: %s", s.meetName(st), plural(b.total), st.limit, why)}
}

// unusualInGap says how a block differs from the row of its gap.
func (s *season) unusualInGap(b step) []string {
	r, st := s.tableRow(b.stretch), s.stretches[b.stretch]
	between := "Between the meet on " + st.start.AddDays(-1).Short() + " and " + s.meetName(st)
	lo, hi := r.span[b.kind][0], r.span[b.kind][1]
	usual := plural(lo)
	if hi > lo {
		usual = fmt.Sprintf("%d to %d", lo, hi)
	}
	switch {
	case r.shape != nil && !holds(r.shape, b.kind):
		return []string{fmt.Sprintf("%s, there is also a %s: the usual blocks do not fill a gap of %d days.", between, screenName(b.kind), s.gapDays(b.stretch))}
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
		if st := s.stretches[b.stretch]; b.stretch > 0 && b.kind == iP && b.total > st.limit && f.g.pinnedStep(f.steps, b) {
			out = append(out, fmt.Sprintf("Peaking before %s lasts %s, above your limit of %d, as fixed by hand.", s.meetName(st), plural(b.total), st.limit))
		}
		if b.stretch > 0 && !f.loosened.wide.has(b.stretch) {
			out = append(out, s.unusualInGap(b)...)
		}
	}
	for i := 1; i < len(s.stretches); i++ {
		st := s.stretches[i]
		if sum := peak[i] + peak[i-1]; s.gapDays(i) < gapPeaks && sum > st.limit {
			out = append(out, fmt.Sprintf("Peaking before %s and the meet before it adds up to %s, above your limit of %d: keep muscle work in.",
				s.meetName(st), plural(sum), st.limit))
		}
	}
	return out
}

// missing says which run-ups lack hypertrophy or strength, where there is more
// than one; of a single run-up the list of what the plan leaves out says it.
func (s *season) missing(blocks []planner.Block) (out []string) {
	for i, st := range s.stretches {
		if len(s.stretches) == 1 || st.days() <= 0 {
			continue
		}
		seen := map[planner.BlockKind]bool{}
		if i == 0 {
			seen = s.underWay()
		}
		for _, b := range blocks {
			seen[b.Kind] = seen[b.Kind] || b.End >= st.start && b.End <= st.end
		}
		var lack []string
		for _, k := range []int{iH, iS} {
			if !seen[kindOf[k]] {
				lack = append(lack, "no "+screenName(k))
			}
		}
		if len(lack) > 0 {
			out = append(out, fmt.Sprintf("The run-up to %s has %s.", s.meetName(st), strings.Join(lack, " and ")))
		}
	}
	return out
}

// closing says what a plan without a main meet ends with.
func (s *season) closing() []string {
	last := s.end().AddDays(1)
	day := "on " + last.Long()
	if name := s.days[last].Name; name != "" {
		day = name + " " + day
	}
	switch {
	case !s.rolling():
		return nil
	case s.stretches[0].kind == planner.Test:
		return []string{fmt.Sprintf("No main meet is known, so the plan ends with the last test day on the calendar, %s; add a meet and it is planned again.", day)}
	default:
		return []string{fmt.Sprintf("No main meet is known, so this is a rolling cycle of %d weeks that ends in a test of strength around %s; add a meet and it is planned again.", len(s.weeks), last.Long())}
	}
}

// cutPeak says that the running peaking block ends at once, and why.
func (s *season) cutPeak(steps []step) []string {
	if !s.peaks() || len(steps) == 0 || !steps[0].running || steps[0].weeks > 0 {
		return nil
	}
	st := s.stretches[0]
	if s.rolling() {
		return []string{fmt.Sprintf("The running peaking ends now, after %s: there is no meet that it could lead to.", plural(s.done))}
	}
	return []string{fmt.Sprintf("The running peaking ends now, after %s: %s is still %s away, so there is time to build again and peak anew.",
		plural(s.done), s.meetName(st), plural(st.weeks()))}
}
