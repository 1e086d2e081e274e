package strength_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// lifters returns how many invented lifters a simulation has: few in ordinary runs,
// as many as BLOCKBELL_LIFTERS says in a thorough one. Seeds count up from 1, so
// that a run can be repeated.
func lifters(t *testing.T, few int) int {
	if n, err := strconv.Atoi(os.Getenv("BLOCKBELL_LIFTERS")); err == nil && n > 0 {
		return n
	}
	if testing.Short() {
		return few / 4
	}
	return few
}

// slack is what a measured rate may differ from the true one by chance: two standard
// deviations, three in small runs, where the normal law is no good guide.
func slack(rate float64, n int) float64 {
	if n < 100 {
		return 3 * sd(rate, n)
	}
	return 2 * sd(rate, n)
}

// pace is a speed of progress with the weeks after which its halt must be seen.
type pace struct {
	level   planner.Level
	rate    float64
	weeks   int // of fresh data after the halt
	earlier int // weeks of log before
	// restless multiplies how far the form wanders; 0 is 1.
	restless float64
}

var paces = []pace{
	{level: planner.Novice, rate: 0.008, weeks: 12, earlier: 26},
	{level: planner.Intermediate, rate: 0.0025, weeks: 24, earlier: 52},
	{level: planner.Intermediate, rate: 0.002, weeks: 28, earlier: 26},
	{level: planner.Intermediate, rate: 0.002, weeks: 28, earlier: 78},
}

// alarmed tells whether a lifter who rises by actual a week, where expected is
// expected, hears of a plateau in any of twelve weeks.
func (p pace) alarmed(seed uint64, actual float64) bool {
	a := newAthlete(seed, halting(150, actual, 1e9))
	a.form *= max(1, p.restless)
	sets := a.train(0, p.earlier+13)
	for week := p.earlier; week <= p.earlier+12; week++ {
		today := monday.AddDays(7 * week)
		if plateau(a.read(until(sets, today), today, p.level, p.rate)) {
			return true
		}
	}
	return false
}

// seen tells whether a halt is told after the pace's weeks.
func (p pace) seen(seed uint64) bool {
	a := newAthlete(seed, halting(150, p.rate, float64(p.earlier)))
	sets := a.train(0, p.earlier+p.weeks)
	return plateau(a.read(sets, monday.AddDays(7*(p.earlier+p.weeks)), p.level, p.rate))
}

func plateau(r strength.Reading) bool {
	return r.Verdict == strength.Holding || r.Verdict == strength.Falling
}

// until cuts a log, which is in order, behind a day.
func until(sets []planner.Set, day planner.Date) []planner.Set {
	for i, s := range sets {
		if s.Day > day {
			return sets[:i]
		}
	}
	return sets
}

// share counts how many of n lifters something happens to.
func share(n int, happens func(seed uint64) bool) float64 {
	count := 0
	for seed := uint64(1); seed <= uint64(n); seed++ {
		if happens(seed) {
			count++
		}
	}
	return float64(count) / float64(n)
}

// At most 5 % of lifters who go on as expected hear of a plateau in any of 12 weeks.
func TestFalseAlarms(t *testing.T) {
	n := lifters(t, 40)
	for _, p := range paces {
		got := share(n, func(seed uint64) bool { return p.alarmed(seed, p.rate) })
		t.Logf("%s, %.2f %% a week, %d weeks of log before: plateau told in 12 weeks without one to %.1f %% of %d lifters, seeds 1 to %d",
			p.level, 100*p.rate, p.earlier, 100*got, n, n)
		if got > 0.05+slack(0.05, n) {
			t.Errorf("%s, %.2f %%: %.1f %% false alarms", p.level, 100*p.rate, 100*got)
		}
	}
}

// The same holds in the first months of a log, for which the test asks for less.
func TestFalseAlarmsInTheFirstMonths(t *testing.T) {
	n := lifters(t, 16)
	for _, p := range paces[:2] {
		for _, weeks := range []int{8, 14, 20, 26} {
			p.earlier = weeks
			got := share(n, func(seed uint64) bool { return p.alarmed(seed, p.rate) })
			t.Logf("%s, %.2f %% a week: plateau told in weeks %d to %d of a log without one to %.1f %% of %d lifters",
				p.level, 100*p.rate, weeks, weeks+12, 100*got, n)
			if got > 0.05+slack(0.05, n) {
				t.Errorf("%s, %d weeks: %.1f %% false alarms", p.level, weeks, 100*got)
			}
		}
	}
}

