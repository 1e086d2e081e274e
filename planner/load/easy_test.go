package load_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
)

// easySeason has odd days in front and three blocks up to a meet.
func easySeason() (first planner.Date, season []planner.Block, meet planner.Meet) {
	first = planner.NewDate(2027, 1, 6) // a Wednesday
	season = []planner.Block{
		{Kind: planner.Hypertrophy, Start: first, End: first.AddDays(4 + 7*9), Weeks: 9},
		{Kind: planner.Strength, Start: first.AddDays(5 + 7*9), End: first.AddDays(4 + 7*15), Weeks: 6},
		{Kind: planner.Peaking, Start: first.AddDays(5 + 7*15), End: first.AddDays(3 + 7*20), Weeks: 5, TaperStart: first.AddDays(4 + 7*18)},
	}
	return first, season, planner.Meet{ID: 1, Name: "River Open", Kind: planner.Main, Date: first.AddDays(4 + 7*20)}
}

// timesAway are none, one inside a block, one across a boundary, and several short
// ones, in days after the first.
var timesAway = map[string][][2]int{
	"none":                {},
	"three weeks":         {{19, 39}},
	"ten days":            {{40, 49}},
	"across a boundary":   {{60, 80}},
	"the first week":      {{5, 11}},
	"in strength":         {{75, 88}},
	"two that are joined": {{19, 22}, {23, 30}},
	"too short":           {{20, 25}},
	"before and in":       {{-20, 6}, {47, 60}},
}

// Deloads names the same weeks that Week plans easy, whatever time away was told,
// and both stand in the same week of the block as the season does.
func TestDeloadsAreTheWeeksPlannedEasy(t *testing.T) {
	first, season, meet := easySeason()
	for name, days := range timesAway {
		var away []planner.Away
		for _, d := range days {
			away = append(away, planner.Away{From: first.AddDays(d[0]), To: first.AddDays(d[1])})
		}
		for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced} {
			for _, born := range []planner.Date{0, planner.NewDate(1984, 1, 1), planner.NewDate(1972, 1, 1)} {
				l := planner.Lifter{Level: level, Born: born, Days: 4, HasCompeted: true}
				easy := load.Deloads(season, l, time.Monday, away)
				found := 0
				for day := first; day < meet.Date; day = day.AddDays(1) {
					in, gone := false, false
					for _, e := range easy {
						in = in || day >= e.From && day <= e.To
					}
					for _, a := range away {
						gone = gone || a.On(day)
					}
					if gone {
						continue
					}
					p, err := load.Week(load.Request{Lifter: l, Today: day, WeekStart: time.Monday, Season: season, Meets: []planner.Meet{meet}, Aways: away})
					if err != nil {
						t.Fatalf("%s: %v", day, err)
					}
					if p.Deload != in {
						t.Errorf("%s, %s, born %s: %s planned easy %t, listed %t", name, level, born, day, p.Deload, in)
					}
					at := (planner.Season{Blocks: season}).On(day, time.Monday, false, []planner.Meet{meet}, away)
					if at.Week != p.Week || at.Weeks != p.Weeks {
						t.Errorf("%s, %s: %s is week %d of %d by the season, %d of %d by the week", name, level, day, at.Week, at.Weeks, p.Week, p.Weeks)
					}
					if in {
						found++
					}
				}
				if found == 0 {
					t.Errorf("%s, %s: no easy week in twenty", name, level)
				}
			}
		}
	}
}

// The planner of blocks counts the weeks of a running block that are done in the same
// way.
func TestBlocksCountTheSameWeeks(t *testing.T) {
	first, season, meet := easySeason()
	for name, days := range timesAway {
		var away []planner.Away
		var told []blocks.Away
		for _, d := range days {
			away = append(away, planner.Away{From: first.AddDays(d[0]), To: first.AddDays(d[1])})
			told = append(told, blocks.Away{From: first.AddDays(d[0]), To: first.AddDays(d[1])})
		}
		for day := first.AddDays(12); day <= season[0].End; day = day.AddDays(7) { // Mondays
			p, err := blocks.Build(blocks.Request{Lifter: planner.Lifter{Level: planner.Intermediate}, Today: day.OnOrBefore(time.Monday), Rules: blocks.Rules{WeekStart: time.Monday},
				Meets: []planner.Meet{meet}, Running: &blocks.Running{Kind: season[0].Kind, Start: season[0].Start}, Away: told})
			if err != nil {
				t.Fatal(err)
			}
			today := day.OnOrBefore(time.Monday)
			gone := false
			for _, a := range away {
				gone = gone || a.On(today)
			}
			// What is done is the weeks before the one that begins today.
			if week, _ := planner.WeekIn(season[0], today, time.Monday, away); !gone && p.Model.Start.Block == planner.Hypertrophy && p.Model.Start.Week != week-1 {
				t.Errorf("%s: on %s %d weeks are done by the blocks, week %d runs by the calendar", name, today, p.Model.Start.Week, week)
			}
		}
	}
}
