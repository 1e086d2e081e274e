package strength_test

import (
	"testing"

	"blockbell/planner"
	"blockbell/planner/strength"
)

func left(r float64) *float64 { return &r }

func measure(t *testing.T, w strength.Work) strength.Evidence {
	t.Helper()
	ev, err := strength.Measure(strength.Default, w)
	if err != nil {
		t.Fatal(err)
	}
	return ev
}

// Effort 10 to 7 is 0 to 3 left (Zourdos et al. 2016); 9.5 counts as half a
// repetition by convention.
func TestReserveCounts(t *testing.T) {
	for reserve, n := range map[float64]float64{0: 5, 0.5: 5.5, 1: 6, 1.5: 6.5, 2: 7, 2.5: 7.5, 3: 8} {
		got := measure(t, strength.Work{WeightKg: 140, Reps: 5, Reserve: left(reserve)})
		want, err := strength.Default.Max(140, n)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "estimate", got.Kg, want, 1e-9)
		if got.LowerBound {
			t.Errorf("%g left: a rated set is no lower bound", reserve)
		}
	}
}

func TestUnratedSetIsALowerBound(t *testing.T) {
	got := measure(t, strength.Work{WeightKg: 140, Reps: 5})
	near(t, "bound", got.Kg, 157.5, 1e-9) // as for nothing left
	near(t, "sd", got.SD, 157.5*0.025, 1e-9)
	if !got.LowerBound {
		t.Error("an unrated set is a lower bound")
	}
}

// The noise of one estimate is 2.5 % (literature 2 to 4 %), one repetition of
// reserve at 7 to failure is 1/30 of Brzycki's estimate: hypot(2.5, 3.33) = 4.17 %.
func TestErrorIsComposedOfNoiseAndReserve(t *testing.T) {
	got := measure(t, strength.Work{WeightKg: 140, Reps: 5, Reserve: left(2)})
	near(t, "sd in percent", 100*got.SD/got.Kg, 4.17, 0.01)
}

func TestErrorOrder(t *testing.T) {
	work := func(reserve float64, planned bool) float64 {
		// The same 7 repetitions to failure throughout but for the half ones.
		ev := measure(t, strength.Work{WeightKg: 140, Reps: int(7 - reserve), Reserve: left(reserve), Planned: planned})
		return ev.SD / ev.Kg
	}
	sure, told, easy, planned := work(0, false), work(2, false), work(3, false), work(2, true)
	if !(sure < told && told < easy) {
		t.Errorf("sd at 0, 2 and 3 left: %.4f, %.4f, %.4f should rise", sure, told, easy)
	}
	near(t, "planned reserve", planned, easy, 1e-9) // both 1.5 repetitions
}

func TestNoEstimate(t *testing.T) {
	for what, w := range map[string]strength.Work{
		"13 repetitions":             {WeightKg: 100, Reps: 13},
		"10 repetitions and 3 left":  {WeightKg: 100, Reps: 10, Reserve: left(3)},
		"effort 6.5":                 {WeightKg: 100, Reps: 5, Reserve: left(3.5)},
		"effort above 10":            {WeightKg: 100, Reps: 5, Reserve: left(-0.5)},
		"no repetition":              {WeightKg: 100, Reps: 0},
		"more than anybody has done": {WeightKg: 701, Reps: 1},
		"no weight":                  {WeightKg: 0, Reps: 1},
	} {
		if ev, err := strength.Measure(strength.Default, w); !isKind(err, planner.Invalid) {
			t.Errorf("%s gave %+v, %v", what, ev, err)
		}
	}
	if ev := measure(t, strength.Work{WeightKg: 100, Reps: 12}); ev.Kg <= 100 {
		t.Errorf("12 repetitions still give an estimate, got %+v", ev)
	}
}

// Below effort 7 only a range follows: 100 x 5 with 4 left lies between 8 and 11 to
// failure, 36/29 and 36/26 of the weight by Brzycki's equation.
func TestEasySetGivesARange(t *testing.T) {
	low, high, err := strength.Range(strength.Brzycki, 100, 5, 4)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", low, 100*36.0/29, 1e-9)
	near(t, "high", high, 100*36.0/26, 1e-9)
	for _, bad := range []struct {
		reps int
		left float64
	}{{5, 3}, {5, 11}, {10, 4}, {0, 4}} {
		if _, _, err := strength.Range(strength.Brzycki, 100, bad.reps, bad.left); !isKind(err, planner.Invalid) {
			t.Errorf("range for %+v: %v", bad, err)
		}
	}
}

func BenchmarkEstimate(b *testing.B) {
	r := 2.0
	for b.Loop() {
		if _, _, err := strength.Estimate(strength.Default, 140, 5, &r); err != nil {
			b.Fatal(err)
		}
	}
}
