package load_test

import (
	"fmt"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// A sweep is every level x block x length x week x days x age group x event, with
// invented maxes that grow with the level.
type sweepCase struct {
	level  planner.Level
	kind   planner.BlockKind
	weeks  int
	days   int
	age    int
	event  planner.EventKind
	first  bool // the next meet is the first
	meetOn time.Weekday
}

func (c sweepCase) String() string {
	return fmt.Sprintf("%s %s of %d weeks, %d days, age %d, %s, first %t", c.level, c.kind, c.weeks, c.days, c.age, c.event, c.first)
}

// lengths are the lengths of block under test.
var lengths = map[planner.BlockKind][]int{
	planner.Hypertrophy: {3, 4, 5, 6, 7, 8, 10, 12},
	planner.Strength:    {3, 4, 5, 6, 7, 8, 9},
	planner.Peaking:     {3, 4, 5, 6, 8},
	planner.Recovery:    {1, 2},
}

func eachCase(visit func(sweepCase)) {
	for _, level := range planner.Levels() {
		for kind, ls := range lengths {
			for _, weeks := range ls {
				for days := 2; days <= 6; days++ {
					for _, age := range []int{16, 25, 45, 55, 65, 75} {
						for _, event := range []planner.EventKind{planner.Full, planner.BenchOnly, planner.PushPull, planner.DeadliftOnly} {
							visit(sweepCase{level, kind, weeks, days, age, event, level == planner.New || level == planner.Novice && age == 16, time.Saturday})
						}
					}
				}
			}
		}
	}
}

var sweepStart = planner.NewDate(2027, time.March, 1) // a Monday

// request builds the season around the case: the block before it, the block, and
// what follows; peaking ends on the day before a Saturday.
func (c sweepCase) request() load.Request {
	before := map[planner.BlockKind]planner.BlockKind{planner.Hypertrophy: planner.Recovery, planner.Strength: planner.Hypertrophy, planner.Peaking: planner.Strength, planner.Recovery: planner.Peaking}[c.kind]
	after := map[planner.BlockKind]planner.BlockKind{planner.Hypertrophy: planner.Strength, planner.Strength: planner.Peaking, planner.Peaking: planner.Recovery, planner.Recovery: planner.Hypertrophy}[c.kind]
	end := sweepStart.AddDays(7*c.weeks - 1)
	r := load.Request{WeekStart: time.Monday}
	meet := end.AddDays(7*4 - 1)
	if c.kind == planner.Peaking {
		end = end.AddDays(-2)
		meet = end.AddDays(1)
	} else if after != planner.Peaking {
		meet = end.AddDays(7 * 20)
	}
	afterEnd := end.AddDays(28)
	if after == planner.Peaking {
		afterEnd = meet.AddDays(-1)
	}
	r.Season = []planner.Block{
		{Kind: before, Start: sweepStart.AddDays(-28), End: sweepStart.AddDays(-1), Weeks: 4},
		{Kind: c.kind, Start: sweepStart, End: end, Weeks: c.weeks},
		{Kind: after, Start: end.AddDays(1), End: afterEnd, Weeks: 4},
	}
	if c.kind == planner.Peaking {
		r.Season[2].Start = end.AddDays(2)
	}
	r.Meets = []planner.Meet{{ID: 1, Date: meet, Kind: planner.Main, Event: c.event}}
	r.Lifter = planner.Lifter{Level: c.level, Days: c.days, Category: planner.Women, Bodyweight: planner.Kilograms(72), HasCompeted: !c.first,
		Born: planner.NewDate(2027-c.age, time.January, 1)}
	scale := map[planner.Level]float64{planner.New: 0.5, planner.Novice: 0.65, planner.Intermediate: 1, planner.Advanced: 1.25, planner.Elite: 1.5}[c.level]
	r.Estimates = map[planner.Lift]load.Estimate{
		planner.Squat: {Kg: 120 * scale, Source: load.Trend}, planner.Bench: {Kg: 80 * scale, Source: load.Trend}, planner.Deadlift: {Kg: 140 * scale, Source: load.Trend}}
	return r
}

func TestSweep(t *testing.T) {
	weeks, failures := 0, map[string]int{}
	examples := map[string]string{}
	fail := func(c sweepCase, week int, rule, format string, args ...any) {
		failures[rule]++
		if examples[rule] == "" {
			examples[rule] = fmt.Sprintf("%s, week %d: ", c, week) + fmt.Sprintf(format, args...)
		}
	}
	eachCase(func(c sweepCase) {
		r := c.request()
		var last *load.Plan
		for w := 1; w <= c.weeks; w++ {
			r.Today = sweepStart.AddDays(7 * (w - 1))
			r.Previous = &load.Plan{}
			p, err := load.Week(r)
			if err != nil {
				t.Fatalf("%s: %v", c, err)
			}
			weeks++
			checkWeek(c, w, r, p, last, fail)
			if !p.Deload {
				last = &p
			}
		}
	})
	t.Logf("%d weeks", weeks)
	for rule, n := range failures {
		t.Errorf("%s: %d times, first %s", rule, n, examples[rule])
	}
}

func checkWeek(c sweepCase, week int, r load.Request, p load.Plan, last *load.Plan, fail func(sweepCase, int, string, string, ...any)) {
	if p.Week != week || p.Block != c.kind {
		fail(c, week, "calendar", "%s week %d", p.Block, p.Week)
	}
	ordinary := !p.Deload && !p.Taper && c.kind != planner.Recovery
	for _, l := range planner.CompetitionLifts() {
		lo, hi, ok := load.SetRange(c.level, c.kind, l)
		counts := load.EventCounts(c.event, l)
		out := p.End.DaysUntil(r.Meets[0].Date)
		full := c.kind != planner.Peaking || out > 14
		if ok && ordinary && counts && full && (p.LiftSets[l] < lo || p.LiftSets[l] > hi) {
			fail(c, week, "sets in the table", "%s %d sets, table %d to %d", l, p.LiftSets[l], lo, hi)
		}
		if last != nil && ordinary && c.kind != planner.Peaking && last.Block == p.Block {
			if d := p.LiftSets[l] - last.LiftSets[l]; d > 2 {
				fail(c, week, "sets up by two", "%s %d after %d", l, p.LiftSets[l], last.LiftSets[l])
			}
			if a, b := last.Tonnage(l), p.Tonnage(l); b > 1.15*a*1.000001 {
				fail(c, week, "tonnage up by 15 %", "%s %.0f after %.0f: %+.0f %%", l, b, a, 100*(b/a-1))
			}
		}
	}
	if c.kind == planner.Hypertrophy && ordinary {
		lo, hi := load.MuscleRange(c.level)
		for _, m := range load.Groups() {
			if n := p.Muscles[m]; n > float64(hi) || n < float64(lo) && len(p.LeftOut) == 0 {
				fail(c, week, "muscle range "+string(m), "%g sets of %d to %d", n, lo, hi)
			}
		}
	}
	for _, d := range p.Days {
		sets := 0
		for _, w := range d.Work {
			sets += w.Sets
			checkWork(c, week, r, p, w, fail)
		}
		if sets > 20 || d.Minutes > 100 {
			fail(c, week, "session", "%d sets, %d minutes", sets, d.Minutes)
		}
	}
}

func checkWork(c sweepCase, week int, r load.Request, p load.Plan, w load.Work, fail func(sweepCase, int, string, string, ...any)) {
	if w.Role == load.Accessory {
		return
	}
	if got := strength.Percent(strength.Default, float64(w.Reps)+w.Reserve); got != w.Percent {
		fail(c, week, "one relation", "%s %d reps %g left is %g, said %g", w.Name, w.Reps, w.Reserve, got, w.Percent)
	}
	top := 93.0
	if w.Lift == planner.Bench {
		top = 94
	}
	if c.first {
		top = 90
	}
	if c.age < 18 {
		top = 85
	}
	if w.Percent > top {
		fail(c, week, "ceiling", "%s at %.1f %%", w.Name, w.Percent)
	}
	if w.Reserve < 1 {
		fail(c, week, "effort 9", "%s with %g left", w.Name, w.Reserve)
	}
}
