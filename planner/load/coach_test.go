package load_test

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// eachSeasonWeek visits every week of the seasons of lifters on 2 to 6 days for
// each event; last is the loading week before it in the same block, if any.
func eachSeasonWeek(t *testing.T, visit func(name string, r load.Request, meet planner.Date, p load.Plan, last *load.Plan)) {
	t.Helper()
	for i, s := range seasons() {
		for _, event := range []planner.EventKind{planner.Full, planner.BenchOnly, planner.PushPull, planner.DeadliftOnly} {
			s.lifter.Days, s.meet.Event = 2+i%5, event
			r, meet := s.season(t)
			var last *load.Plan
			for r.Today = monday; r.Today < meet; r.Today = r.Today.AddDays(7) {
				p := mustWeek(t, r)
				if last != nil && last.Block != p.Block {
					last = nil
				}
				visit(s.lifter.Name+" "+string(event), r, meet, p, last)
				if !p.Deload {
					last = &p
				}
			}
		}
	}
}

// What the meet does not count never tires before what it does (common practice).
func TestWhatAMeetDoesNotCountComesLast(t *testing.T) {
	checked := 0
	eachSeasonWeek(t, func(name string, r load.Request, _ planner.Date, p load.Plan, _ *load.Plan) {
		if p.Block != planner.Peaking {
			return
		}
		for _, d := range p.Days {
			behind := false
			for _, w := range d.Work {
				counted := load.EventCounts(r.Meets[0].Event, w.Lift)
				if checked++; counted && behind {
					t.Errorf("%s, %s: %s stands behind a lift that does not count", name, d.Date, w.Name)
				}
				behind = behind || w.Lift.Competition() && !counted
			}
		}
	})
	if checked == 0 {
		t.Error("no work was looked at")
	}
}

// An easy week has no accessory that is new, and none with more sets (common
// practice).
func TestADeloadAddsNoAccessories(t *testing.T) {
	deloads := 0
	eachSeasonWeek(t, func(name string, _ load.Request, _ planner.Date, p load.Plan, last *load.Plan) {
		if !p.Deload || last == nil {
			return
		}
		deloads++
		before, now := accessorySets(*last), accessorySets(p)
		for lift, n := range now {
			if n > before[lift] {
				t.Errorf("%s, %s week %d: %s has %d sets after %d", name, p.Block, p.Week, lift, n, before[lift])
			}
		}
	})
	if deloads == 0 {
		t.Error("no deload was looked at")
	}
}

func accessorySets(p load.Plan) map[planner.Lift]int {
	sets := map[planner.Lift]int{}
	for _, d := range p.Days {
		for _, w := range d.Work {
			if w.Role == load.Accessory {
				sets[w.Lift] += w.Sets
			}
		}
	}
	return sets
}

// A strength block that ends in an easy week is not followed by another one two
// weeks later: 7 weeks of peaking have their taper soon enough (common practice: 4
// to 5 loading weeks between two deloads). Behind loading weeks, and in longer
// peaking, there is one.
func TestPeakingBehindADeloadNeedsNone(t *testing.T) {
	for _, tt := range []struct {
		before, weeks, want int
		age                 int
	}{{9, 7, 0, 25}, {4, 7, 3, 25}, {9, 8, 3, 25}, {9, 7, 3, 55}} {
		r := strengthRequest()
		r.Lifter.Level, r.Lifter.Born = planner.Advanced, planner.NewDate(2026-tt.age, 6, 1)
		start := monday.AddDays(7 * tt.before)
		end := start.AddDays(7*tt.weeks - 3)
		r.Season = []planner.Block{{Kind: planner.Strength, Start: monday, End: start.AddDays(-1), Weeks: tt.before}, {Kind: planner.Peaking, Start: start, End: end, Weeks: tt.weeks}}
		r.Meets = []planner.Meet{{ID: 1, Date: end.AddDays(1), Kind: planner.Main}}
		got, inSeason := 0, 0
		for w := range tt.weeks {
			r.Today = start.AddDays(7 * w)
			if mustWeek(t, r).Deload {
				got = w + 1
			}
		}
		for _, e := range load.Deloads(r.Season, r.Lifter, time.Monday, nil) {
			if e.From >= start {
				inSeason = start.DaysUntil(e.From)/7 + 1
			}
		}
		if got != tt.want || inSeason != tt.want {
			t.Errorf("%d weeks behind %d of strength at %d: deload in week %d, listed in %d, want %d", tt.weeks, tt.before, tt.age, got, inSeason, tt.want)
		}
	}
}

// The calendar week in which the last fourteen days begin late keeps the low end of
// the usual sets: an intermediate on four days before a Saturday has at least 4
// squats, 5 benches and 2 deadlifts (common practice: 4-6, 5-8 and 2-4 a week).
func TestTheWeekBeforeTheTaperKeepsItsSets(t *testing.T) {
	s := seasons()[10]
	s.lifter.Level, s.lifter.Days = planner.Intermediate, 4
	r, meet := s.season(t)
	r.Today = meet.AddDays(-19)
	p := mustWeek(t, r)
	if p.Block != planner.Peaking || p.LiftSets[planner.Squat] < 4 || p.LiftSets[planner.Bench] < 5 || p.LiftSets[planner.Deadlift] < 2 {
		t.Errorf("%s week %d: %v", p.Block, p.Week, p.LiftSets)
	}
}

// Nobody drives to the gym for a handful of accessories while another day of the
// week has room for them.
func TestNoSessionOfAFewAccessories(t *testing.T) {
	days := 0
	eachSeasonWeek(t, func(name string, _ load.Request, _ planner.Date, p load.Plan, _ *load.Plan) {
		for _, d := range p.Days {
			other := 0
			for _, w := range d.Work {
				if w.Role != load.Accessory {
					other++
				}
			}
			if days++; other == 0 && d.HardSets() < 4 {
				t.Errorf("%s, %s week %d, %s: %d sets of accessories alone", name, p.Block, p.Week, d.Date, d.HardSets())
			}
		}
	})
	if days == 0 {
		t.Error("no day was looked at")
	}
}

// What falls is not called the week's step up.
func TestChangesSayWhyNumbersFall(t *testing.T) {
	falls := 0
	eachSeasonWeek(t, func(name string, _ load.Request, _ planner.Date, p load.Plan, last *load.Plan) {
		if last == nil || p.Deload || p.Block == planner.Peaking || p.Start.DaysUntil(last.Start) != -7 {
			return
		}
		for _, c := range p.Changed {
			if c.Lift == "" || p.LiftSets[c.Lift] >= last.LiftSets[c.Lift] || !strings.Contains(c.Text, " instead of ") {
				continue
			}
			if falls++; strings.Contains(c.Text, "the week's step") {
				t.Errorf("%s, %s week %d: %s", name, p.Block, p.Week, c.Text)
			}
		}
	})
	if falls == 0 {
		t.Error("no set fell anywhere")
	}
}

// Whoever changes to the careful version reads that it is why less comes.
func TestChangesNameTheCarefulVersion(t *testing.T) {
	r := strengthRequest()
	before := mustWeek(t, r)
	r.Today, r.Version, r.Previous = r.Today.AddDays(7), load.Cautious, &before
	p, named := mustWeek(t, r), 0
	for _, c := range p.Changed {
		if strings.Contains(c.Text, "because the careful version asks for less") {
			named++
		}
	}
	if named == 0 {
		t.Errorf("nothing of it in %v", p.Changed)
	}
}
