package blocks

import "blockbell/planner"

// anewFrom is how many training weeks left hold hypertrophy, strength and peaking of
// the shortest lengths that the planner chooses.
const anewFrom = 10

// anewRow puts hypertrophy first where training begins anew after a long time away:
// many lighter sets for four weeks at least (common practice).
func (s *season) anewRow(r *row, i int, o loosening) {
	st := s.stretches[i]
	if o.back || s.runsIn(i) || st.from == fromMeet || st.kind == leaving || !s.newlyBack(st.start) {
		return
	}
	if st.kind != planner.Main {
		r.anew = r.mostH >= r.span[iH][0] && st.weeks()-r.span[iH][0] >= r.span[iS][0]
		return
	}
	if st.weeks() < anewFrom {
		return
	}
	r.anew = true
	if r.shape != nil {
		r.shape = []int{iH, iS, iP}
	}
}

// newlyBack tells whether d lies in the first four weeks after 56 days away or more.
func (s *season) newlyBack(d planner.Date) bool {
	for _, a := range s.spans {
		if back := a.To.AddDays(1); a.days() >= awayBase && d >= back && d < back.AddDays(7*baseWeeks) {
			return true
		}
	}
	return false
}