// A lifter who is not expected to rise, and does not, hears of a fall as rarely.
func TestFalseFalls(t *testing.T) {
	n := lifters(t, 40)
	for _, p := range []pace{{level: planner.Novice, earlier: 60}, {level: planner.Advanced, earlier: 26}} {
		got := share(n, func(seed uint64) bool { return p.alarmed(seed, 0) })
		t.Logf("%s, standing still as expected, %d weeks of log before: called falling in 12 weeks in %.1f %% of %d", p.level, p.earlier, 100*got, n)
		if got > 0.05+slack(0.05, n) {
			t.Errorf("%s: %.1f %% false alarms", p.level, 100*got)
		}
	}
}

// A real fall of 1 % a week is told after 10 weeks.
func TestFallsAreSeen(t *testing.T) {
	n := lifters(t, 100)
	got := share(n, func(seed uint64) bool {
		a := newAthlete(seed, func(week float64) float64 { return 5 - 0.01*max(0, week-40) })
		return a.read(a.train(0, 50), monday.AddDays(7*50), planner.Intermediate, 0.002).Verdict == strength.Falling
	})
	t.Logf("falling by 1 %% a week: told after 10 weeks to %.1f %% of %d", 100*got, n)
	if got < 0.80 {
		t.Errorf("%.1f %% seen", 100*got)
	}
}

// At least 80 % of halts are told after 12, 24 and 28 weeks at 0.8, 0.25 and 0.2 %
// a week.
func TestHaltsAreSeen(t *testing.T) {
	n := lifters(t, 200)
	for _, p := range paces {
		got := share(n, p.seen)
		t.Logf("%s, %.2f %% a week, %d weeks of log before: halt told after %d weeks to %.1f %% of %d lifters, seeds 1 to %d",
			p.level, 100*p.rate, p.earlier, p.weeks, 100*got, n, n)
		if got < 0.80-slack(0.80, n) {
			t.Errorf("%s, %.2f %%: %.1f %% seen", p.level, 100*p.rate, 100*got)
		}
	}
}

// What the figures do not promise, for the record: lifters who rise, only slower
// than expected, a form that wanders more, and logs that begin with the halt.
func TestRatesBeyondThePromise(t *testing.T) {
	n := lifters(t, 8)
	for _, p := range paces {
		last := 0.0
		for _, part := range []float64{0.75, 0.5} {
			got := share(n, func(seed uint64) bool { return p.alarmed(seed, part*p.rate) })
			t.Logf("%s, expected %.2f %% a week, rises by %.0f %% of it: plateau told in 12 weeks to %.0f %% of %d lifters",
				p.level, 100*p.rate, 100*part, 100*got, n)
			if got < last-slack(0.5, n) {
				t.Errorf("slower lifters are told less often: %.2f after %.2f", got, last)
			}
			last = got
		}
		restless := p
		restless.restless = 2
		t.Logf("%s, %.2f %% a week, form wanders twice as far: plateau told in 12 weeks without one to %.1f %% of %d lifters",
			p.level, 100*p.rate, 100*share(n, func(seed uint64) bool { return restless.alarmed(seed, p.rate) }), n)
		fresh := p
		fresh.earlier = 0
		t.Logf("%s, expected %.2f %% a week, no log before the halt: told after %d weeks to %.0f %% of %d lifters",
			p.level, 100*p.rate, p.weeks, 100*share(n, fresh.seen), n)
	}
}

// A lift that stands still is called rising at most once in twenty readings.
func TestFalseRise(t *testing.T) {
	n := lifters(t, 200)
	for _, weeks := range []int{12, 30, 60} {
		got := share(n, func(seed uint64) bool {
			a := newAthlete(seed, halting(150, 0, 0))
			r := a.read(a.train(0, weeks), monday.AddDays(7*weeks), planner.Intermediate, 0.002)
			return r.Verdict == strength.Rising
		})
		t.Logf("standing still for %d weeks: called rising in %.1f %% of %d", weeks, 100*got, n)
		if got > 0.05+slack(0.05, n) {
			t.Errorf("%d weeks: %.1f %%", weeks, 100*got)
		}
	}
}

// Who has no plan is not told of one, whatever the verdict; who has one is.
func TestReasonsSpeakOfAPlanOnlyWithOne(t *testing.T) {
	for _, weekly := range []float64{0, 0.004, -0.005} {
		for _, weeks := range []int{4, 40} {
			var sets []planner.Set
			for day := range 2 * weeks {
				sets = append(sets, squat(day*7/2, 100*(1+weekly*float64(day)/2), 5, left(2)))
			}
			h := history(sets...)
			h.Today = sets[len(sets)-1].Day
			r := strength.Read(h)
			if strings.Contains(r.Reason, "plan") {
				t.Errorf("%g a week for %d weeks: %s: %s", weekly, weeks, r.Verdict, r.Reason)
			}
			h.Blocks = []planner.Block{{Kind: planner.Strength, Start: monday, End: h.Today.AddDays(7)}}
			if r := strength.Read(h); weekly == 0 && !strings.Contains(r.Reason, "your plan") {
				t.Errorf("with a plan: %s", r.Reason)
			}
		}
	}
}
