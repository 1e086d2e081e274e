package bodyweight

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"blockbell/planner"
)

// A bodyweight has a level and a weekly change, and that change wanders: a local linear
// trend (Durbin and Koopman, Time Series Analysis by State Space Methods), which is the
// same as a smoothing spline (Wahba 1978). With a handful of weighings it is solved as
// one regression on correlated errors, and not step by step. How much the change
// wanders and how much weighings scatter is not known: each pair of values counts by how
// well it explains the weighings, so a course that bent of late is foretold with less
// certainty than a straight one.

// All in percent of the bodyweight, and weeks.
const (
	// anyLevel is the standard deviation of the level before the first weighing, and
	// anyChange of the weekly change: few change by more than 1 % (Garthe et al. 2011).
	anyLevel, anyChange = 20.0, 0.7
	// usualBend is how far the weekly change wanders in a week, and bendDoubt the
	// standard deviation of its logarithm (judgement: who gains or loses on purpose
	// turns by a third of a percent a week every couple of months).
	usualBend, bendDoubt = 0.06, 1.2
	// scatterDoubt is the same for the scatter of weighings around daily.
	scatterDoubt = 0.4
)

// bends and scatters are the values that are tried.
var (
	bends    = []float64{0.005, 0.015, 0.04, 0.08, 0.16, 0.32}
	scatters = []float64{0.5, 0.7, 1, 1.4}
)

// course is one pair of values with what the weighings say under it.
type course struct {
	share         float64 // how much it counts among all, 0 to 1
	bend, scatter float64
	at            []float64 // weeks of the weighings since the first
	solved        mat.Cholesky
	weights       mat.VecDense // the covariance solved for the weighings
}

// courseOf fits weighings, in percent above their mean, and returns the logarithm of how
// well they are explained.
func courseOf(at, percent []float64, bend, scatter float64) (course, float64) {
	c := course{bend: bend, scatter: scatter, at: at}
	n := len(at)
	cov := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			cov.SetSym(j, i, c.together(at[i], at[j]))
		}
		cov.SetSym(i, i, cov.At(i, i)+scatter*scatter)
	}
	if !c.solved.Factorize(cov) {
		return c, math.Inf(-1)
	}
	y := mat.NewVecDense(n, percent)
	if err := c.solved.SolveVecTo(&c.weights, y); err != nil {
		return c, math.Inf(-1)
	}
	away, spread := math.Log(bend/usualBend)/bendDoubt, math.Log(scatter/(100*daily))/scatterDoubt
	return c, -0.5 * (mat.Dot(y, &c.weights) + c.solved.LogDet() + away*away + spread*spread)
}

// together is the covariance of the level at two times.
func (c *course) together(s, t float64) float64 {
	early, late := min(s, t), max(s, t)
	return anyLevel*anyLevel + anyChange*anyChange*s*t + c.bend*c.bend*early*early*(3*late-early)/6
}

// level is the level at a time, not before the first weighing, and its variance.
func (c *course) level(t float64) (mean, variance float64) {
	with := make([]float64, len(c.at))
	for i, s := range c.at {
		with[i] = c.together(s, t)
	}
	return c.given(with, c.together(t, t))
}

// change is the weekly change at a time, not before the last weighing, and its variance.
func (c *course) change(t float64) (mean, variance float64) {
	with := make([]float64, len(c.at))
	for i, s := range c.at {
		with[i] = anyChange*anyChange*s + c.bend*c.bend*s*s/2
	}
	return c.given(with, anyChange*anyChange+c.bend*c.bend*t)
}

// given is what the weighings say of something, from its covariance with each of them
// and its variance without them.
func (c *course) given(with []float64, alone float64) (mean, variance float64) {
	v := mat.NewVecDense(len(with), with)
	var x mat.VecDense
	if err := c.solved.SolveVecTo(&x, v); err != nil {
		return mat.Dot(v, &c.weights), alone
	}
	return mat.Dot(v, &c.weights), max(0, alone-mat.Dot(v, &x))
}

// coursesOf tries all values and gives each its share.
func coursesOf(all []Weighing, first planner.Date, mean float64) []course {
	var at, percent []float64
	for _, p := range all {
		at = append(at, float64(first.DaysUntil(p.Day))/7)
		percent = append(percent, 100*(p.Mass.Kg()/mean-1))
	}
	var courses []course
	var logs []float64
	best, sum := math.Inf(-1), 0.0
	for _, bend := range bends {
		for _, scatter := range scatters {
			c, log := courseOf(at, percent, bend, scatter)
			courses, logs, best = append(courses, c), append(logs, log), max(best, log)
		}
	}
	for i := range courses {
		courses[i].share = math.Exp(logs[i] - best)
		sum += courses[i].share
	}
	for i := range courses {
		courses[i].share /= sum
	}
	return courses
}
