package planner_test

import (
	"testing"
	"time"

	"blockbell/planner"
)

// The rule under test: a peaking block whose meet was moved later goes on until
// a new plan is agreed, also when the plan had recovery lined up behind it.
func TestPeakingGoesOnWhileItsMeetWasMovedLater(t *testing.T) {
	day := func(month time.Month, d int) planner.Date { return planner.NewDate(2027, month, d) }
	season := planner.Season{
		Blocks: []planner.Block{
			{Kind: planner.Strength, Start: day(time.April, 5), End: day(time.May, 16), Weeks: 6},
			{Kind: planner.Peaking, Start: day(time.May, 17), End: day(time.June, 11), Weeks: 4},
			{Kind: planner.Recovery, Start: day(time.June, 13), End: day(time.June, 20), Weeks: 1},
			{Kind: planner.Hypertrophy, Start: day(time.June, 21), End: day(time.August, 1), Weeks: 6},
		},
		Meets: []planner.SeasonMeet{{ID: 7, Name: "River Open", Date: day(time.June, 12), Kind: planner.Main}},
	}
	held := planner.Meet{ID: 7, Date: day(time.June, 12)}
	moved := planner.Meet{ID: 7, Date: day(time.June, 26)}
	tests := []struct {
		name  string
		today planner.Date
		ask   bool
		meets []planner.Meet
		want  int
	}{
		{"on its day the meet ends the block", day(time.June, 12), false, []planner.Meet{held}, -1},
		{"after the meet recovery runs", day(time.June, 14), false, []planner.Meet{held}, 2},
		{"moved later: peaking goes on over the old date", day(time.June, 12), false, []planner.Meet{moved}, 1},
		{"moved later: peaking goes on although recovery was due", day(time.June, 14), false, []planner.Meet{moved}, 1},
		{"moved later: and although the block after recovery was due", day(time.June, 23), false, []planner.Meet{moved}, 1},
		{"moved later: the same where the club is asked", day(time.June, 14), true, []planner.Meet{moved}, 1},
		{"dropped: the plan goes on by its dates", day(time.June, 14), false, nil, 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := season
			if tt.ask {
				s.Begun = []planner.Date{0, day(time.May, 17), 0, 0}
			}
			if got := s.On(tt.today, time.Monday, tt.ask, tt.meets, nil).Index; got != tt.want {
				t.Errorf("block %d runs on %s, want %d", got, tt.today, tt.want)
			}
		})
	}
}
