package blocks

// runsIn tells whether a block runs on the first day of stretch i.
func (s *season) runsIn(i int) bool { return i == 0 && s.Running != nil }

// isGap tells whether stretch i is a gap between two main meets without a time
// away that ends blocks in it.
func (s *season) isGap(i int) bool {
	st := s.stretches[i]
	return st.from == fromMeet && st.kind != leaving && s.main >= 0
}

// gapList lists the gaps.
func (s *season) gapList() (list []int) {
	for i := range s.stretches {
		if s.isGap(i) {
			list = append(list, i)
		}
	}
	return list
}

// leavingRow is the time before a time away that ends the blocks: hypertrophy and
// strength in any order, recovery first after a meet, no peaking, and the last one
// as short as the days are.
func (s *season) leavingRow(i int, st stretch, o loosening) row {
	r := s.usual(st.weeks(), st.limit)
	r.noPeak, r.leaves, r.runShort = true, true, o.short
	r.recover = st.from == fromMeet
	return r
}

// barRow keeps peaking out of the first weeks after a time away. An order that
// would be all peaking has strength in front, as long as those weeks at least; a
// running block goes on through them.
func (s *season) barRow(r *row, i int, o loosening) {
	st := s.stretches[i]
	lead := s.lastBarred(st)
	if lead == 0 || o.back {
		return
	}
	if rest := st.weeks() - lead; rest > 0 {
		r.span[iP][0] = min(r.span[iP][0], rest)
	}
	if st.weeks() <= onlyPeak {
		r.span[iS][0] = min(r.span[iS][0], lead)
	}
	n := len(r.shape)
	if n == 0 || n > 2 || r.shape[n-1] != iP {
		return
	}
	switch {
	case n == 2 && r.shape[0] != iR:
		r.runEnds = false
	case s.runsIn(i) && n == 1:
		r.shape = []int{iP, iS, iP}
	default:
		r.shape = append(append([]int{}, r.shape[:n-1]...), iS, iP)
	}
}
