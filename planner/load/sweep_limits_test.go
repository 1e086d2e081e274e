package load_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// Every week before the taper that is no easy one lies inside the table of common
// practice, the last one before it and the week of a mock meet included: no exception.
func TestNoWeekBeforeTheTaperLeavesTheTable(t *testing.T) {
	weeks, outside := 0, 0
	eachCase(func(c sweepCase) {
		if c.kind == planner.Recovery {
			return
		}
		r := c.request()
		for w := range c.weeks {
			r.Today, r.Previous = sweepStart.AddDays(7*w), &load.Plan{}
			p := mustWeek(t, r)
			if p.Deload || p.Taper {
				continue
			}
			weeks++
			for _, l := range planner.CompetitionLifts() {
				lo, hi, ok := load.SetRange(c.level, c.kind, l)
				if n := p.LiftSets[l]; ok && load.EventCounts(c.event, l) && (n < lo || n > hi) {
					if outside++; outside < 5 {
						t.Errorf("%s, week %d: %d sets of %s, table %d to %d", c, w+1, n, l, lo, hi)
					}
				}
			}
		}
	})
	if outside > 0 || weeks < 10000 {
		t.Errorf("%d of %d weeks", outside, weeks)
	}
}

// From 60 years heavy deadlifts are at least 10 days apart, in a block and from
// strength to peaking, and at most 14 (common practice). Three limits of the latter are
// known and counted: 15 days where the last heavy day before a meet has another
// weekday, 21 around an easy week, and up to 29 from strength to peaking, where an easy
// week lies between and peaking is counted back from the meet.
func TestHeavyDeadliftsFromSixtyOn(t *testing.T) {
	usual := 0
	for strength := 3; strength <= 16; strength++ {
		for peak := 3; peak <= 7; peak++ {
			for days := 2; days <= 6; days++ {
				for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced} {
					heavy, middle := heavyDeadlifts(t, level, days, strength, peak)
					for i := 1; i < len(heavy); i++ {
						gap, most := heavy[i-1].DaysUntil(heavy[i]), 21
						if heavy[i] >= middle {
							most = 15
						}
						if heavy[i-1] < middle && heavy[i] >= middle {
							most = 29
						}
						if gap < 10 || gap > most {
							t.Errorf("%s, %d days, %d weeks of strength, %d of peaking: heavy deadlifts on %s and %s", level, days, strength, peak, heavy[i-1], heavy[i])
						}
						if gap <= 14 {
							usual++
						}
					}
				}
			}
		}
	}
	if usual < 4000 {
		t.Errorf("only %d gaps of 10 to 14 days", usual)
	}
}

// heavyDeadlifts are the days with a heavy deadlift of a lifter of 63 in a strength
// block and the peaking behind it, which begins on middle.
func heavyDeadlifts(t *testing.T, level planner.Level, days, strength, peak int) (heavy []planner.Date, middle planner.Date) {
	t.Helper()
	end := sweepStart.AddDays(7*(strength+peak) - 3) // a Friday
	r := load.Request{WeekStart: time.Monday, Previous: &load.Plan{}, Meets: []planner.Meet{{ID: 1, Date: end.AddDays(1), Kind: planner.Main}}}
	middle = sweepStart.AddDays(7 * strength)
	r.Season = []planner.Block{
		{Kind: planner.Strength, Start: sweepStart, End: middle.AddDays(-1), Weeks: strength},
		{Kind: planner.Peaking, Start: middle, End: end, Weeks: peak},
	}
	r.Lifter = planner.Lifter{Level: level, Days: days, Category: planner.Men, HasCompeted: true, Born: planner.NewDate(1964, time.January, 1)}
	r.Estimates = map[planner.Lift]load.Estimate{planner.Squat: {Kg: 140, Source: load.Trend}, planner.Bench: {Kg: 90, Source: load.Trend}, planner.Deadlift: {Kg: 170, Source: load.Trend}}
	for r.Today = sweepStart; r.Today <= end; r.Today = r.Today.AddDays(7) {
		for _, d := range mustWeek(t, r).Days {
			for _, w := range d.Work {
				if w.Lift == planner.Deadlift && w.Role == load.Top {
					heavy = append(heavy, d.Date)
				}
			}
		}
	}
	return heavy, middle
}

// Before peaking there are never more loading weeks in a row than the lifter's longest
// run (common practice: novices 8, others 5, from 50 years 4), however near the taper
// is.
func TestStrengthBeforePeakingHasItsEasyWeeks(t *testing.T) {
	for longest, l := range map[int]planner.Lifter{8: {Level: planner.Novice}, 5: {Level: planner.Intermediate}, 4: {Level: planner.Advanced, Born: planner.NewDate(1972, time.January, 1)}} {
		for n := 3; n <= 16; n++ {
			for gap := 1; gap <= 40; gap += 3 {
				end := sweepStart.AddDays(7*n - 1)
				season := []planner.Block{{Kind: planner.Strength, Start: sweepStart, End: end, Weeks: n},
					{Kind: planner.Peaking, Start: end.AddDays(1), End: end.AddDays(54), Weeks: 8, TaperStart: end.AddDays(gap)}}
				easy := map[planner.Date]bool{}
				for _, e := range load.Deloads(season, l, time.Monday, nil) {
					easy[e.From] = true
				}
				run, most := 0, 0
				for d := sweepStart; d <= end; d = d.AddDays(7) {
					if run++; easy[d] {
						run = 0
					}
					most = max(most, run)
				}
				if most > longest {
					t.Errorf("%s, %d weeks of strength, taper %d days after it: %d loading weeks in a row", l.Level, n, gap, most)
				}
			}
		}
	}
}

// The first easy week behind a meet has each lift that counts, although its first
// training day is for rest (common practice: two days without a session).
func TestRecoveryHasEveryLift(t *testing.T) {
	for days := 2; days <= 6; days++ {
		for on := sweepStart; on < sweepStart.AddDays(7); on++ {
			r := strengthRequest()
			r.Lifter.Days = days
			r.Season = []planner.Block{{Kind: planner.Recovery, Start: on.AddDays(1), End: on.AddDays(14), Weeks: 2}}
			r.Meets = []planner.Meet{{ID: 1, Date: on, Kind: planner.Main}}
			r.Today = on.AddDays(1).OnOrAfter(time.Monday)
			for _, l := range planner.CompetitionLifts() {
				if p := mustWeek(t, r); len(p.Days) > 0 && p.LiftSets[l] == 0 {
					t.Errorf("%d days, meet on %s: no %s in the week from %s", days, on, l, p.Start.Short())
				}
			}
		}
	}
}
