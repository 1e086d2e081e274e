package load_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

func perSide(l load.Loading, unit planner.Unit) string {
	s := ""
	for _, d := range l.PerSide {
		s += d.Number(unit) + " "
	}
	return s
}

// The 25 kg of bar and collars, and the order of discs, are those of the rule
// books' loading charts (from memory).
func TestPlatesOfUsualLoads(t *testing.T) {
	lb := load.Gym{Unit: planner.LB}
	for _, tt := range []struct {
		load  planner.Grams
		gym   load.Gym
		unit  planner.Unit
		makes string
		side  string
	}{
		{kg(140), load.Gym{}, planner.KG, "140", "25 25 5 2.5 "},
		{kg(142.5), load.Gym{}, planner.KG, "142.5", "25 25 5 2.5 1.25 "},
		{kg(25), load.Gym{}, planner.KG, "25", ""},
		{kg(20), load.Gym{}, planner.KG, "20", ""},
		{kg(15), load.Gym{}, planner.KG, "20", ""},
		{kg(141), load.Gym{}, planner.KG, "140", "25 25 5 2.5 "},
		{kg(141.25), load.Gym{}, planner.KG, "140", "25 25 5 2.5 "}, // half way: the lighter
		{kg(60), load.Gym{Bar: kg(20), Discs: []planner.Grams{kg(20), kg(15), kg(5)}}, planner.KG, "60", "20 "},
		{planner.Pounds(225), lb, planner.LB, "225", "45 45 "},
		{planner.Pounds(317), lb, planner.LB, "315", "45 45 45 "},
		{kg(100), lb, planner.LB, "220", "45 35 5 2.5 "},
	} {
		got, err := load.Plates(tt.load, tt.gym)
		if err != nil {
			t.Fatal(err)
		}
		if got.Load.Number(tt.unit) != tt.makes || perSide(got, tt.unit) != tt.side || got.Exact != (got.Load == tt.load) {
			t.Errorf("%s: makes %s with %s(exact %t), want %s with %s", tt.load.Text(tt.unit), got.Load.Number(tt.unit), perSide(got, tt.unit), got.Exact, tt.makes, tt.side)
		}
	}
}

// The fewest discs, against trying every combination: a set of sizes in which the
// largest disc first is not always best.
func TestPlatesAreTheFewest(t *testing.T) {
	gym := load.Gym{Bar: kg(20), Discs: []planner.Grams{kg(20), kg(15), kg(10), kg(7)}}
	fewest := map[int]int{0: 0} // kg on one side
	for n := 1; n <= 7; n++ {
		for side, k := range fewest {
			if k != n-1 {
				continue
			}
			for _, d := range []int{20, 15, 10, 7} {
				if _, ok := fewest[side+d]; !ok {
					fewest[side+d] = n
				}
			}
		}
	}
	checked := 0
	for side, n := range fewest {
		if side > 90 || side == 0 {
			continue
		}
		got, err := load.Plates(kg(float64(20+2*side)), gym)
		if err != nil {
			t.Fatal(err)
		}
		sum := planner.Grams(0)
		for _, d := range got.PerSide {
			sum += d
		}
		if !got.Exact || len(got.PerSide) != n || sum != kg(float64(side)) {
			t.Errorf("%d kg a side: %v, want %d discs", side, got.PerSide, n)
		}
		checked++
	}
	if checked < 40 {
		t.Errorf("only %d loads checked", checked)
	}
}

func TestPlatesAlwaysMakeTheNearestLoad(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for range 500 {
		gym := load.Gym{Unit: planner.KG, Bar: kg([]float64{15, 20, 25}[rng.IntN(3)]), Collars: kg([]float64{0, 0.5, 5}[rng.IntN(3)])}
		for _, d := range []float64{0.5, 1.25, 2.5, 5, 10, 15, 20, 25} {
			if rng.IntN(2) == 0 || d == 20 {
				gym.Discs = append(gym.Discs, kg(d))
			}
		}
		want := kg(20 + 300*rng.Float64())
		got, err := load.Plates(want, gym)
		if err != nil {
			t.Fatal(err)
		}
		sum := gym.Bar
		if got.Collars {
			sum += gym.Collars
		}
		for _, d := range got.PerSide {
			sum += 2 * d
		}
		if sum != got.Load {
			t.Fatalf("%v: %v weighs %s, said %s", gym, got.PerSide, sum.Text(planner.KG), got.Load.Text(planner.KG))
		}
		smallest := slices.Min(gym.Discs)
		if off := (got.Load - want).Kg(); want > gym.Bar+gym.Collars && (off > 20+1e-9 || off < -20-1e-9) || smallest <= kg(2.5) && want > gym.Bar+gym.Collars && gymIsFine(gym) && max(off, -off) > smallest.Kg()+0.011 {
			t.Fatalf("%v: %s becomes %s", gym, want.Text(planner.KG), got.Load.Text(planner.KG))
		}
	}
}

// gymIsFine tells whether every multiple of the smallest disc can be made.
func gymIsFine(g load.Gym) bool {
	smallest := slices.Min(g.Discs)
	return !slices.ContainsFunc(g.Discs, func(d planner.Grams) bool { return d%smallest != 0 })
}

func TestPlatesRefuseWhatNoGymHas(t *testing.T) {
	for _, tt := range []struct {
		load planner.Grams
		gym  load.Gym
	}{
		{0, load.Gym{}}, {kg(-20), load.Gym{}}, {kg(900), load.Gym{}},
		{kg(100), load.Gym{Bar: kg(100)}}, {kg(100), load.Gym{Bar: kg(20), Collars: kg(30)}}, {kg(100), load.Gym{Discs: []planner.Grams{0}}},
	} {
		_, err := load.Plates(tt.load, tt.gym)
		var e *planner.Error
		if !errors.As(err, &e) || e.Kind != planner.Invalid {
			t.Errorf("%v with %+v: %v", tt.load, tt.gym, err)
		}
	}
}

func TestWarmUpRises(t *testing.T) {
	for _, l := range planner.CompetitionLifts() {
		for w := 22.5; w <= 400; w += 2.5 {
			for _, percent := range []float64{72, 92} {
				sets, err := load.WarmUp(load.Work{Lift: l, Weight: kg(w), Percent: percent, Reps: 3}, load.Gym{})
				if err != nil {
					t.Fatal(err)
				}
				last := planner.Grams(0)
				for i, s := range sets {
					if s.Weight <= last || s.Weight >= kg(w) || i > 0 && s.Reps > sets[i-1].Reps || !s.Plates.Exact {
						t.Errorf("%s %g kg: %v", l, w, sets)
					}
					last = s.Weight
				}
				if w >= 60 && last.Kg() < 0.8*w {
					t.Errorf("%s %g kg: the last warm-up is %s", l, w, last.Text(planner.KG))
				}
			}
		}
	}
}

func ExampleWarmUp() {
	sets, err := load.WarmUp(load.Work{Lift: planner.Squat, Weight: planner.Kilograms(180), Percent: 88, Reps: 2}, load.Gym{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sets {
		fmt.Printf("%s x %d %v\n", s.Weight.Text(planner.KG), s.Reps, s.Plates.PerSide)
	}
	// Output:
	// 20 kg x 8 []
	// 72.5 kg x 5 [20000 2500 1250]
	// 102.5 kg x 4 [25000 10000 2500 1250]
	// 130 kg x 3 [25000 25000 2500]
	// 150 kg x 2 [25000 25000 10000 2500]
	// 167.5 kg x 1 [25000 25000 20000 1250]
}
