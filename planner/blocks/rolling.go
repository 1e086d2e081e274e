package blocks

import (
	"fmt"
	"slices"

	"blockbell/planner"
)

// Lengths of the rolling cycle that is laid out where no main meet is known, in
// order of preference.
var rollingLengths = []int{14, 15, 16, 13, 12}

// testCycle is how many training weeks a test day must lie ahead at least to be
// what a plan without a main meet is laid out for.
const testCycle = 6

// addRolling lays out the time without a main meet: up to the last test day on
// the calendar, or, where none is far enough ahead, a cycle that a virtual one
// closes. That is at least 6 weeks after any real one. A time away that ends blocks
// begins the cycle anew; a cycle that is agreed keeps its end.
func (c *calendar) addRolling(others []planner.Meet, weeks int) {
	if n := len(others); n > 0 {
		last := others[n-1].Date
		if c.trained(c.day, last) >= testCycle {
			c.add(c.day, last.AddDays(-1), planner.Test, fromToday)
			c.mark(Mark{Date: last, Kind: planner.Test})
			return
		}
	}
	end := c.cycleEnd(weeks)
	if weeks == rollingLengths[0] && c.until >= c.day && c.trained(c.day, c.until) > 0 {
		end = c.until
	}
	c.add(c.day, end, "", fromToday)
	c.mark(Mark{Date: end.AddDays(1), Kind: planner.Test, Virtual: true})
}

// trained counts the training weeks that begin in [from, to).
func (c *calendar) trained(from, to planner.Date) (n int) {
	for d := from.OnOrAfter(c.ws); d < to; d = d.AddDays(7) {
		if _, _, away := weekAway(c.told, d, d.AddDays(6), c.ws); !away {
			n++
		}
	}
	return n
}

// cycleEnd is the last day of a cycle of so many training weeks.
func (c *calendar) cycleEnd(weeks int) planner.Date {
	d := c.day.OnOrAfter(c.ws)
	for left := weeks; left > 0; d = d.AddDays(7) {
		_, _, away := weekAway(c.told, d, d.AddDays(6), c.ws)
		switch {
		case slices.ContainsFunc(c.parts, func(a Away) bool { return d >= a.From && d <= a.To }):
			left = weeks
		case !away:
			left--
		}
	}
	return d.AddDays(-1)
}

// testClosed tells whether a real test day closes the plan.
func (s *season) testClosed() bool { return s.stretches[len(s.stretches)-1].kind == planner.Test }

// rollingRow is the time without a main meet: no peaking, hypertrophy at most 8
// weeks in a row (10 for who likes long blocks) and at most 55 / 50 / 40 % of
// the weeks for novice / intermediate / advanced and elite (common practice). A
// test day so near that nothing fits takes the running strength block along.
func (s *season) rollingRow(st stretch, o loosening) row {
	n := st.weeks()
	r := s.usual(n, st.limit)
	r.noPeak, r.runShort = true, o.short
	if st.weeks() < r.span[iS][0] {
		r.span[iS][0] = st.weeks() // too little time is left for more
	}
	if o.past && st.lo == 0 && s.Running != nil && s.Running.Kind == planner.Strength {
		r.span[iS][1] = max(r.span[iS][1], s.done+n)
	}
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
	case s.testClosed():
		return []string{fmt.Sprintf("No main meet is known, so the plan ends with the last test day on the calendar, %s; add a meet and it is planned again.", day)}
	default:
		return []string{fmt.Sprintf("No main meet is known, so this is a rolling cycle of %d weeks that ends in a test of strength around %s; add a meet and it is planned again.", len(s.weeks), last.Long())}
	}
}
