package planner_test

import (
	"testing"
	"time"

	"blockbell/planner"
)

// twoMeets is a season with a block after the first meet's recovery and a second
// main meet at its end.
func twoMeets() planner.Season {
	s := spring()
	day := func(month time.Month, d int) planner.Date { return planner.NewDate(2027, month, d) }
	s.Blocks = append(s.Blocks,
		planner.Block{Kind: planner.Strength, Start: day(time.May, 3), End: day(time.May, 30), Weeks: 4},
		planner.Block{Kind: planner.Peaking, Start: day(time.May, 31), End: day(time.June, 25), Weeks: 4})
	s.Meets = append(s.Meets, planner.SeasonMeet{ID: 2, Name: "Hill Cup", Date: day(time.June, 26), Kind: planner.Main})
	s.Begun = make([]planner.Date, len(s.Blocks))
	return s
}

// The rules under test: a main meet ends everything before it, begun or not; no
// block runs on its day; the block behind it needs no yes; what waits is the block
// that the plan has on that day, or nothing; after the last block nothing runs.
func TestWhatRunsAndWaitsAroundMeetsInEverySetting(t *testing.T) {
	day := func(month time.Month, d int) planner.Date { return planner.NewDate(2027, month, d) }
	first, second := planner.Meet{ID: 1, Date: day(time.April, 24), Kind: planner.Main}, planner.Meet{ID: 2, Date: day(time.June, 26), Kind: planner.Main}
	later, early := first, first
	later.Date, early.Date = day(time.May, 8), day(time.March, 10)
	other := planner.Meet{ID: 9, Date: day(time.March, 6), Kind: planner.Main}
	practice := planner.Meet{ID: 9, Date: day(time.March, 6), Kind: planner.TuneUp}
	held, moved := []planner.Meet{first, second}, []planner.Meet{later, second}
	tests := []struct {
		name           string
		today          planner.Date
		meets          []planner.Meet
		begun          []int // besides the first block
		dated, asked   int   // what runs where blocks begin on their dates, and where they wait
		waitingForAYes int
	}{
		{"the first block waits for nobody", day(time.January, 5), held, nil, 0, 0, -1},
		{"the second waits", day(time.February, 20), held, nil, 1, 0, 1},
		{"its end has passed: the third is what waits", day(time.March, 30), held, nil, 2, 0, 2},
		{"the second was begun: the third waits", day(time.March, 30), held, []int{1}, 2, 1, 2},
		{"the day before the meet, nothing begun", day(time.April, 23), held, nil, 2, 0, 2},
		{"meet day, nothing begun", day(time.April, 24), held, nil, -1, -1, -1},
		{"meet day, peaking begun", day(time.April, 24), held, []int{1, 2}, -1, -1, -1},
		{"recovery needs no yes", day(time.April, 25), held, nil, 3, 3, -1},
		{"what follows recovery does", day(time.May, 4), held, nil, 4, 3, 4},
		{"and its successor after it", day(time.June, 2), held, nil, 5, 3, 5},
		{"the second meet day", day(time.June, 26), held, nil, -1, -1, -1},
		{"the end of the season", day(time.June, 27), held, nil, -1, -1, -1},
		{"moved later: the old day is a day of peaking", day(time.April, 24), moved, []int{1, 2}, 2, 2, -1},
		{"moved later, peaking not begun: a new plan is needed", day(time.April, 26), moved, []int{1}, 2, 1, -1},
		{"moved later: the new day, though a later block was due", day(time.May, 8), moved, []int{1, 2}, -1, -1, -1},
		{"moved earlier: the new day", day(time.March, 10), []planner.Meet{early, second}, nil, -1, -1, -1},
		{"moved earlier: nothing runs until the old day", day(time.April, 1), []planner.Meet{early, second}, nil, -1, -1, -1},
		{"moved earlier: then the plan goes on", day(time.April, 25), []planner.Meet{early, second}, nil, 3, 3, -1},
		{"a main meet that is not in the plan", day(time.March, 6), append(held, other), nil, -1, -1, -1},
		{"a practice meet lies inside a block", day(time.March, 6), append(held, practice), nil, 1, 0, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := twoMeets()
			for _, i := range tt.begun {
				s.Begun[i] = s.Blocks[i].Start
			}
			if got := s.On(tt.today, time.Monday, false, tt.meets, nil); got.Index != tt.dated || got.Waiting != -1 {
				t.Errorf("by dates block %d runs and %d waits, want %d and none", got.Index, got.Waiting, tt.dated)
			}
			if got := s.On(tt.today, time.Monday, true, tt.meets, nil); got.Index != tt.asked || got.Waiting != tt.waitingForAYes {
				t.Errorf("asked, block %d runs and %d waits, want %d and %d", got.Index, got.Waiting, tt.asked, tt.waitingForAYes)
			}
		})
	}
}

// Without a meet the last planned day ends the season, also where nobody let
// anything begin.
func TestSeasonWithoutAMeetEndsWhereItsPlanEnds(t *testing.T) {
	s := spring()
	s.Blocks, s.Meets, s.Begun = s.Blocks[:2], nil, s.Begun[:2]
	end := s.Blocks[1].End
	if got := s.On(end, time.Monday, true, nil, nil); got.Index != 0 || got.Waiting != 1 {
		t.Errorf("on its last day: %+v", got)
	}
	for _, ask := range []bool{false, true} {
		if got := s.On(end.AddDays(1), time.Monday, ask, nil, nil); got.Index != -1 {
			t.Errorf("the day after, ask %t: %+v", ask, got)
		}
	}
}
