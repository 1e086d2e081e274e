package strength

import (
	"math"

	"gonum.org/v1/gonum/optimize"

	"blockbell/planner"
)

// habits are what is assumed of a level before its log says more. Judgement,
// shaped after the usual long-run gains of 0.8, 0.2, 0.05 and 0.02 % a week and a
// form that wanders by a percent or two within a block.
type habits struct {
	variances Variances
	slope     float64 // standard deviation of the first weekly slope
	usual     float64 // weekly change where no plan says otherwise
	excuse    float64 // how far a muscle block may press the level down
}

// squared turns percents per week into variances.
func squared(level, slope float64) Variances {
	return Variances{Level: level * level * 1e-4, Slope: slope * slope * 1e-4, Scale: 1}
}

// habitsOf returns the defaults of a level. Dips in muscle blocks (hypertrophy) are
// excused to 3 % for intermediate and 5 % for more experienced lifters; novices do
// not get weaker in them (common practice).
func habitsOf(l planner.Level) habits {
	switch l {
	case planner.Intermediate:
		return habits{squared(0.4, 0.04), 0.003, 0.002, 0.03}
	case planner.Advanced:
		return habits{squared(0.3, 0.02), 0.0015, 0.0005, 0.05}
	case planner.Elite:
		return habits{squared(0.3, 0.015), 0.001, 0.0002, 0.05}
	}
	return habits{squared(0.6, 0.10), 0.008, 0.008, 0}
}

const (
	// learnDays and learnWeeks are how much a log must hold before the variances are
	// learnt from it: with fewer days the likelihood is nearly flat. Its maximum may
	// lie at zero even then, hence holdFast.
	learnDays  = 30
	learnWeeks = 16
	// learnFrom is how many weeks back it looks: people change.
	learnFrom = 104
	// holdFast is the standard deviation, in natural logarithms of a variance, with
	// which learnt variances are held near the level's defaults.
	holdFast = 1.0
)

// maximise returns the variances under which a series is likeliest, started from
// guess. hold > 0 multiplies the likelihood with a log-normal prior around guess
// of that standard deviation; 0 is plain maximum likelihood. A variance that is
// zero in guess stays zero. Where the search fails guess is returned.
func maximise(start state, series []moment, guess Variances, hold float64) Variances {
	free := []float64{guess.Level, guess.Slope, guess.Scale}
	var at []int
	var x0 []float64
	for i, g := range free {
		if g > 0 {
			at, x0 = append(at, i), append(x0, 0)
		}
	}
	read := func(x []float64) Variances {
		out := [3]float64{}
		for k, i := range at {
			out[i] = free[i] * math.Exp(min(max(x[k], -30), 30))
		}
		return Variances{out[0], out[1], out[2]}
	}
	cost := func(x []float64) float64 {
		sum := 0.0
		for _, v := range x {
			if hold > 0 {
				sum += 0.5 * v * v / (hold * hold)
			}
		}
		return sum - likelihood(start, series, read(x))
	}
	settings := &optimize.Settings{FuncEvaluations: 400, Converger: &optimize.FunctionConverge{Absolute: 1e-6, Iterations: 12}}
	result, err := optimize.Minimize(optimize.Problem{Func: cost}, x0, settings, &optimize.NelderMead{})
	if err != nil || result == nil {
		return guess
	}
	return read(result.X)
}

// likelihood is the log-likelihood that filter finds, without keeping the path.
func likelihood(start state, series []moment, v Variances) float64 {
	s, squares, logs, product, n := start, 0.0, 0.0, 1.0, 0
	for i, m := range series {
		if i > 0 {
			s = s.after(m.dt, v, m.extra)
		}
		if math.IsInf(m.r, 1) {
			continue
		}
		var e, f float64
		s, e, f = s.seen(m.y, m.r*v.Scale)
		squares += e * e / f
		// One logarithm for many variances: it costs more than the rest of a step.
		if product *= f; product < 1e-200 || product > 1e200 {
			logs, product = logs+math.Log(product), 1
		}
		n++
	}
	return -0.5 * (float64(n)*math.Log(2*math.Pi) + logs + math.Log(product) + squares)
}
