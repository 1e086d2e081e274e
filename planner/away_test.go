package planner_test

import (
	"testing"
	"time"

	"blockbell/planner"
)

// A week of which four days or more are away is no week of the block (common
// practice), and what is not trained is not counted on either side of the 'of'.
func TestWeekInLeavesOutWeeksAway(t *testing.T) {
	monday := planner.NewDate(2027, time.January, 4)
	day := func(week, day int) planner.Date { return monday.AddDays(7*(week-1) + day) }
	block := planner.Block{Kind: planner.Hypertrophy, Start: monday, End: day(11, 6), Weeks: 11}
	late := planner.Block{Kind: planner.Strength, Start: day(1, 2), End: day(4, 6), Weeks: 3} // odd days in front
	three := []planner.Away{{From: day(3, 0), To: day(5, 6)}}
	for _, c := range []struct {
		name        string
		b           planner.Block
		today       planner.Date
		away        []planner.Away
		week, weeks int
	}{
		{"nothing told", block, day(5, 2), nil, 5, 11},
		{"before it", block, day(2, 6), three, 2, 8},
		{"in it", block, day(4, 0), three, 2, 8},
		{"first day back", block, day(6, 0), three, 3, 8},
		{"the last week", block, day(11, 6), three, 8, 8},
		{"past the end the count goes on", block, day(13, 0), three, 10, 8},
		{"less than a week is nothing", block, day(6, 0), []planner.Away{{From: day(3, 0), To: day(3, 5)}}, 6, 11},
		{"two that follow each other are one", block, day(6, 0), []planner.Away{{From: day(3, 4), To: day(3, 6)}, {From: day(3, 0), To: day(3, 3)}}, 5, 10},
		{"back on a Thursday: that week is trained by three days only", block, day(4, 4), []planner.Away{{From: day(3, 0), To: day(4, 3)}}, 2, 9},
		{"back on a Wednesday: it is trained", block, day(4, 2), []planner.Away{{From: day(3, 0), To: day(4, 1)}}, 3, 10},
		{"not back yet", block, day(4, 6), []planner.Away{{From: day(3, 0)}}, 2, 9},
		{"a plan that left the weeks out already", planner.Block{Start: monday, End: day(11, 6), Weeks: 8}, day(6, 0), three, 3, 8},
		{"the first week away", block, day(2, 0), []planner.Away{{From: day(1, 0), To: day(1, 6)}}, 1, 10},
		{"odd days in front", late, day(2, 0), nil, 1, 3},
		{"odd days in front, then a week away", late, day(3, 0), []planner.Away{{From: day(2, 0), To: day(2, 6)}}, 1, 2},
	} {
		if week, weeks := planner.WeekIn(c.b, c.today, time.Monday, c.away); week != c.week || weeks != c.weeks {
			t.Errorf("%s: week %d of %d, want %d of %d", c.name, week, weeks, c.week, c.weeks)
		}
	}
}
