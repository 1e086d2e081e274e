package load

import (
	"math"
	"slices"

	"blockbell/planner"
)

// Gear is something a gym may lack.
type Gear string

// What movements need.
const (
	Barbell   Gear = "barbell"
	Rack      Gear = "rack"
	BenchGear Gear = "bench"
	Dumbbells Gear = "dumbbells"
	Cable     Gear = "cable"
	LegRoom   Gear = "leg machine"
	Bars      Gear = "pull-up and dip bars"
	Boxes     Gear = "boxes"
	SafetyBar Gear = "safety bar"
)

// Gym is the bar and the discs of a club. The zero value is a 20 kg bar with two
// 2.5 kg collars and discs from 25 to 1.25 kg; with Unit lb a 45 lb bar without
// collars and discs from 45 to 2.5 lb.
type Gym struct {
	Unit    planner.Unit
	Bar     planner.Grams
	Collars planner.Grams   // the pair
	Discs   []planner.Grams // sizes there are, as many pairs as needed
	Missing []Gear
}

// ticks per kg or lb: discs are reckoned in hundredths of the gym's unit, so that
// sums of pounds stay exact.
const ticks = 100

// full returns the gym with its defaults filled in.
func (g Gym) full() Gym {
	lb := g.Unit == planner.LB
	if g.Bar == 0 && g.Collars == 0 {
		g.Bar, g.Collars = planner.Kilograms(20), planner.Kilograms(5)
		if lb {
			g.Bar, g.Collars = planner.Pounds(45), 0
		}
	}
	if len(g.Discs) == 0 {
		sizes := []float64{25, 20, 15, 10, 5, 2.5, 1.25}
		if lb {
			sizes = []float64{45, 35, 25, 10, 5, 2.5}
		}
		unit := planner.KG
		if lb {
			unit = planner.LB
		}
		for _, s := range sizes {
			g.Discs = append(g.Discs, planner.In(unit, s))
		}
	}
	return g
}

// check refuses bars and discs that no gym has.
func (g Gym) check() error {
	g = g.full()
	if kg := g.Bar.Kg(); kg < 5 || kg > 40 {
		return planner.Errorf(planner.Invalid, "A competition bar weighs 20 kg.", "A bar of %s is outside %s to %s", g.Bar.Text(g.Unit), planner.Kilograms(5).Text(g.Unit), planner.Kilograms(40).Text(g.Unit))
	}
	if kg := g.Collars.Kg(); kg < 0 || kg > 10 {
		return planner.Errorf(planner.Invalid, "A pair of competition collars weighs 5 kg.", "Collars of %s are outside 0 to 10 kg the pair", g.Collars.Text(g.Unit))
	}
	for _, d := range g.Discs {
		if kg := d.Kg(); kg < 0.1 || kg > 50 {
			return planner.Errorf(planner.Invalid, "Name the sizes of single discs.", "A disc of %s is outside 0.1 to 50 kg", d.Text(g.Unit))
		}
	}
	return nil
}

// has tells whether all of the gear is there.
func (g Gym) has(needs []Gear) bool {
	return !slices.ContainsFunc(needs, func(n Gear) bool { return slices.Contains(g.Missing, n) })
}

// rack knows which loads a gym can make: fewest[n] is the smallest number of
// discs that make n units on one side, -1 where none do.
type rack struct {
	gym    Gym
	unit   int   // ticks of one step of the table
	sizes  []int // discs in steps, largest first
	fewest []int
	last   []int // index of the disc last put on
	loads  []int // makeable loads in ticks, rising; the first is the bar without collars
}

// heaviestSide is more than anybody loads on one side.
const heaviestSide = 350 * planner.Kilogram

