package strength

import (
	"blockbell/planner"
)

// bridge is where the published formulas take over. One repetition with nothing
// left is the maximum itself, whatever the equation says, so between 1 and bridge
// repetitions percent runs in a straight line from 100 to the published value.
// Brzycki's and Lombardi's formulas are exact at 1 and need no bridge.
const bridge = 2

func (e Equation) exactAtOne() bool {
	switch e {
	case Epley, Lander, Mayhew, OConner, Wathan:
		return false
	}
	return true
}

// Percent returns the load in percent of the maximum that allows reps repetitions
// to failure: 100 at one repetition and falling from there. Below one repetition
// it is 100, above MaxReps the value at MaxReps: the relation ends there.
func Percent(e Equation, reps float64) float64 {
	reps = min(max(reps, 1), MaxReps)
	if e.exactAtOne() || reps >= bridge {
		return 100 / e.published(reps)
	}
	low := 100 / e.published(bridge)
	return 100 - (reps-1)/(bridge-1)*(100-low)
}

// Reps returns the repetitions to failure that the load allows, the inverse of
// Percent: 1 at 100 percent and above, MaxReps for loads below the relation's end.
func Reps(e Equation, percent float64) float64 {
	if percent >= 100 {
		return 1
	}
	if percent <= Percent(e, MaxReps) {
		return MaxReps
	}
	low := 100 / e.published(bridge)
	if !e.exactAtOne() && percent > low {
		return 1 + (100-percent)/(100-low)*(bridge-1)
	}
	return e.inverse(100 / percent)
}

// Max returns the one-repetition maximum in kg that a set of reps repetitions to
// failure (made plus left) at weightKg points to. The weight must be positive and
// reps between 1 and MaxReps, else the error is Invalid.
func (e Equation) Max(weightKg, reps float64) (float64, error) {
	if err := e.check(); err != nil {
		return 0, err
	}
	if err := checkWeight(weightKg); err != nil {
		return 0, err
	}
	if err := checkReps(reps); err != nil {
		return 0, err
	}
	return weightKg * 100 / Percent(e, reps), nil
}

// Load returns the weight in kg for reps repetitions with reserve left, for a
// lifter whose maximum is maxKg. It is the inverse of Max and not rounded to
// plates.
func Load(e Equation, maxKg float64, reps int, reserve float64) float64 {
	return maxKg * Percent(e, float64(reps)+reserve) / 100
}

// checkWeight refuses loads nobody has lifted, and NaN.
func checkWeight(kg float64) error {
	if kg >= planner.MinWeight.Kg() && kg <= planner.MaxWeight.Kg() {
		return nil
	}
	return planner.Errorf(planner.Invalid, "Check the weight.", "%g kg is outside %g to %g kg",
		kg, planner.MinWeight.Kg(), planner.MaxWeight.Kg())
}
