package blocks

import (
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// randomNumbers gives a model numbers no lifter has: slow expression, large
// steps, almost no preferences. They set partial plans far apart in every
// coordinate, which is where a wrong dropping rule shows.
func randomNumbers(rng *rand.Rand, m *Model) {
	m.Rm, m.Rc, m.Dm, m.DS = 0.01*rng.Float64(), 0.01*rng.Float64(), 0.01*rng.Float64(), 0.005*rng.Float64()
	m.TauG, m.TauP = 2+20*rng.Float64(), 2+20*rng.Float64()
	if rng.IntN(2) == 0 {
		m.TauH = 2 + 20*rng.Float64()
	}
	for k := range 4 {
		m.ETau[k], m.ET[k] = 1.5+20*rng.Float64(), -0.1*rng.Float64()
	}
	m.Kappa = 0.002 * rng.Float64()
	m.Start.State = State{M: 0.05 * rng.Float64(), C: 0.05 * rng.Float64(), S: 0.05 * rng.Float64(), E: -0.1 * rng.Float64()}
}

func TestRandomModelsMatchEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 99
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 2))
	rounds := 1500
	if testing.Short() {
		rounds = 150
	}
	for range rounds {
		r := fresh(trained[rng.IntN(4)], 14+rng.IntN(13))
		switch n := r.Today.DaysUntil(r.Meets[0].Date); rng.IntN(4) {
		case 0:
			r.addRandomMeet(rng, planner.Main, n)
		case 1:
			r.addRandomMeet(rng, planner.TuneUp, n)
			r.addRandomMeet(rng, planner.Test, n)
		}
		sortMeets(r.Meets)
		s, err := newSeason(r)
		if err != nil {
			t.Fatal(err)
		}
		randomNumbers(rng, &s.model)
		f, err := s.solve()
		if err != nil {
			t.Fatal(err)
		}
		o := newOracle(r, s.model, stretchLimits(r))
		want, ok := o.best()
		if !ok {
			continue
		}
		got := lengths(s.blocks(f.steps))
		value := s.model.Objective(s.blocks(f.steps), s.marks).Total
		if math.Abs(value-want.value) > sameValue || math.Abs(f.objective-value) > sameValue {
			t.Fatalf("%s\n%+v\ngot  %s %.12f (%.12f)\nwant %s %.12f", describe(r), s.model, got, value, f.objective, o.lengths(want.blocks), want.value)
		}
	}
}

// sortMeets puts meets in order of their dates and moves apart those that share
// one.
func sortMeets(meets []planner.Meet) {
	for i := range meets {
		for j := i + 1; j < len(meets); j++ {
			if meets[j].Date < meets[i].Date {
				meets[i], meets[j] = meets[j], meets[i]
			}
		}
		if i > 0 && meets[i].Date == meets[i-1].Date {
			meets[i].Date++
		}
	}
}
