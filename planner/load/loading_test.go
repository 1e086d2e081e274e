package load_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

// randomGym is a gym somebody could have: a competition bar with its collars or a
// light one without, kg or lb, and some of the usual discs.
func randomGym(rng *rand.Rand) load.Gym {
	g := load.Gym{Unit: planner.KG, Bar: kg([]float64{10, 15, 20, 25}[rng.IntN(4)]), Collars: kg([]float64{0, 0.4, 5}[rng.IntN(3)])}
	sizes := []float64{0.25, 0.5, 1.25, 2.5, 5, 10, 15, 20, 25}
	if rng.IntN(2) == 0 {
		g = load.Gym{Unit: planner.LB, Bar: planner.Pounds([]float64{33, 45, 55}[rng.IntN(3)]), Collars: planner.Pounds([]float64{0, 1, 11}[rng.IntN(3)])}
		sizes = []float64{1.25, 2.5, 5, 10, 25, 35, 45}
	}
	for _, s := range sizes {
		if rng.IntN(3) > 0 || s == 10 {
			g.Discs = append(g.Discs, planner.In(g.Unit, s))
		}
	}
	if rng.IntN(8) == 0 {
		g = load.Gym{Unit: g.Unit} // a gym that has said nothing
	}
	return g
}

// weighs is what bar, collars and discs of a loading weigh together, in the gym's unit,
// added by hand; the defaults are those that Gym documents.
func weighs(l load.Loading, g load.Gym) float64 {
	in := func(m planner.Grams) float64 {
		if g.Unit == planner.LB {
			return math.Round(100*m.Lb()) / 100 // grams hold a disc of pounds to a thousandth only
		}
		return m.Kg()
	}
	bar, collars := in(g.Bar), in(g.Collars)
	if g.Bar == 0 && g.Unit == planner.LB {
		bar, collars = 45, 0
	} else if g.Bar == 0 {
		bar, collars = 20, 5
	}
	sum := bar
	if l.Collars {
		sum += collars
	}
	for _, d := range l.PerSide {
		sum += 2 * in(d)
	}
	return sum
}

// On every load of a week the discs of both sides, the bar and its collars weigh what
// is said, in whatever gym; and so on every step of its warm-up, which stays below the
// first set and rises.
func TestDiscsWeighWhatIsSaid(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 8))
	loads, steps := 0, 0
	for range 600 {
		r := randomRequest(rng)
		r.Gym = randomGym(rng)
		p, err := load.Week(r)
		if err != nil {
			t.Fatalf("%+v: %v", r, err)
		}
		same := func(what string, said planner.Grams, l load.Loading) {
			t.Helper()
			is := said.Kg()
			if r.Gym.Unit == planner.LB {
				is = said.Lb()
			}
			if sum := weighs(l, r.Gym); math.Abs(sum-is) > 0.011 || l.Load != said { // discs in hundredths of the unit
				t.Fatalf("%s, %+v: %s on the bar, %v each side weigh %g", what, r.Gym, said.Text(r.Gym.Unit), l.PerSide, sum)
			}
		}
		for _, d := range p.Days {
			for _, w := range d.Work {
				if w.Weight == 0 {
					continue
				}
				l, err := load.Plates(w.Weight, r.Gym)
				if err != nil {
					t.Fatal(err)
				}
				same(w.Name, w.Weight, l)
				loads++
				ramp, err := load.WarmUp(w, r.Gym)
				if err != nil {
					t.Fatal(err)
				}
				last := planner.Grams(0)
				for _, s := range ramp {
					same("warm-up of "+w.Name, s.Weight, s.Plates)
					if s.Weight >= w.Weight || s.Weight <= last || w.Find {
						t.Fatalf("%+v: warm-up %s after %s for %s", r.Gym, s.Weight.Text(r.Gym.Unit), last.Text(r.Gym.Unit), w.Weight.Text(r.Gym.Unit))
					}
					last, steps = s.Weight, steps+1
				}
			}
		}
	}
	if loads < 1000 || steps < 1000 {
		t.Errorf("only %d loads and %d steps", loads, steps)
	}
}
