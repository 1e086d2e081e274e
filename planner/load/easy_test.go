package load_test

import (
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

// Deloads names the same weeks that Week plans easy.
func TestDeloadsAreTheWeeksPlannedEasy(t *testing.T) {
	first := planner.NewDate(2027, 1, 6) // a Wednesday: odd days in front
	season := []planner.Block{
		{Kind: planner.Hypertrophy, Start: first, End: first.AddDays(4 + 7*9), Weeks: 9},
		{Kind: planner.Strength, Start: first.AddDays(5 + 7*9), End: first.AddDays(4 + 7*15), Weeks: 6},
		{Kind: planner.Peaking, Start: first.AddDays(5 + 7*15), End: first.AddDays(3 + 7*20), Weeks: 5, TaperStart: first.AddDays(4 + 7*18)},
	}
	meet := planner.Meet{ID: 1, Name: "River Open", Kind: planner.Main, Date: first.AddDays(4 + 7*20)}
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced} {
		for _, born := range []planner.Date{0, planner.NewDate(1984, 1, 1), planner.NewDate(1972, 1, 1)} {
			l := planner.Lifter{Level: level, Born: born, Days: 4, HasCompeted: true}
			easy := load.Deloads(season, l, 1)
			found := 0
			for day := first; day < meet.Date; day = day.AddDays(1) {
				in := false
				for _, e := range easy {
					in = in || day >= e.From && day <= e.To
				}
				p, err := load.Week(load.Request{Lifter: l, Today: day, WeekStart: 1, Season: season, Meets: []planner.Meet{meet}})
				if err != nil {
					t.Fatalf("%s: %v", day, err)
				}
				if p.Deload != in {
					t.Errorf("%s, born %s: %s planned easy %t, listed %t", level, born, day, p.Deload, in)
				}
				if in {
					found++
				}
			}
			if found == 0 {
				t.Errorf("%s: no easy week in twenty", level)
			}
		}
	}
}
