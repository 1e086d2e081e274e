package blocks

import "blockbell/planner"

// oChoice is one way to fill a gap: kinds in order, with the least and most weeks
// of each.
type oChoice struct {
	kinds string
	weeks [][2]int
}

// gapChoices writes the rules for gaps between two main meets down once more, by
// the days between them (common practice), and returns the ways that are open:
// those of the first line that leaves any. From 98 days on there is no such list.
func (o *oracle) gapChoices(i int) []oChoice {
	return o.afterAway(i, o.rowChoices(i))
}

// afterAway lets strength into a gap that would be all peaking, where peaking would
// come too soon after a time away.
func (o *oracle) afterAway(i int, choices []oChoice) (out []oChoice) {
	s := o.stretches[i]
	n, lead := s.hi-s.lo, o.lead(s)
	if lead == 0 {
		return choices
	}
	for _, c := range choices {
		last := len(c.kinds) - 1
		weeks := append([][2]int{}, c.weeks...)
		if n > lead {
			weeks[last][0] = min(weeks[last][0], n-lead)
		}
		anyS := [2]int{3, 16}
		if n >= 14 {
			anyS[0] = 4
		}
		if last < 2 {
			c.kinds = c.kinds[:last] + "SP"
			weeks = append(append([][2]int{}, weeks[:last]...), anyS, weeks[last])
		}
		for j := range c.kinds {
			if c.kinds[j] == 'S' && n <= 6 {
				weeks[j][0] = min(weeks[j][0], lead)
			}
		}
		out = append(out, oChoice{c.kinds, weeks})
	}
	return out
}

func (o *oracle) rowChoices(i int) []oChoice {
	s := o.stretches[i]
	if s.gap == 0 || s.gap >= 98 {
		return nil
	}
	if s.gap <= 17 {
		return []oChoice{{"P", [][2]int{{1, 13}}}}
	}
	n, old := s.hi-s.lo, planner.Age(o.r.Lifter.Born, o.r.Today) >= 60
	for past := 0; past <= 13; past++ {
		for _, line := range gapLines(s.gap, n, o.oddIn(i), s.limit, past, old) {
			var open []oChoice
			for _, c := range line {
				if fills(c.weeks, n) {
					open = append(open, c)
				}
			}
			if open != nil {
				return open
			}
		}
	}
	return nil
}

// oddIn counts the days of a gap before its first training week.
func (o *oracle) oddIn(i int) (days int) {
	s := o.stretches[i]
	for d := s.from; s.lo < s.hi && d < o.weeks[s.lo]; d++ {
		days++
	}
	return days
}

// fills tries every length of every block.
func fills(weeks [][2]int, left int) bool {
	if len(weeks) == 0 {
		return left == 0
	}
	for w := weeks[0][0]; w <= weeks[0][1]; w++ {
		if w <= left && fills(weeks[1:], left-w) {
			return true
		}
	}
	return false
}

// gapLines returns what may lie in a gap, line by line in the order in which the
// rules give way; past is how many weeks peaking may pass its limit, and only the
// opened line is left then.
func gapLines(gap, n, odd, limit, past int, old bool) [][]oChoice {
	anyS := [2]int{3, 16}
	if n >= 14 {
		anyS[0] = 4
	}
	most := limit + past
	p := func(lo, hi int) [2]int { return [2]int{lo, min(hi, most)} }
	one, two, either := [2]int{1, 1}, [2]int{2, 2}, [2]int{1, 2}
	var table, opened func(r [2]int) []oChoice
	row := one
	switch {
	case gap <= 34:
		if odd >= 4 {
			row = [2]int{0, 0}
		}
		table = func(r [2]int) []oChoice { return []oChoice{{"RP", [][2]int{r, p(1, 13)}}} }
		opened, old = table, false
	case gap <= 48:
		table = func(r [2]int) []oChoice { return []oChoice{{"RP", [][2]int{r, p(4, 5)}}} }
		opened = func(r [2]int) []oChoice { return []oChoice{{"RP", [][2]int{r, p(3, 5)}}} }
	case gap <= 69:
		if n == 6 && odd >= 4 {
			row, old = [2]int{0, 0}, false
		}
		table = func(r [2]int) []oChoice { return []oChoice{{"RSP", [][2]int{r, {3, 4}, p(3, 4)}}} }
		opened = func(r [2]int) []oChoice { return []oChoice{{"RSP", [][2]int{r, anyS, p(3, 4)}}} }
	default:
		row = either
		table = func(r [2]int) []oChoice { return []oChoice{{"RSP", [][2]int{r, {4, 6}, p(3, 5)}}} }
		opened = func(r [2]int) []oChoice {
			list := []oChoice{{"RSP", [][2]int{r, anyS, p(3, 5)}}}
			if n >= 13 {
				list = append(list, oChoice{"RHSP", [][2]int{r, {4, 8}, anyS, p(3, limit)}})
			}
			return list
		}
	}
	if past > 0 {
		return [][]oChoice{opened(either)}
	}
	lines := [][]oChoice{table(row), opened(either)}
	if old {
		lines = [][]oChoice{table(two), table(row), opened(two), opened(either)}
	}
	if gap >= 35 && gap <= 48 {
		lines = append(lines, []oChoice{{"RSP", [][2]int{either, anyS, p(3, 5)}}})
	}
	return lines
}

// gapOK tells whether the blocks of gap i are one of its choices; a pinned length
// stands on its own.
func (o *oracle) gapOK(plan []oBlock, i int) bool {
	s := o.stretches[i]
	if s.gap == 0 || s.hi == s.lo {
		return true
	}
	if s.gap >= 98 {
		return has(plan, i, 'H')
	}
	first := 0
	for plan[first].stretch != i {
		first++
	}
	for _, c := range o.choices[i] {
		fits := len(plan)-first == len(c.kinds)
		for j := 0; fits && j < len(c.kinds); j++ {
			b := plan[first+j]
			_, fixed := o.pinOn(b, plan[:first+j+1])
			fits = b.kind == c.kinds[j] && (fixed || b.length >= c.weeks[j][0] && b.length <= c.weeks[j][1])
		}
		if fits {
			return true
		}
	}
	return false
}

// gapBounds are the least and most weeks of a kind over all choices of a gap.
func (o *oracle) gapBounds(kind byte, i, lo, hi int) (int, int) {
	if o.stretches[i].gap >= 98 {
		return lo, hi
	}
	lo, hi = 99, 0
	for _, c := range o.choices[i] {
		for j := range c.kinds {
			if c.kinds[j] == kind {
				lo, hi = min(lo, c.weeks[j][0]), max(hi, c.weeks[j][1])
			}
		}
	}
	return lo, hi
}
