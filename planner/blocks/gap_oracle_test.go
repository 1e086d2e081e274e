package blocks

import (
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/planner"
)

// TestEveryGapMatchesEnumeration holds two meets 2 to 30 weeks apart, on every
// pair of weekdays, against full enumeration: rows that the calendar opens and
// peaks past the limit included. Lifters are drawn at random.
func TestEveryGapMatchesEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 20300
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 7))
	plans := 0
	for weeks := 2; weeks <= 30; weeks++ {
		for pair := range 49 {
			if testing.Short() && rng.IntN(10) > 0 {
				continue
			}
			r := randomPair(rng, weeks, pair/7, pair%7)
			n := compare(t, r)
			if n <= 0 {
				t.Fatalf("%s: the oracle knows no plan", describe(r))
			}
			plans += n
		}
	}
	t.Logf("%d plans looked at", plans)
}

// randomPair is a random lifter with two main meets in weeks so far apart, on the
// given days of them, and a short run-up.
func randomPair(rng *rand.Rand, weeks, first, second int) Request {
	levels := planner.Levels()
	today := monday.AddDays(rng.IntN(300))
	from := today.OnOrAfter(time.Monday).AddDays(7)
	r := Request{Today: today, Rules: Rules{WeekStart: time.Monday, WomenShorter: rng.IntN(2) == 0}}
	if rng.IntN(3) == 0 {
		r.Rules.WeekStart = time.Weekday(rng.IntN(7))
	}
	r.Lifter = planner.Lifter{Level: levels[rng.IntN(len(levels))], HasCompeted: rng.IntN(6) > 0}
	if rng.IntN(3) == 0 {
		r.Lifter.Born = today.AddDays(-366 * 61)
	}
	if rng.IntN(3) == 0 {
		r.Lifter.Category, r.Lifter.Bodyweight = planner.Women, planner.Kilograms(50+rng.Float64()*40)
	}
	r.Meets = []planner.Meet{
		{ID: 1, Name: "First", Kind: planner.Main, Date: from.AddDays(first)},
		{ID: 2, Name: "Second", Kind: planner.Main, Date: from.AddDays(7*weeks + second)},
	}
	return r
}
