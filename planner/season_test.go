package planner_test

import (
	"testing"
	"time"

	"blockbell/planner"
)

// spring is a season of three blocks before a meet and one after it.
func spring() planner.Season {
	day := func(month time.Month, d int) planner.Date { return planner.NewDate(2027, month, d) }
	return planner.Season{
		Blocks: []planner.Block{
			{Kind: planner.Hypertrophy, Start: day(time.January, 1), End: day(time.February, 14), Weeks: 6}, // 1 January is a Friday
			{Kind: planner.Strength, Start: day(time.February, 15), End: day(time.March, 28), Weeks: 6},
			{Kind: planner.Peaking, Start: day(time.March, 29), End: day(time.April, 23), Weeks: 4},
			{Kind: planner.Recovery, Start: day(time.April, 25), End: day(time.May, 2), Weeks: 1},
		},
		Meets: []planner.SeasonMeet{{ID: 1, Name: "River Open", Date: day(time.April, 24), Kind: planner.Main}},
		Begun: make([]planner.Date, 4),
	}
}

func TestStandingDayByDay(t *testing.T) {
	s := spring()
	meets := []planner.Meet{{ID: 1, Date: planner.NewDate(2027, 4, 24)}}
	for _, tt := range []struct {
		name                   string
		today                  planner.Date
		index, day, week, next int
	}{
		{"before it begins", planner.NewDate(2026, 12, 31), -1, 0, 0, -1},
		{"odd days in front are week 1", planner.NewDate(2027, 1, 3), 0, 3, 1, 1},
		{"the first training week is week 1", planner.NewDate(2027, 1, 4), 0, 4, 1, 1},
		{"the second", planner.NewDate(2027, 1, 11), 0, 11, 2, 1},
		{"last day", planner.NewDate(2027, 2, 14), 0, 45, 6, 1},
		{"first day of the next", planner.NewDate(2027, 2, 15), 1, 1, 1, 2},
		{"the day before the meet", planner.NewDate(2027, 4, 23), 2, 26, 4, 3},
		{"meet day", planner.NewDate(2027, 4, 24), -1, 0, 0, -1},
		{"the day after", planner.NewDate(2027, 4, 25), 3, 1, 1, -1},
		{"over", planner.NewDate(2027, 5, 3), -1, 0, 0, -1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := s.On(tt.today, time.Monday, false, meets, nil)
			if got.Index != tt.index || got.Day != tt.day || got.Week != tt.week || got.Next != tt.next || got.Overdue != 0 || got.Waiting != -1 {
				t.Errorf("%+v", got)
			}
		})
	}
}

func TestStandingWhereTheClubIsAsked(t *testing.T) {
	s := spring()
	meets := []planner.Meet{{ID: 1, Date: planner.NewDate(2027, 4, 24)}}
	got := s.On(planner.NewDate(2027, 2, 20), time.Monday, true, meets, nil)
	if got.Index != 0 || got.Overdue != 6 || got.Waiting != 1 {
		t.Errorf("nobody let the second block begin: %+v", got)
	}
	got = s.On(planner.NewDate(2027, 4, 1), time.Monday, true, meets, nil)
	if got.Index != 0 || got.Waiting != 2 {
		t.Errorf("the plan has reached the third block: %+v", got)
	}
	s.Begun[1] = planner.NewDate(2027, 2, 20)
	if got = s.On(planner.NewDate(2027, 2, 20), time.Monday, true, meets, nil); got.Index != 1 || got.Overdue != 0 {
		t.Errorf("begun: %+v", got)
	}
	if got = s.On(planner.NewDate(2027, 4, 24), time.Monday, true, meets, nil); got.Index != -1 {
		t.Errorf("on meet day, peaking never begun: %+v", got)
	}
	if got = s.On(planner.NewDate(2027, 4, 23), time.Monday, true, meets, nil); got.Index != 1 || got.Waiting != 2 {
		t.Errorf("the day before: %+v", got)
	}
	if got = s.On(planner.NewDate(2027, 5, 20), time.Monday, true, meets, nil); got.Index != -1 {
		t.Errorf("weeks after the meet: %+v", got)
	}
	if got = s.On(planner.NewDate(2027, 4, 26), time.Monday, true, meets, nil); got.Index != 3 {
		t.Errorf("recovery needs no yes: %+v", got)
	}
}

func TestWeeksDoneCountWeeksThatHaveBegun(t *testing.T) {
	friday := planner.NewDate(2027, 1, 1)
	for today, want := range map[planner.Date]int{
		friday: 0, friday.AddDays(3): 0, friday.AddDays(4): 1, friday.AddDays(10): 1, friday.AddDays(11): 2,
	} {
		if got := planner.WeeksDone(friday, today, time.Monday); got != want {
			t.Errorf("on %s (%s): %d, want %d", today, today.Weekday(), got, want)
		}
	}
}

func TestLifterWithoutATotalHasNone(t *testing.T) {
	l := planner.Lifter{Squat: 100000, Bench: 60000}
	if l.Total() != 0 {
		t.Errorf("a total of %d without a deadlift", l.Total())
	}
	l.Deadlift = 120000
	if l.Total() != 280000 || l.Best(planner.Deadlift) != 120000 || l.Best("row") != 0 {
		t.Errorf("total %d", l.Total())
	}
	if l.PlannedLevel() != planner.Novice {
		t.Errorf("untold level is planned as %s", l.PlannedLevel())
	}
}