func newRack(g Gym) *rack {
	k := &rack{gym: g.full()}
	for _, d := range k.gym.Discs {
		k.sizes = append(k.sizes, k.gym.toTicks(d))
	}
	slices.SortFunc(k.sizes, func(a, b int) int { return b - a })
	k.sizes = slices.Compact(k.sizes)
	for _, s := range k.sizes {
		k.unit = gcd(k.unit, s)
	}
	n := k.gym.toTicks(heaviestSide) / k.unit
	k.fewest, k.last = make([]int, n+1), make([]int, n+1)
	for i := 1; i <= n; i++ {
		k.fewest[i] = -1
		for j, s := range k.sizes {
			rest := i - s/k.unit
			if rest >= 0 && k.fewest[rest] >= 0 && (k.fewest[i] < 0 || k.fewest[rest]+1 < k.fewest[i]) {
				k.fewest[i], k.last[i] = k.fewest[rest]+1, j
			}
		}
	}
	k.loads = []int{k.gym.toTicks(k.gym.Bar)}
	for i, f := range k.fewest {
		if t := k.gym.toTicks(k.gym.Bar+k.gym.Collars) + 2*i*k.unit; f >= 0 && t > k.loads[len(k.loads)-1] {
			k.loads = append(k.loads, t)
		}
	}
	return k
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// toTicks and grams convert between masses and hundredths of the gym's unit.
func (g Gym) toTicks(m planner.Grams) int {
	if g.Unit == planner.LB {
		return int(math.Round(m.Lb() * ticks))
	}
	return int(math.Round(m.Kg() * ticks))
}

func (g Gym) grams(t int) planner.Grams {
	if g.Unit == planner.LB {
		return planner.Pounds(float64(t) / ticks)
	}
	return planner.Kilograms(float64(t) / ticks)
}

// nearest returns the makeable load nearest to m, the lighter of two equally
// near; never less than the bar without collars.
func (k *rack) nearest(m planner.Grams) planner.Grams {
	want := k.gym.toTicks(m)
	i, _ := slices.BinarySearch(k.loads, want)
	switch {
	case i == 0:
		return k.gym.grams(k.loads[0])
	case i == len(k.loads), want-k.loads[i-1] <= k.loads[i]-want:
		i--
	}
	return k.gym.grams(k.loads[i])
}

// below returns the heaviest makeable load of at most m, at least the bar.
func (k *rack) below(m planner.Grams) planner.Grams {
	i, exact := slices.BinarySearch(k.loads, k.gym.toTicks(m))
	if !exact {
		i = max(0, i-1)
	}
	return k.gym.grams(k.loads[i])
}

// step is the smallest change of a load: two of the smallest discs.
func (k *rack) step() planner.Grams { return 2 * k.gym.grams(k.sizes[len(k.sizes)-1]) }

func abs(n int) int { return max(n, -n) }

// Loading is what goes on each side of the bar.
type Loading struct {
	Load    planner.Grams   // what the bar weighs then: the makeable load nearest to the one asked for
	Exact   bool            // Load is what was asked for
	PerSide []planner.Grams // discs of one side, heaviest first; the fewest that do
	Collars bool            // false: the empty bar
}

// Plates returns the discs for one side that make load, with the fewest discs,
// or those of the nearest load the gym can make. Loads outside 0 to
// planner.MaxWeight are an Invalid error.
func Plates(load planner.Grams, g Gym) (Loading, error) {
	if load <= 0 || load > planner.MaxWeight {
		return Loading{}, planner.Errorf(planner.Invalid, "Check the weight.", "%s is outside 0 to %s", load.Text(g.Unit), planner.MaxWeight.Text(g.Unit))
	}
	if err := g.check(); err != nil {
		return Loading{}, err
	}
	k := newRack(g)
	made := k.nearest(load)
	out := Loading{Load: made, Exact: k.gym.toTicks(made) == k.gym.toTicks(load)}
	side := k.gym.toTicks(made) - k.gym.toTicks(k.gym.Bar+k.gym.Collars)
	if side < 0 {
		return out, nil
	}
	out.Collars = true
	for i := side / 2 / k.unit; i > 0; i -= k.sizes[k.last[i]] / k.unit {
		out.PerSide = append(out.PerSide, k.gym.grams(k.sizes[k.last[i]]))
	}
	slices.SortFunc(out.PerSide, func(a, b planner.Grams) int { return int(b - a) })
	return out, nil
}
