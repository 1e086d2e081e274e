package load

import (
	"fmt"
	"math"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// Adjustment is what one logged set changes the next time the same work comes.
type Adjustment struct {
	Weight planner.Grams
	Reps   int
	Why    string
}

// Most repetitions of each kind of work, up to which they rise before the load
// does.
func mostReps(w Work) int {
	switch {
	case w.Role == FirstHeavy:
		return 6
	case w.Percent >= strengthCeiling || w.Reps <= 2:
		return w.Reps
	case w.Reps <= 6:
		return 6
	}
	return 12
}

// Adjust says what a logged set changes for the next time: up by a step where one
// repetition or more was left over, the same within one, down by a step where one
// was short, by two where two were short or the set was missed. A set that was not
// rated raises nothing. Sets of another movement are an Invalid error. The step
// rule is common practice.
func Adjust(prescribed Work, logged planner.Set, e strength.Equation, g Gym) (Adjustment, error) {
	if prescribed.Movement() != (Movement{logged.Lift, logged.Variant}) {
		return Adjustment{}, planner.Errorf(planner.Invalid, "", "A set of %s says nothing about the next %s",
			Movement{logged.Lift, logged.Variant}.Name(), prescribed.Name)
	}
	if err := g.check(); err != nil {
		return Adjustment{}, err
	}
	k := newRack(g)
	a := Adjustment{Weight: prescribed.Weight, Reps: prescribed.Reps}
	if prescribed.Find && logged.Reps > 0 && !logged.Missed {
		a.Weight, a.Why = logged.Weight, "Found: your log sets the loads from now on."
		return a, nil
	}
	if prescribed.Weight == 0 || logged.Weight <= 0 {
		a.Why = "No load was set, so there is nothing to change."
		return a, nil
	}
	over, rated := surplus(prescribed, logged, e)
	unit := k.gym.Unit
	switch {
	case logged.Missed || logged.Reps == 0 || over <= -2:
		a.Weight = k.down(k.down(prescribed.Weight, prescribed.Lift), prescribed.Lift)
		a.Why = fmt.Sprintf("Harder than planned by 2 or more: %s next time instead of %s.", a.Weight.Text(unit), prescribed.Weight.Text(unit))
	case over <= -1:
		a.Weight = k.down(prescribed.Weight, prescribed.Lift)
		a.Why = fmt.Sprintf("One harder than planned: %s next time instead of %s.", a.Weight.Text(unit), prescribed.Weight.Text(unit))
	case over >= 1 && rated:
		return k.raise(prescribed, a), nil
	default:
		a.Why = "As planned: the same load."
	}
	return a, nil
}

// surplus is how many repetitions more (fewer where negative) than prescribed
// could have been done at the prescribed load, to a hundredth, and whether the set
// was rated.
func surplus(w Work, s planner.Set, e strength.Equation) (float64, bool) {
	left, rated := w.Reserve, false
	if s.Reserve != nil {
		left, rated = *s.Reserve, true
	} else if s.Weight != w.Weight || s.Reps != w.Reps {
		left = 0 // unrated and not as prescribed: a lower bound
	}
	if s.Reserve == nil && s.Weight >= w.Weight && s.Reps >= w.Reps {
		return 0, false
	}
	best := s.Weight.Kg() * 100 / strength.Percent(e, float64(s.Reps)+left)
	could := strength.Reps(e, w.Weight.Kg()/best*100)
	return math.Round(100*(could-float64(w.Reps)-w.Reserve)) / 100, rated
}

// Steps of a load (common practice): the larger of 2.5 % and one step of the
// plates, at most 5 % on squat and deadlift.
const (
	stepPercent  = 2.5
	mostPercent  = 5
	largePercent = 4 // a step above this raises repetitions first
	lightBench   = 50 * planner.Kilogram
)

// stepOf is the step of a load.
func (k *rack) stepOf(w planner.Grams, l planner.Lift) planner.Grams {
	one := k.step()
	if l == planner.Bench && w < lightBench {
		return one
	}
	steps := planner.Grams(1)
	for float64((steps+1)*one) <= float64(w)*stepPercent/100 {
		steps++
	}
	return steps * one
}

// down is a load one step lower, never under the bar.
func (k *rack) down(w planner.Grams, l planner.Lift) planner.Grams {
	return k.nearest(max(k.gym.Bar, w-k.stepOf(w, l)))
}

// raise is the next load or, where the step is large, the next repetition.
func (k *rack) raise(w Work, a Adjustment) Adjustment {
	unit, step := k.gym.Unit, k.stepOf(w.Weight, w.Lift)
	percent := 100 * float64(step) / float64(w.Weight)
	if percent > largePercent && w.Reps < mostReps(w) {
		a.Reps++
		a.Why = fmt.Sprintf("Easier than planned. The next load would be %.0f %% more, so do %s at %s first.", percent, plural(a.Reps, "repetition"), w.Weight.Text(unit))
		return a
	}
	a.Weight = k.nearest(w.Weight + step)
	a.Why = fmt.Sprintf("Easier than planned by 1 or more: one step up, %s next time.", a.Weight.Text(unit))
	return a
}
