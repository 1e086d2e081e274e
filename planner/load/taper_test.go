package load_test

import (
	"fmt"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// peakCase is a peaking block that ends before a meet on some weekday, for a lifter
// with chosen training days.
type peakCase struct {
	level  planner.Level
	age    int
	kg     float64
	event  planner.EventKind
	meetOn time.Weekday
	days   []planner.Weekday
}

func (c peakCase) String() string {
	return fmt.Sprintf("%s of %d years, %g kg, %s on a %s, trains on %v", c.level, c.age, c.kg, c.event, c.meetOn, c.days)
}

// everyChoice visits every choice of 2 to 6 weekdays.
func everyChoice(visit func([]planner.Weekday)) {
	for mask := 1; mask < 1<<7; mask++ {
		var days []planner.Weekday
		for d := range 7 {
			if mask&(1<<d) != 0 {
				days = append(days, planner.Weekday((d+1)%7))
			}
		}
		if len(days) >= 2 && len(days) <= 6 {
			visit(days)
		}
	}
}

// sessionsOf plans every week of a peaking block of five weeks and returns its
// sessions in order.
func (c peakCase) sessionsOf(t *testing.T) ([]load.Day, planner.Date) {
	t.Helper()
	meet := planner.NewDate(2027, time.May, 3).OnOrAfter(c.meetOn)
	start := meet.AddDays(-30).OnOrAfter(time.Monday)
	r := load.Request{WeekStart: time.Monday, Training: c.days, Previous: &load.Plan{}}
	weeks := planner.WeekOf(start, meet.AddDays(-1), time.Monday)
	r.Season = []planner.Block{
		{Kind: planner.Strength, Start: start.AddDays(-28), End: start.AddDays(-1), Weeks: 4},
		{Kind: planner.Peaking, Start: start, End: meet.AddDays(-1), Weeks: weeks}}
	r.Meets = []planner.Meet{{ID: 1, Date: meet, Kind: planner.Main, Event: c.event}}
	r.Lifter = planner.Lifter{Level: c.level, Category: planner.Men, Bodyweight: planner.Kilograms(c.kg), HasCompeted: true, Days: len(c.days),
		Born: planner.NewDate(2027-c.age, time.January, 1)}
	r.Estimates = map[planner.Lift]load.Estimate{planner.Squat: {Kg: 200}, planner.Bench: {Kg: 130}, planner.Deadlift: {Kg: 230}}
	var all []load.Day
	for r.Today = start; r.Today < meet; r.Today = r.Today.OnOrBefore(time.Monday).AddDays(7) {
		p, err := load.Week(r)
		if err != nil {
			t.Fatalf("%s: %v", c, err)
		}
		all = append(all, p.Days...)
	}
	return all, meet
}

// The windows of the last heavy days and of the last session are those of three
// surveys (Travis et al. 2021, Grgic and Mikulic 2017, Pritchard et al. 2016): squat
// 7 to 10, deadlift 7 to 14, bench 4 to 7, last session 2 to 4 days out; that two
// heavy lower-body days never lie next to each other is common practice.
func TestTaperOnEveryChoiceOfTrainingDays(t *testing.T) {
	cases, outside := 0, map[planner.Lift]int{}
	for _, who := range []peakCase{
		{level: planner.Novice, age: 25, kg: 80}, {level: planner.Intermediate, age: 25, kg: 80}, {level: planner.Advanced, age: 25, kg: 80},
		{level: planner.Elite, age: 25, kg: 128}, {level: planner.Novice, age: 62, kg: 80}, {level: planner.Advanced, age: 62, kg: 80},
	} {
		for meetOn := time.Sunday; meetOn <= time.Saturday; meetOn++ {
			everyChoice(func(days []planner.Weekday) {
				c := who
				c.event, c.meetOn, c.days = planner.Full, meetOn, days
				all, meet := c.sessionsOf(t)
				cases++
				checkTaper(t, c, all, meet, outside)
			})
		}
	}
	t.Logf("%d calendars; no training day inside the window of the last heavy day: %v", cases, outside)
}

func checkTaper(t *testing.T, c peakCase, all []load.Day, meet planner.Date, outside map[planner.Lift]int) {
	t.Helper()
	var lower planner.Date
	last := map[planner.Lift]int{}
	for _, d := range all {
		out := d.Date.DaysUntil(meet)
		heavyLower := false
		for _, w := range d.Work {
			heavy := w.Role == load.Top && w.Percent > 85
			if heavy {
				last[w.Lift] = out
			}
			heavyLower = heavyLower || heavy && w.Lift != planner.Bench
			if w.Role == load.Accessory && (out <= 7 || out <= 10 && c.level != planner.Novice) {
				t.Errorf("%s: accessory %d days out", c, out)
			}
		}
		if heavyLower {
			if lower != 0 && lower.DaysUntil(d.Date) < 2 {
				t.Errorf("%s: heavy lower-body days %s and %s", c, lower, d.Date)
			}
			lower = d.Date
		}
	}
	final := all[len(all)-1]
	if out := final.Date.DaysUntil(meet); out < 2 || out > 4 {
		t.Errorf("%s: last session %d days out", c, out)
	}
	for _, w := range final.Work {
		if w.Percent < 70 || w.Percent > 75 {
			t.Errorf("%s: %s at %.1f %% in the last session", c, w.Name, w.Percent)
		}
	}
	for l, w := range map[planner.Lift][2]int{planner.Squat: {7, 10}, planner.Bench: {4, 7}, planner.Deadlift: {7, 14}} {
		switch out, ok := last[l]; {
		case !ok:
			t.Errorf("%s: no heavy %s", c, l)
		case out < w[0] && l != planner.Bench || out > w[1]+4:
			t.Errorf("%s: last heavy %s %d days out", c, l, out)
		case out > w[1]:
			outside[l]++
			for _, d := range c.days {
				for o := w[0]; o <= w[1]; o++ {
					if l != planner.Squat && meet.AddDays(-o).Weekday() == d && meet.AddDays(-o) < final.Date {
						t.Errorf("%s: last heavy %s %d days out, though %d was a training day", c, l, out, o)
					}
				}
			}
		}
	}
}

// Sets of the competition lifts in the last two weeks against the week before
// them: about 70 % and 45 to 50 % (surveys: cuts of 41 to 59 % by Travis et al. 2021,
// Grgic and Mikulic 2017, Pritchard et al. 2016; the first of the two: common
// practice). Whole sets of three lifts leave some play.
func TestTaperCutsTheSets(t *testing.T) {
	spreads := [][]planner.Weekday{{1, 3, 5}, {1, 2, 4, 6}, {1, 2, 3, 5, 6}, {1, 4}}
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced, planner.Elite} {
		for _, days := range spreads {
			for meetOn := time.Sunday; meetOn <= time.Saturday; meetOn++ {
				c := peakCase{level, 25, 80, planner.Full, meetOn, days}
				all, meet := c.sessionsOf(t)
				sets := [4]float64{} // by weeks out
				for _, d := range all {
					for _, w := range d.Work {
						if out := d.Date.DaysUntil(meet); w.Lift.Competition() && out <= 21 {
							sets[(out-1)/7+1] += float64(w.Sets)
						}
					}
				}
				base := sets[3]
				if s := sets[1] / base; s < 0.3 || s > 0.6 {
					t.Errorf("%s: last week %.0f sets, %.0f %%", c, sets[1], 100*s)
				}
				if s := sets[2] / base; level != planner.Novice && (s < 0.55 || s > 0.85) {
					t.Errorf("%s: week before %.0f sets, %.0f %%", c, sets[2], 100*s)
				}
			}
		}
	}
}
