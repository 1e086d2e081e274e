package blocks

import "blockbell/planner"

// Longest gaps, in days from meet to meet, that are too short for the rows that
// go by training weeks.
const (
	gapHold      = 10 // hold what there is
	gapOneWeek   = 17 // a few easy days, one session, taper again
	gapSamePeak  = 34 // a week of recovery, then on with the same peak
	gapAddsPeaks = 35 // under this, the weeks of both peaks add up
)

// gapRow is what lies between two main meets, by days up to 34 and by training
// weeks above (common practice). The peaking lengths of a row stand above the
// lifter's limit; recovery is one week where the row says so, at any age.
func (s *season) gapRow(st stretch, last planner.Date, o loosening) row {
	n, days := st.weeks(), last.DaysUntil(st.end.AddDays(1))
	r := s.usual(n, st.limit)
	r.recover, r.rToP = true, true
	switch {
	case days <= gapOneWeek:
		r.recover = false
		r.shape = []int{iP}
		r.span[iP] = [2]int{1, longestLimit}
	case days <= gapSamePeak:
		r.shape = []int{iR, iP}
		r.span[iR], r.span[iP] = [2]int{1, 1}, [2]int{1, longestLimit}
	case n <= 6:
		r.shape = []int{iR, iP}
		r.span[iR], r.span[iP] = [2]int{1, 1}, [2]int{4, 5}
	case n <= 9:
		r.shape = []int{iR, iS, iP}
		r.span[iR], r.span[iS], r.span[iP] = [2]int{1, 1}, [2]int{3, 4}, [2]int{3, 4}
	case n < fullCycle:
		r.shape = []int{iR, iS, iP}
		r.span[iS], r.span[iP] = [2]int{4, 6}, [2]int{3, 5}
	default:
		r.rToP = false
		r.needH = !o.wide
	}
	if o.wide && days > gapSamePeak {
		r.widen(n)
	}
	return r
}

// widen opens the lengths of a row to what holds anywhere.
func (r *row) widen(n int) {
	r.span[iR][1] = 2
	if n < fullCycle {
		r.span[iS] = [2]int{3, longestS}
		r.span[iP] = [2]int{3, longestLimit}
	}
}

// rollingRow is a cycle without a main meet: no peaking, hypertrophy at most 8
// weeks in a row (10 for who likes long blocks) and at most 55 / 50 / 40 % of
// the weeks for novice / intermediate / advanced and elite (common practice).
func (s *season) rollingRow(st stretch) row {
	n := st.weeks()
	r := s.usual(n, st.limit)
	r.noPeak = true
	r.span[iH][1] = 8
	if s.Lifter.LongBlocks {
		r.span[iH][1] = 10
	}
	percent := 40
	switch {
	case s.model.novice():
		percent = 55
	case s.model.Level == planner.Intermediate:
		percent = 50
	}
	r.mostH = n * percent / 100
	return r
}
