package strength_test

import (
	"math"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// cycles lays muscle and strength blocks of eight weeks one after the other.
func cycles(n int) []planner.Block {
	var blocks []planner.Block
	for i := range n {
		kind := planner.Hypertrophy
		if i%2 == 1 {
			kind = planner.Strength
		}
		start := monday.AddDays(56 * i)
		blocks = append(blocks, planner.Block{Kind: kind, Start: start, End: start.AddDays(55), Weeks: 8})
	}
	return blocks
}

// inBlocks is a lifter who gives up 0.1 % a week in muscle blocks and gains rate a
// week in strength blocks until the week halt, with a dip of the single during
// muscle blocks that grows over four weeks and is gone with them.
func inBlocks(rate, dip, halt float64) func(week float64) float64 {
	return func(week float64) float64 {
		level := math.Log(150)
		for w := 0.0; w < week; w += 0.25 {
			if int(w/8)%2 == 0 {
				level -= 0.001 * 0.25
			} else if w < halt {
				level += rate * 0.25
			}
		}
		if in := math.Mod(week, 16); in < 8 {
			level -= dip * min(in/4, 1)
		}
		return level
	}
}

// expectedIn is what such a lifter's plan expects.
func expectedIn(rate float64) func(planner.Date) float64 {
	return func(d planner.Date) float64 {
		if monday.DaysUntil(d)/56%2 == 0 {
			return -0.001
		}
		return rate
	}
}

// verdictIn reads such a lifter's log in a week.
func verdictIn(seed uint64, level planner.Level, rate, dip, halt float64, week int) strength.Reading {
	a := newAthlete(seed, inBlocks(rate, dip, halt))
	a.blocks = cycles(12)
	return strength.Read(strength.History{
		Lift: planner.Squat, Today: monday.AddDays(7 * week), Level: level, Blocks: a.blocks,
		Sets: a.train(0, week), Expected: expectedIn(rate),
	})
}

// A dip in a muscle block is excused to 3 % for intermediate and 5 % for advanced
// lifters, and never raises an alarm in it or after it.
func TestDipsAreExcused(t *testing.T) {
	n := lifters(t, 40)
	for _, c := range []struct {
		level     planner.Level
		rate, dip float64
	}{{planner.Intermediate, 0.004, 0.025}, {planner.Intermediate, 0.004, 0}, {planner.Advanced, 0.0025, 0.04}} {
		got := share(n, func(seed uint64) bool {
			for week := 38; week <= 50; week += 2 { // the end of a muscle block is week 40
				if plateau(verdictIn(seed, c.level, c.rate, c.dip, 1e9, week)) {
					return true
				}
			}
			return false
		})
		t.Logf("%s, dips of %.1f %%: plateau told in 12 weeks around a block's end to %.1f %% of %d", c.level, 100*c.dip, 100*got, n)
		if got > 0.05+slack(0.05, n) {
			t.Errorf("%s, dips of %.1f %%: %.1f %% false alarms", c.level, 100*c.dip, 100*got)
		}
	}
}

// With muscle and strength blocks of eight weeks in turn, 0.4 % a week expected in the
// latter and dips of 2 % in the former, a halt takes longer to show.
func TestHaltsInBlocks(t *testing.T) {
	n := lifters(t, 40)
	last := 0.0
	for _, since := range []int{24, 32, 40} {
		told := func(halt float64) float64 {
			return share(n, func(seed uint64) bool {
				return plateau(verdictIn(seed, planner.Intermediate, 0.004, 0.02, halt, 48+since))
			})
		}
		last = told(48)
		wrong := told(1e9)
		t.Logf("blocks in turn, halted for %d weeks: told to %.0f %%, and without a halt to %.1f %%, of %d lifters, seeds from 1",
			since, 100*last, 100*wrong, n)
		if wrong > 0.05+slack(0.05, n) {
			t.Errorf("%.1f %% false alarms", 100*wrong)
		}
	}
	if last < 0.80-slack(0.80, n) {
		t.Errorf("after 40 weeks %.0f %% seen", 100*last)
	}
}

// dropping is a lifter who loses so much in four weeks of a muscle block that begins
// in week 32.
func dropping(by float64) func(week float64) float64 {
	steady := inBlocks(0.004, 0, 1e9)
	return func(week float64) float64 { return steady(week) - by*min(max(week-32, 0)/4, 1) }
}

// What goes 12 % beyond the excuse is told by the end of the block to most, and a
// novice has no excuse. Falls of up to the excuse are told to nobody.
func TestFallsAreTold(t *testing.T) {
	n := lifters(t, 40)
	for _, c := range []struct {
		level      planner.Level
		drop       float64
		least, max float64
	}{
		{planner.Novice, 0.12, 0.6, 1},
		{planner.Intermediate, 0.03, 0, 0.05}, {planner.Intermediate, 0.15, 0.6, 1},
		{planner.Advanced, 0.05, 0, 0.05}, {planner.Advanced, 0.17, 0.6, 1},
	} {
		got := share(n, func(seed uint64) bool {
			a := newAthlete(seed, dropping(c.drop))
			a.blocks = cycles(6)
			return strength.Read(strength.History{
				Lift: planner.Squat, Today: monday.AddDays(280), Level: c.level, Blocks: a.blocks,
				Sets: a.train(0, 40), Expected: expectedIn(0.004),
			}).Verdict == strength.Falling
		})
		t.Logf("%s, %.0f %% down at the end of a muscle block: called falling in %.0f %% of %d", c.level, 100*c.drop, 100*got, n)
		if got < c.least-slack(c.least, n) || c.max < 1 && got > c.max+slack(c.max, n) {
			t.Errorf("%s, %.0f %% down: falling in %.2f", c.level, 100*c.drop, got)
		}
	}
}

// Where less than 0.1 % a week is expected only block ends are compared, and the
// chance to see a halt that the reading tells is the one that is measured.
func TestSlowLiftersCompareBlockEnds(t *testing.T) {
	n := lifters(t, 200)
	const rate = 0.0009
	read := func(seed uint64, halt float64, week int) strength.Reading {
		a := newAthlete(seed, halting(150, rate, halt))
		a.blocks = cycles(12)
		return a.read(a.train(0, week), monday.AddDays(7*week), planner.Advanced, rate)
	}
	told := 0.0
	seen := share(n, func(seed uint64) bool {
		r := read(seed, 64, 96)
		if r.Test.Plateau != 0 || r.Test.Ends == nil {
			t.Fatalf("seed %d: %+v", seed, r.Test)
		}
		told += r.Test.Ends.Power / float64(n)
		return plateau(r)
	})
	wrong := share(n, func(seed uint64) bool { // a block ends in week 96
		return plateau(read(seed, 1e9, 90)) || plateau(read(seed, 1e9, 94)) || plateau(read(seed, 1e9, 98)) || plateau(read(seed, 1e9, 102))
	})
	t.Logf("block end against block end, 16 weeks apart, %.2f %% a week expected: a halt shows in %.1f %% of %d, told %.1f %%; false alarms in 12 weeks %.1f %%",
		100*rate, 100*seen, n, 100*told, 100*wrong)
	if math.Abs(seen-told) > slack(told, n)+0.03 {
		t.Errorf("power told %.3f, measured %.3f", told, seen)
	}
	if wrong > 0.05+slack(0.05, n) {
		t.Errorf("%.1f %% false alarms", 100*wrong)
	}
}

// Block ends say nothing across a layoff, and nothing of today when they are long past:
// who climbs back from a layoff is not held against the block before it.
func TestBlockEndsHoldForAWhile(t *testing.T) {
	muscle := func(from, to int) planner.Block {
		return planner.Block{Kind: planner.Hypertrophy, Start: monday.AddDays(from), End: monday.AddDays(to)}
	}
	var sets []planner.Set
	for day := 0; day < 240; day += 3 {
		kg := 100.0
		if day > 100 {
			kg = 93 + 0.02*float64(day-100)
		}
		sets = append(sets, squat(day, kg, 5, left(2)))
	}
	h := history(sets...)
	h.Level = planner.Advanced
	h.Expected = func(planner.Date) float64 { return 0.0005 }
	h.Blocks = []planner.Block{muscle(0, 62), muscle(112, 160), {Kind: planner.Strength, Start: monday.AddDays(161), End: monday.AddDays(300)}}
	on := func(day int) strength.Reading {
		h := h
		h.Today = monday.AddDays(day)
		return strength.Read(h)
	}
	if r := on(165); r.Verdict != strength.Falling {
		t.Errorf("soon after the second end: %s: %s", r.Verdict, r.Reason)
	}
	if r := on(225); strings.Contains(r.Reason, "From the end of one") {
		t.Errorf("nine weeks after it: %s", r.Reason)
	}
	h.Away = []strength.Span{{From: monday.AddDays(70), To: monday.AddDays(105)}}
	if r := on(165); r.Verdict == strength.Falling || strings.Contains(r.Reason, "From the end of one") {
		t.Errorf("across a layoff: %s: %s", r.Verdict, r.Reason)
	}
}
