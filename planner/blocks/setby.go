package blocks

import "blockbell/planner"

// setBy tells of each block what set its length, where that was not the planner.
func (s *season) setBy(f found, blocks []planner.Block) []Setter {
	out := make([]Setter, len(blocks))
	for i := range blocks {
		if j := s.stepBehind(f.steps, blocks[i]); j >= 0 {
			out[i] = s.setterOf(f, j)
		}
	}
	return out
}

// stepBehind is the step that a listed block stands for; -1 for days without a
// training week.
func (s *season) stepBehind(steps []step, b planner.Block) int {
	at := s.weeksBefore(firstWeek(b, s.Rules.WeekStart))
	for j, st := range steps {
		if kindOf[st.kind] == b.Kind && st.total == b.Weeks && (st.at == at || st.running && b.Start < s.Today) {
			return j
		}
	}
	return -1
}

func (s *season) setterOf(f found, j int) Setter {
	b := f.steps[j]
	st := s.stretches[b.stretch]
	switch {
	case f.g.pinningOf(j, f.steps).fixed:
		return SetByHand
	case s.caps[b.kind] != noCap && b.total == s.caps[b.kind] && b.weeks > 0:
		return SetByBound
	case st.kind == leaving && b.at+b.weeks == st.hi:
		return SetByAway
	case b.running && float64(s.done) >= s.model.L0[min(b.kind, iP)]+2:
		return SetByPast
	}
	return ""
}
