package blocks

import "blockbell/planner"

// The rows of the gap table begin at these days from meet to meet (common
// practice). A gap up to gapHold holds what there is; up to gapOneWeek it has a
// few easy days, one session and a taper again.
const (
	gapHold      = 10
	gapOneWeek   = 17
	gapPeaks     = 35 // from here peaking is a block of its own; under it, the weeks of both peaks add up
	gapStrength  = 49 // from here strength comes before it
	gapLongerS   = 70
	gapFullCycle = 98
)

// cycleFrom is how many training weeks between two meets leave room for a whole
// cycle: hypertrophy 4, strength and peaking 3, and recovery.
const cycleFrom = 13

// restDays is how many odd days in front of the first training week are a
// recovery of their own where the table asks for 4 to 7 days.
const restDays = 4

// gaps is a set of gaps, by the number of the stretch.
type gaps uint64

const everyGap = ^gaps(0)

func (s gaps) has(i int) bool     { return s&(1<<i) != 0 }
func (s gaps) without(i int) gaps { return s &^ (1 << i) }

// Stages of a gap, tried in this order: the row of the table, with two weeks of
// recovery for lifters of 60 and older before the row's own; the same with
// recovery and strength as long as anywhere; strength in a row that has none; and
// only then peaking past the limit, by one week more at a time.
const (
	stageTableOld = iota
	stageTable
	stageOpenOld
	stageOpen
	stageStrength
)

// gapDays is the gap before the meet that ends stretch i, from meet to meet, without
// the weeks away in it.
func (s *season) gapDays(i int) int {
	st := s.stretches[i]
	days := st.days() + 1
	for _, w := range s.aways {
		if w.Start >= st.start && w.Start <= st.end {
			days -= 7
		}
	}
	return days
}

// oddDays is how many days of a stretch lie before its first training week.
func (s *season) oddDays(st stretch) int {
	if st.weeks() == 0 {
		return st.days()
	}
	return st.start.DaysUntil(s.weeks[st.lo])
}

// gapRow is what lies between two main meets: the first stage that fills the
// training weeks of the gap. Where the search has found that pins leave no room,
// the gap is opened further.
func (s *season) gapRow(i int, o loosening) row {
	stage := s.gapStage(i)
	if o.wide.has(i) {
		stage = max(stage, stageOpen)
	}
	r := s.stageRow(i, stage)
	if o.wide.has(i) && s.gapDays(i) >= gapFullCycle {
		r.needH, r.span[iR] = false, [2]int{1, 2}
	}
	if o.wide.has(i) {
		r.span[iP][1] = max(r.span[iP][1], s.stretches[i].limit)
	}
	if o.over.has(i) {
		r.span[iP][1] = longestLimit
	}
	return r
}

// gapStage is the first stage whose lengths can fill the gap.
func (s *season) gapStage(i int) int {
	n := s.stretches[i].weeks()
	last := stageStrength + longestLimit
	for stage := range last {
		if r := s.stageRow(i, stage); r.fills(n) {
			return stage
		}
	}
	return last
}

// fills tells whether the lengths of a row can add up to n weeks. A row of any
// order always can: rows have one only where there is time for it.
func (r *row) fills(n int) bool {
	lo, hi := 0, 0
	for _, k := range r.shape {
		if r.span[k][0] > r.span[k][1] {
			return false
		}
		lo, hi = lo+r.span[k][0], hi+r.span[k][1]
	}
	return r.shape == nil || lo <= n && n <= hi
}

// tableRow is the row of the table for the gap before the end of stretch i, by
// days from meet to meet; lengths of peaking stand without the limit. Recovery of
// 4 to 7 days is the odd days alone where they are enough, else one week. A gap of
// 49 days between two meets on the first day of the week holds 6 training weeks
// and 6 odd days: those are the recovery, so that strength and peaking fit.
func (s *season) tableRow(i int) row {
	st, days := s.stretches[i], s.gapDays(i)
	n := st.weeks()
	r := s.usual(n, st.limit)
	r.recover, r.rToP = days > gapOneWeek, days < gapStrength
	switch {
	case days <= gapOneWeek:
		r.shape = []int{iP}
		r.span[iP] = [2]int{1, longestLimit}
	case days < gapPeaks:
		r.shape = []int{iR, iP}
		r.span[iR], r.span[iP] = [2]int{1, 1}, [2]int{1, longestLimit}
	case days < gapStrength:
		r.shape = []int{iR, iP}
		r.span[iR], r.span[iP] = [2]int{1, 1}, [2]int{4, 5}
	case days < gapLongerS:
		r.shape = []int{iR, iS, iP}
		r.span[iR], r.span[iS], r.span[iP] = [2]int{1, 1}, [2]int{3, 4}, [2]int{3, 4}
	case days < gapFullCycle:
		r.shape = []int{iR, iS, iP}
		r.span[iR], r.span[iS], r.span[iP] = [2]int{1, 2}, [2]int{4, 6}, [2]int{3, 5}
	default:
		r.needH = true
	}
	if s.oddDays(st) >= restDays && (days > gapOneWeek && days < gapPeaks || days >= gapStrength && n <= 6) {
		r.span[iR] = [2]int{0, 0}
	}
	return r
}

// stageRow is the row of a gap at a stage.
func (s *season) stageRow(i, stage int) row {
	st, days := s.stretches[i], s.gapDays(i)
	r := s.tableRow(i)
	if days <= gapOneWeek || days >= gapFullCycle {
		return r
	}
	if stage >= stageOpenOld {
		r.open(s, st.weeks())
	}
	if old := stage == stageTableOld || stage == stageOpenOld; old && days >= gapPeaks && r.span[iR][1] > 0 && s.old() {
		r.span[iR] = [2]int{2, 2}
	}
	if stage == stageStrength && days >= gapPeaks && days < gapStrength {
		r.shape = []int{iR, iS, iP}
	}
	most := st.limit + max(0, stage-stageStrength)
	r.span[iP][1] = min(r.span[iP][1], most)
	return r
}

// open lets recovery and strength of a row be as long as anywhere, and peaking as
// short. Where there is time, hypertrophy may come before strength.
func (r *row) open(s *season, n int) {
	r.span[iR] = [2]int{min(1, r.span[iR][0]), 2}
	r.span[iP][0] = min(3, r.span[iP][0])
	if len(r.shape) == 3 && n >= cycleFrom {
		r.shape, r.noStop = nil, true
	}
	r.span[iS] = s.usual(n, 0).span[iS]
}

// old tells whether the lifter is 60 or older on the day of the plan.
func (s *season) old() bool { return planner.Age(s.Lifter.Born, s.Today) >= oldAge }
