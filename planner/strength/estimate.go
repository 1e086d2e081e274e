package strength

import (
	"math"

	"blockbell/planner"
)

// Limits and errors of a single estimate.
const (
	// MaxEstimateReps is the most repetitions to failure a maximum is estimated
	// from; longer sets count as volume only. Reserve is judged far worse above
	// 12 to failure (Halperin et al. 2022, Sports Med 52(2):377-390).
	MaxEstimateReps = 12
	// MaxReserve is the most repetitions left that still give an estimate, effort
	// 7. Below that effort the scale of Zourdos et al. 2016 (JSCR 30(1):267-275)
	// names ranges only.
	MaxReserve = 3
	// noisePercent is the day-to-day standard deviation of a single estimate, 2 to
	// 4 % in the literature, 2.5 % usual (Grgic et al. 2020; also the standard
	// error of about 2.7-3.2 kg near 100 kg in Lacio et al., Motricidade).
	noisePercent = 2.5
	// reserveError is how far off the told reserve is, in repetitions: about one
	// for 0 to 5 left (Hackett et al. 2017, JSCR 31(8):2162-2168).
	reserveError = 1.0
	// wideError is added for efforts of 7.5 and below (common practice).
	wideError = 0.5
	// failureError holds for sets told as maximal: the lifter stopped at or beside
	// failure, so half a repetition is left to doubt (common practice).
	failureError = 0.5
	// plannedError holds for unrated sets that match their prescription and are
	// therefore taken at the planned reserve (common practice).
	plannedError = 1.5
)

// Evidence is what one set says about the maximum.
type Evidence struct {
	Kg float64 // the estimate
	SD float64 // its standard deviation in kg
	// LowerBound: the set was not rated, so the maximum is at least Kg. It may
	// raise a level and never lower it.
	LowerBound bool
}

// Work is one set as evidence: what was lifted, and how much was left.
type Work struct {
	WeightKg float64
	Reps     int
	// Reserve is the repetitions left, 10 minus the effort; effort 9.5 ("no more
	// repetitions, a little more weight") counts as 0.5 left by convention. nil:
	// not rated.
	Reserve *float64
	// Planned says that Reserve was prescribed and not told by the lifter.
	Planned bool
}

// Measure estimates the maximum from one set. Sets above MaxEstimateReps to
// failure, with more than MaxReserve left or out of bounds give an Invalid error;
// for easy sets see Range.
func Measure(e Equation, w Work) (Evidence, error) {
	reserve, err := w.reserve()
	if err != nil {
		return Evidence{}, err
	}
	n := float64(w.Reps) + reserve
	if n > MaxEstimateReps {
		return Evidence{}, planner.Errorf(planner.Invalid, "Sets this long count as volume.",
			"%g repetitions to failure are more than the %d a max is estimated from", n, MaxEstimateReps)
	}
	kg, err := e.Max(w.WeightKg, n)
	if err != nil {
		return Evidence{}, err
	}
	doubt := slope(e, n) * w.doubt()
	return Evidence{
		Kg:         kg,
		SD:         kg * math.Hypot(noisePercent/100, doubt),
		LowerBound: w.Reserve == nil,
	}, nil
}

// Estimate is Measure for a set as it was told: weight in kg, repetitions made,
// and repetitions left where the lifter said so. It returns the estimate and its
// standard deviation, both in kg. Without a reserve the set is taken as if none
// was left and the estimate is only a lower bound.
func Estimate(e Equation, weightKg float64, reps int, reserve *float64) (kg, sdKg float64, err error) {
	ev, err := Measure(e, Work{WeightKg: weightKg, Reps: reps, Reserve: reserve})
	return ev.Kg, ev.SD, err
}

// Range returns the bounds in kg between which the maximum lies after an easy set
// with more than MaxReserve left: from MaxReserve left to two more than told,
// since people are off by more than two repetitions there (Hackett et al. 2017).
// A lower bound above MaxEstimateReps to failure is an Invalid error.
func Range(e Equation, weightKg float64, reps int, reserve float64) (lowKg, highKg float64, err error) {
	if !(reserve > MaxReserve && reserve <= 10) {
		return 0, 0, reserveRefused(reserve)
	}
	n := float64(reps + MaxReserve)
	if reps < 1 || n > MaxEstimateReps {
		return 0, 0, planner.Errorf(planner.Invalid, "Sets this long count as volume.",
			"%d repetitions with %g left say too little about a max", reps, reserve)
	}
	if lowKg, err = e.Max(weightKg, n); err != nil {
		return 0, 0, err
	}
	highKg, err = e.Max(weightKg, min(float64(reps)+reserve+2, MaxReps))
	return lowKg, highKg, err
}

// reserve returns the repetitions left to reckon with.
func (w Work) reserve() (float64, error) {
	if w.Reps < 1 {
		return 0, planner.Errorf(planner.Invalid, "", "%d repetitions give no estimate", w.Reps)
	}
	if w.Reserve == nil {
		return 0, nil
	}
	if r := *w.Reserve; r >= 0 && r <= MaxReserve {
		return r, nil
	}
	return 0, reserveRefused(*w.Reserve)
}

func reserveRefused(reserve float64) error {
	return planner.Errorf(planner.Invalid, "A set at effort 7 to 10 gives an estimate.",
		"%g left in reserve is outside 0 to %d: only a range of the max follows", reserve, MaxReserve)
}

// doubt returns how far off the reserve may be, in repetitions (one standard
// deviation).
func (w Work) doubt() float64 {
	switch {
	case w.Reserve == nil:
		return 0
	case w.Planned:
		return plannedError
	case *w.Reserve == 0:
		return failureError
	case *w.Reserve >= 2.5:
		return reserveError + wideError
	}
	return reserveError
}

// slope returns the relative rise of the estimate for one repetition more at n.
func slope(e Equation, n float64) float64 {
	const h = 0.5
	return math.Log(Percent(e, max(1, n-h))/Percent(e, n+h)) / (n + h - max(1, n-h))
}
