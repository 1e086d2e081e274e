package load

import (
	"fmt"

	"blockbell/planner"
)

// WarmSet is one set on the way to the first work set.
type WarmSet struct {
	Weight planner.Grams
	Reps   int
	Plates Loading
}

// rungs of a warm-up in percent of the first work set, with repetitions (common
// practice); the empty bar comes before them.
var rungs = []struct {
	percent float64
	reps    int
}{{40, 5}, {57, 4}, {72, 3}, {84, 2}, {93, 1}}

// WarmUp is the ramp to the first work set of a session: the empty bar, then fewer
// repetitions as the load rises. Light sets have a short ramp; deadlifts begin
// with discs on the bar where the load allows. Work without a load has none.
func WarmUp(first Work, g Gym) ([]WarmSet, error) {
	if err := g.check(); err != nil {
		return nil, err
	}
	if first.Weight == 0 || first.Find || first.Role == Accessory {
		return nil, nil
	}
	k := newRack(g)
	var sets []WarmSet
	last := planner.Grams(0)
	add := func(w planner.Grams, reps int) error {
		if w <= last || w >= first.Weight {
			return nil
		}
		p, err := Plates(w, g)
		if err == nil {
			sets, last = append(sets, WarmSet{p.Load, reps, p}), p.Load
		}
		return err
	}
	if first.Lift != planner.Deadlift || first.Weight < 3*k.gym.Bar {
		if err := add(k.gym.Bar, 8); err != nil {
			return nil, err
		}
	}
	for _, r := range rungs {
		w := k.nearest(planner.Kilograms(first.Weight.Kg() * r.percent / 100))
		if w < last+2*k.step() || w+k.step() > first.Weight || r.percent > 90 && first.Percent < 80 {
			continue
		}
		if err := add(w, r.reps); err != nil {
			return nil, err
		}
	}
	return sets, nil
}

// Shorten cuts a session to the given minutes: accessories first, the last ones
// before the others, then lighter sets; top sets and one set of every lift stay.
// It says what went. Under 15 minutes is an Invalid error; where even the least
// takes longer, the least is returned.
func Shorten(d Day, limit int) (Day, []string, error) {
	const least = 15
	if limit < least {
		return d, nil, planner.Errorf(planner.Invalid, "With less time than that, rest today and move the session.",
			"%d minutes are less than the %d a session needs", limit, least)
	}
	out := Day{Date: d.Date, Note: d.Note, Work: append([]Work{}, d.Work...)}
	cut, order := map[string]int{}, []string{}
	for minutes(out.Work) > limit {
		i := out.expendable()
		if i < 0 {
			break
		}
		name := out.Work[i].Name
		if cut[name] == 0 {
			order = append(order, name)
		}
		cut[name]++
		out.Work[i].Sets--
		if out.Work[i].Sets == 0 {
			out.Work = append(out.Work[:i], out.Work[i+1:]...)
		}
	}
	var said []string
	for _, name := range order {
		said = append(said, fmt.Sprintf("%s of %s", plural(cut[name], "set"), name))
	}
	out.Minutes = minutes(out.Work)
	return out, said, nil
}

// expendable is the work a short session gives a set of: the last accessory, then
// what has most sets; -1 where only top sets and single sets are left.
func (d Day) expendable() int {
	for i := len(d.Work) - 1; i >= 0; i-- {
		if d.Work[i].Role == Accessory {
			return i
		}
	}
	best, most := -1, 1
	for i, w := range d.Work {
		if w.Role != Top && w.Role != FirstHeavy && w.Sets > most {
			best, most = i, w.Sets
		}
	}
	return best
}

// Swaps lists the movements with the same purpose as w that the gym has gear for,
// nearest first: other forms of a competition lift, and for accessories what works
// the same muscles. Top sets near a meet have none: they are the lift itself.
func Swaps(w Work, g Gym) []Movement {
	if w.Role == Top && w.Percent >= heavyFrom {
		return nil
	}
	g = g.full()
	var out []Movement
	for _, e := range catalogued {
		if e.Movement == w.Movement() || !g.has(e.needs) {
			continue
		}
		if w.Lift.Competition() && e.Lift == w.Lift || !w.Lift.Competition() && !e.Lift.Competition() && sameAim(e.muscles, Muscles(w.Movement())) {
			out = append(out, e.Movement)
		}
	}
	return out
}

// sameAim tells whether two movements work the same muscle directly.
func sameAim(a, b map[Muscle]float64) bool {
	for m, s := range a {
		if s == 1 && b[m] == 1 {
			return true
		}
	}
	return false
}
