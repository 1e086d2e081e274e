package blocks

import (
	"fmt"

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
// closes. That is at least 6 weeks after any real one.
func (c *calendar) addRolling(today planner.Date, others []planner.Meet, ws planner.Weekday, weeks int) {
	if n := len(others); n > 0 {
		last := others[n-1].Date
		if weeksIn(today, last.AddDays(-1), ws) >= testCycle {
			c.add(today, last.AddDays(-1), ws, planner.Test)
			c.mark(Mark{Date: last, Kind: planner.Test})
			return
		}
	}
	end := today.OnOrAfter(ws).AddDays(7*weeks - 1)
	c.add(today, end, ws, "")
	c.mark(Mark{Date: end.AddDays(1), Kind: planner.Test, Virtual: true})
}

// rollingRow is the time without a main meet: no peaking, hypertrophy at most 8
// weeks in a row (10 for who likes long blocks) and at most 55 / 50 / 40 % of
// the weeks for novice / intermediate / advanced and elite (common practice). A
// test day so near that nothing fits takes the running strength block along.
func (s *season) rollingRow(st stretch, o loosening) row {
	n := st.weeks()
	r := s.usual(n, st.limit)
	r.noPeak, r.runShort = true, o.short
	if o.past && s.Running != nil && s.Running.Kind == planner.Strength {
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
	case s.stretches[0].kind == planner.Test:
		return []string{fmt.Sprintf("No main meet is known, so the plan ends with the last test day on the calendar, %s; add a meet and it is planned again.", day)}
	default:
		return []string{fmt.Sprintf("No main meet is known, so this is a rolling cycle of %d weeks that ends in a test of strength around %s; add a meet and it is planned again.", len(s.weeks), last.Long())}
	}
}
