package load_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// A sweep is every level x block x length x week x days x age group x event, with
// invented maxes that grow with the level.
type sweepCase struct {
	level planner.Level
	kind  planner.BlockKind
	weeks int
	days  int
	age   int
	event planner.EventKind
	first bool // the next meet is the first
}

func (c sweepCase) String() string {
	return fmt.Sprintf("%s %s of %d weeks, %d days, age %d, %s, first %t", c.level, c.kind, c.weeks, c.days, c.age, c.event, c.first)
}

// lengths are the lengths of block under test.
var lengths = map[planner.BlockKind][]int{
	planner.Hypertrophy: {3, 4, 5, 6, 7, 8, 10, 12},
	planner.Strength:    {3, 4, 5, 6, 7, 8, 9},
	planner.Peaking:     {1, 2, 3, 4, 5, 6, 8},
	planner.Recovery:    {1, 2},
}

// fewLengths are those for events in which not every lift counts.
var fewLengths = map[planner.BlockKind][]int{planner.Hypertrophy: {4, 8}, planner.Strength: {4, 7}, planner.Peaking: {4}, planner.Recovery: {1}}

func eachCase(visit func(sweepCase)) {
	for _, level := range planner.Levels() {
		for _, kind := range []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery} {
			for _, event := range []planner.EventKind{planner.Full, planner.BenchOnly, planner.PushPull, planner.DeadliftOnly} {
				weeks, ages := lengths[kind], []int{16, 25, 45, 55, 65, 75}
				if event != planner.Full {
					weeks, ages = fewLengths[kind], []int{16, 25, 65}
				}
				for _, n := range weeks {
					for days := 2; days <= 6; days++ {
						for _, age := range ages {
							visit(sweepCase{level, kind, n, days, age, event, level == planner.New || level == planner.Novice && age == 16})
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
	eachCase(func(c sweepCase) {
		r := c.request()
		s := &sweep{c: c, r: r, last: map[planner.Lift]load.Plan{}, before: map[string]load.Work{}}
		s.fail = func(rule, format string, args ...any) {
			failures[rule]++
			if examples[rule] == "" {
				examples[rule] = fmt.Sprintf("%s, week %d: ", c, s.week) + fmt.Sprintf(format, args...)
			}
		}
		for s.week = 1; s.week <= c.weeks; s.week++ {
			r.Today = sweepStart.AddDays(7 * (s.week - 1))
			r.Previous = &load.Plan{}
			p, err := load.Week(r)
			if err != nil {
				t.Fatalf("%s: %v", c, err)
			}
			weeks++
			s.check(p)
		}
		s.checkBlock()
	})
	t.Logf("%d weeks", weeks)
	for rule, n := range failures {
		t.Errorf("%s: %d times, first %s", rule, n, examples[rule])
	}
}

// sweep holds what the checks of one case carry from week to week.
type sweep struct {
	c      sweepCase
	r      load.Request
	week   int
	last   map[planner.Lift]load.Plan // last loading week by lift
	before map[string]load.Work       // work of the last loading week by place
	totals []int                      // hard sets of the loading weeks
	fail   func(rule, format string, args ...any)
}

func (s *sweep) old() bool { return s.c.age >= 60 }

// lightDeadlift tells whether the week is one of those in which a lifter of 60 and
// older does not lift a heavy deadlift.
func (s *sweep) lightDeadlift(p load.Plan) bool {
	if !s.old() || s.c.kind != planner.Strength {
		return false
	}
	for _, d := range p.Days {
		for _, w := range d.Work {
			if w.Lift == planner.Deadlift && w.Role == load.Top {
				return false
			}
		}
	}
	return true
}

// check holds a week against the table of common practice and its session limits.
func (s *sweep) check(p load.Plan) {
	if p.Week != s.week || p.Block != s.c.kind {
		s.fail("calendar", "%s week %d", p.Block, p.Week)
	}
	ordinary := !p.Deload && !p.Taper && s.c.kind != planner.Recovery && p.End.DaysUntil(s.r.Meets[0].Date) > 14
	if ordinary {
		s.checkSets(p)
		s.checkMuscles(p)
	}
	if p.Deload {
		s.checkDeload(p)
	}
	for _, d := range p.Days {
		s.checkDay(p, d)
	}
	if ordinary {
		s.checkSteps(p)
		total := 0
		for _, l := range planner.CompetitionLifts() {
			total += p.LiftSets[l]
			if l != planner.Deadlift || !s.lightDeadlift(p) {
				s.last[l] = p
			}
		}
		s.totals = append(s.totals, total)
	}
}

// Weekly hard sets by lift (common practice), and how weeks compare: two sets and
// 15 % of tonnage at most.
func (s *sweep) checkSets(p load.Plan) {
	for _, l := range planner.CompetitionLifts() {
		lo, hi, ok := load.SetRange(s.c.level, s.c.kind, l)
		if n := p.LiftSets[l]; ok && load.EventCounts(s.c.event, l) && (n < lo || n > hi) {
			s.fail("sets in the table", "%s %d sets, table %d to %d", l, n, lo, hi)
		}
		last, ok := s.last[l]
		if !ok || s.c.kind == planner.Peaking {
			continue
		}
		if d := p.LiftSets[l] - last.LiftSets[l]; d > 2 {
			s.fail("sets up by two", "%s %d after %d", l, p.LiftSets[l], last.LiftSets[l])
		}
		if a, b := last.Tonnage(l), p.Tonnage(l); b > 1.15*a*(1+1e-9) {
			s.fail("tonnage up by 15 %", "%s %.0f after %.0f: %+.0f %%", l, b, a, 100*(b/a-1))
		}
	}
}

// Sets by muscle in hypertrophy (common practice), and upkeep in the blocks after
// it: a third of the hypertrophy sets, a half from 60 years (Bickel et al. 2011).
func (s *sweep) checkMuscles(p load.Plan) {
	lo, hi := load.MuscleRange(s.c.level)
	for _, m := range load.Groups() {
		n := p.Muscles[m]
		low := float64(lo)
		if s.c.event == planner.BenchOnly && (m == load.Quads || m == load.Hips) {
			low *= load.UpkeepShare(s.c.age) // a bench meet keeps legs at upkeep
		}
		said := strings.Contains(strings.Join(p.LeftOut, " "), string(m))
		if s.c.kind == planner.Hypertrophy && (n > float64(hi) || n < low && !said) {
			s.fail("muscle range "+string(m), "%g sets of %d to %d", n, lo, hi)
		}
		if need := load.UpkeepShare(s.c.age) * s.most(m); s.c.kind != planner.Hypertrophy && n < need-1e-9 && !said {
			s.fail("upkeep "+string(m), "%g sets, %g needed", n, need)
		}
	}
}

var mostOf = map[string]float64{}

// most is the largest weekly sets of a muscle in an 8-week hypertrophy block of
// the same lifter.
func (s *sweep) most(m load.Muscle) float64 {
	c := s.c
	c.kind, c.weeks = planner.Hypertrophy, 8
	key := c.String() + string(m)
	if n, ok := mostOf[key]; ok {
		return n
	}
	for _, m := range load.Groups() {
		mostOf[c.String()+string(m)] = 0
	}
	r := c.request()
	for w := range c.weeks {
		r.Today, r.Previous = sweepStart.AddDays(7*w), &load.Plan{}
		p, err := load.Week(r)
		if err != nil {
			panic(err)
		}
		for m, n := range p.Muscles {
			mostOf[c.String()+string(m)] = max(mostOf[c.String()+string(m)], n)
		}
	}
	return mostOf[key]
}

// A deload cuts the sets by about 45 % (survey of Rogerson et al. 2024: volume and
// load down, same exercises; the amount is common practice).
func (s *sweep) checkDeload(p load.Plan) {
	if s.week == 1 {
		s.fail("deload in the first week", "")
	}
	now, then := 0, 0
	for _, l := range planner.CompetitionLifts() {
		if last, ok := s.last[l]; ok {
			now, then = now+p.LiftSets[l], then+last.LiftSets[l]
		}
	}
	if share := float64(now) / float64(then); then > 0 && s.c.kind != planner.Peaking && (share < 0.45 || share > 0.65) {
		s.fail("deload share", "%d sets after %d", now, then)
	}
}

// A session holds at most 20 sets and 100 minutes; lifts come before accessories.
func (s *sweep) checkDay(p load.Plan, d load.Day) {
	sets, accessory := 0, false
	for _, w := range d.Work {
		sets += w.Sets
		if accessory && w.Role != load.Accessory {
			s.fail("order", "%s after accessories", w.Name)
		}
		accessory = accessory || w.Role == load.Accessory
		if w.Role != load.Accessory {
			s.checkWork(p, w)
		}
	}
	if sets > 20 || d.Minutes > 100 {
		s.fail("session", "%d sets, %d minutes", sets, d.Minutes)
	}
}

func (s *sweep) checkWork(p load.Plan, w load.Work) {
	if got := strength.Percent(strength.Default, float64(w.Reps)+w.Reserve); got != w.Percent {
		s.fail("one relation", "%s %d reps %g left is %g, said %g", w.Name, w.Reps, w.Reserve, got, w.Percent)
	}
	if exact := w.Max * w.Percent / 100; math.Abs(w.Weight.Kg()-exact) > 1.25+0.01 && w.Weight.Kg() > 20 {
		// Half a step of the plates; up to one and a half lighter where a ceiling or
		// the weekly step holds the load down.
		if top := s.ceiling(w); w.Weight.Kg() > exact || w.Percent < top-3 && exact-w.Weight.Kg() > 3.75 {
			s.fail("rounding", "%s %g kg for %g", w.Name, w.Weight.Kg(), exact)
		}
	}
	if w.Percent > s.ceiling(w) {
		s.fail("ceiling", "%s at %.1f %%", w.Name, w.Percent)
	}
	least := 1.0 // nothing above effort 9
	if s.c.age < 18 || s.old() {
		least = 2
	}
	if w.Reserve < least || w.Rest <= 0 || w.Why == "" {
		s.fail("effort, rest or reason", "%s with %g left, rest %d, %q", w.Name, w.Reserve, w.Rest, w.Why)
	}
	s.checkDose(p, w)
}

// ceiling is the heaviest planned percent: 93, bench 94; 90 before a first meet; 85
// under 18 (common practice).
func (s *sweep) ceiling(w load.Work) float64 {
	top := 93.0
	if w.Lift == planner.Bench {
		top = 94
	}
	if s.c.first {
		top = 90
	}
	if s.c.age < 18 {
		top = 85
	}
	return top
}
