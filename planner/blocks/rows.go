package blocks

import "blockbell/planner"

// row holds what the blocks of one stretch may be. Lengths are for blocks that
// have not begun.
type row struct {
	shape    []int // the exact order of kinds, a running block included; nil: any legal order
	needH    bool  // hypertrophy must be among them
	recover  bool  // recovery comes first
	span     [4][2]int
	between  int  // least weeks of strength between two hypertrophy blocks
	hToP     bool // peaking may follow hypertrophy at once
	rToP     bool // peaking may follow recovery
	runEnds  bool // the running block must end at once
	runShort bool // the running block may end at once however short
	stretch  int  // longest whole length of a running peaking block
	mostH    int  // most weeks of hypertrophy to come; 0: no such rule
	noPeak   bool // peaking only as a taper for a test day
	noStop   bool // no peaking for a tune-up on the way
	leaves   bool // a time away ends the last block, however short
	anew     bool // hypertrophy comes first, after a long time away
}

// loosening says which rules a search sets aside. The zero value keeps them all.
type loosening struct {
	free   bool // any order of kinds before the first main meet
	tuneUp bool // a tune-up may fall into any block
	wide   gaps // gaps between meets that may leave the lengths of their row
	over   gaps // gaps before whose meet peaking may pass its limit
	short  bool // the running block may end at once though short
	past   bool // before the first meet peaking may pass its limit, up to 13 weeks
	single bool // one peaking block as long as the time left
	back   bool // peaking may come soon after a time away
}

// Usual bounds, common practice.
const (
	longestH       = 12
	longestHNovice = 8
	longestHLikes  = 16 // for lifters who like long blocks
	longestS       = 16
	stretchPast    = 2 // weeks a running peaking block may pass its limit
	fullCycle      = 14
	longestR       = 2
	onlyPeak       = 6 // most weeks left that are all peaking
)

// rows returns the rules of every stretch.
func (s *season) rows(o loosening) []row {
	list := make([]row, len(s.stretches))
	for i, st := range s.stretches {
		switch {
		case st.kind == leaving:
			list[i] = s.leavingRow(i, st, o)
		case st.kind != planner.Main:
			list[i] = s.rollingRow(st, o)
		case s.isGap(i):
			list[i] = s.gapRow(i, o)
		case o.single:
			list[i] = s.singleRow(i, st)
		default:
			list[i] = s.firstRow(i, st, o)
		}
		if o.past && !s.isGap(i) {
			list[i].span[iP][1] = max(list[i].span[iP][1], longestLimit)
			list[i].stretch = max(list[i].stretch, longestLimit)
		}
		s.anewRow(&list[i], i, o)
		s.barRow(&list[i], i, o)
		s.capRow(&list[i], i)
	}
	return list
}

// usual returns the lengths that hold in any run-up of n training weeks.
func (s *season) usual(n, limit int) row {
	r := row{between: 4, stretch: limit + stretchPast}
	r.span[iH] = [2]int{4, LongestMuscle(s.Lifter)}
	r.span[iS] = [2]int{3, longestS}
	if n >= fullCycle {
		r.span[iS][0] = 4
	}
	r.span[iP] = [2]int{3, limit}
	r.span[iR] = s.recovery()
	return r
}

// LongestMuscle is the longest muscle block, in weeks, that is planned for a lifter
// unless a coach pins a longer one: 12, a novice's 8, and 16 for who likes long blocks
// (common practice).
func LongestMuscle(l planner.Lifter) int {
	switch {
	case l.LongBlocks:
		return longestHLikes
	case l.PlannedLevel() == planner.Novice || l.PlannedLevel() == planner.New:
		return longestHNovice
	}
	return longestH
}

// recovery is 1 or 2 weeks, and 2 from 60 years on.
func (s *season) recovery() [2]int {
	if s.old() {
		return [2]int{2, 2}
	}
	return [2]int{1, 2}
}

// firstRow is the run-up to the first main meet, or to one after a time away that
// ended what ran before it, chosen by the training weeks
// left (common practice): under 3 taper only; 3-6 peaking; 7-10 strength and
// peaking; 11-13 all three for novice and intermediate lifters, else strength
// and peaking; from 14 on all three. What has begun counts as part of it.
func (s *season) firstRow(i int, st stretch, o loosening) row {
	n := st.weeks()
	r := s.usual(n, st.limit)
	if n < 3 {
		r.span[iP] = [2]int{n, max(n, st.limit)}
	}
	if s.runsIn(i) && s.Running.Kind == planner.Recovery {
		r.rToP = n <= 6
	}
	if o.short {
		r.runShort = true
	}
	if !o.free || n < 3 {
		s.prescribe(&r, i, st, n)
	}
	return r
}

// freshShape is the order of kinds for a lifter with no block running; nil with
// true is any order that holds hypertrophy.
func (s *season) freshShape(n int) (shape []int, needH bool) {
	switch l := s.model.Level; {
	case n <= onlyPeak:
		return []int{iP}, false
	case n <= 10:
		return []int{iS, iP}, false
	case n < fullCycle && (l == planner.Advanced || l == planner.Elite):
		return []int{iS, iP}, false
	case n < fullCycle:
		return []int{iH, iS, iP}, false
	}
	return nil, true
}

// prescribe sets the order of kinds for n weeks left, given what runs.
func (s *season) prescribe(r *row, i int, st stretch, n int) {
	shape, needH := s.freshShape(n)
	if !s.runsIn(i) {
		r.shape, r.needH = shape, needH
		return
	}
	switch k := index(s.Running.Kind); {
	case k == iP:
		s.prescribePeaking(r, st, n)
	case k == iR:
		r.needH = needH
		if shape != nil {
			r.shape = append([]int{iR}, shape...)
		}
		r.runShort = r.runShort || n <= 3
	case n <= 5: // the rest is peaking
		r.shape, r.runEnds, r.runShort, r.hToP = []int{k, iP}, true, true, true
	case k == iH && n < fullCycle:
		r.shape = []int{iH, iS, iP}
	case k == iS && n < fullCycle:
		r.shape = []int{iS, iP}
	}
}

// prescribePeaking is prescribe for a running peaking block: on to the meet
// where that stays within the limit and two weeks; else it ends, and a short
// cycle follows.
func (s *season) prescribePeaking(r *row, st stretch, n int) {
	switch {
	case s.done+n <= st.limit+stretchPast || n < 3:
		r.shape = []int{iP}
		r.stretch = max(r.stretch, s.done+n)
	case n <= 6:
		r.shape = []int{iP, iS, iP}
	default:
		shape, needH := s.freshShape(n)
		r.needH = needH
		if shape != nil {
			r.shape = append([]int{iP}, shape...)
		}
	}
}

// peakReaches tells whether the running peaking block can go on to the end of
// the first stretch with no more than most weeks in all. A tune-up or test day on
// the way is another place where it may end, but none that it must reach.
func (s *season) peakReaches(most int) bool {
	st := s.stretches[0]
	return s.main == 0 && s.done+st.weeks() <= most && s.lastBarred(st) == 0 ||
		st.kind == planner.Test && s.done+st.weeks() <= most
}

// singleRow leaves one peaking block for all the time left, after or in place of
// what runs.
func (s *season) singleRow(i int, st stretch) row {
	n := st.weeks()
	r := s.usual(n, st.limit)
	r.span[iP] = [2]int{n, n}
	r.stretch = s.done + n
	r.runShort, r.hToP, r.rToP = true, true, true
	r.shape = []int{iP}
	if s.runsIn(i) && index(s.Running.Kind) != iP {
		r.shape = []int{index(s.Running.Kind), iP}
	}
	return r
}
