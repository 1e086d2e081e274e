package strength

import (
	"math"

	"blockbell/planner"
)

// A halt is looked for with a generalised likelihood ratio on innovations. The log
// is compared with a path: the change expected of the lifter. Under the null
// hypothesis the difference wanders a little and has no direction; a halt on a day
// adds a ramp from that day on. One filter turns differences, ramps and nuisances
// into independent innovations, so that the rest is ordinary regression.
// (Durbin and Koopman; de Jong 1991 for regression through a filter.)

const (
	// formWander is how far the level wanders from the path in a week, in log units
	// (judgement).
	formWander = 0.0015
	// peakGain and peakGainError are what sharpening adds in a peaking block, 0 to
	// 3 % in the literature (Travis et al. 2020, Mujika and Padilla 2003).
	peakGain, peakGainError = 0.01, 0.01
	// testWeeks is how far back a test looks.
	testWeeks = 60
)

// trial is the part of a log that a test uses: rated days, newest testWeeks only.
type trial struct {
	day      []planner.Date
	y, r     []float64 // log estimates, and their variances
	gain, s  []float64 // of the whitening filter: gain and innovation variance
	nuisance [][]float64
	prior    []float64 // variance of each nuisance
}

// trialOf picks the days a test may use out of a track.
func trialOf(h *History, t *track) *trial {
	var d trial
	first := h.Today.AddDays(-7 * testWeeks)
	for i, o := range t.obs {
		if o.Day < first || !o.Rated || o.Spare || (o.Kind != Hard && o.Kind != Easy) {
			continue
		}
		d.day = append(d.day, o.Day)
		d.y = append(d.y, o.Log)
		d.r = append(d.r, o.SD*o.SD*t.variances.Scale/t.weight[i])
	}
	d.prepare(h)
	return &d
}

// prepare runs the gains of a random walk with observation errors r, from a level
// that is not known at all. A layoff leaves the level as unknown again as it was at the
// start: what was lost in it, and what comes back, is neither a fall nor progress that
// failed to come, and only what moves since the return speaks.
func (d *trial) prepare(h *History) {
	n := len(d.day)
	d.gain, d.s = make([]float64, n), make([]float64, n)
	p := 0.0
	for i := range d.day {
		if i == 0 {
			d.gain[0], d.s[0], p = 1, math.Inf(1), d.r[0]
			continue
		}
		p += formWander*formWander*weeks(d.day[i-1], d.day[i]) + h.leap(d.day[i-1], d.day[i])
		d.s[i] = p + d.r[i]
		d.gain[i] = p / d.s[i]
		p *= 1 - d.gain[i]
	}
}

// innovations whitens a series in place of the data: each has variance 1 under the
// null hypothesis.
func (d *trial) innovations(x []float64) []float64 {
	out := make([]float64, len(x))
	a := 0.0
	for i, v := range x {
		e := v - a
		out[i] = e / math.Sqrt(d.s[i])
		a += d.gain[i] * e
	}
	return out
}

// blocksAside removes what muscle and peaking blocks do to a single: an offset of
// each of the two, with the lifter's usual size and its doubt.
func (d *trial) blocksAside(h *History) {
	excuse := habitsOf(h.level()).excuse
	for _, k := range []struct {
		kind        planner.BlockKind
		size, doubt float64
	}{{planner.Hypertrophy, -excuse / 2, 0.7 * excuse}, {planner.Peaking, peakGain, peakGainError}} {
		mark, found := make([]float64, len(d.day)), false
		for i, day := range d.day {
			if k.doubt > 0 && h.block(day) == k.kind {
				mark[i], found = 1, true
				d.y[i] -= k.size
			}
		}
		if found {
			d.aside(mark, k.doubt)
		}
	}
}

// aside adds a nuisance: a feature whose size is near 0, give or take error.
func (d *trial) aside(feature []float64, doubt float64) {
	d.nuisance = append(d.nuisance, d.innovations(feature))
	d.prior = append(d.prior, doubt*doubt)
}

// regression is the size of a whitened feature in whitened data after the
// nuisances, and its standard deviation: a least-squares fit of all of them, in which
// each nuisance is held by its prior. The feature comes last in the elimination.
func (d *trial) regression(data, feature []float64) (size, sd float64) {
	n := len(d.nuisance)
	var columns [4][]float64
	copy(columns[:], d.nuisance)
	columns[n] = feature
	var a [4][5]float64 // normal equations, the data in the last column
	for i := range n + 1 {
		for j := range n + 1 {
			a[i][j] = dot(columns[i], columns[j])
		}
		if i < n {
			a[i][i] += 1 / d.prior[i]
		}
		a[i][4] = dot(columns[i], data)
	}
	for i := range n {
		for k := i + 1; k <= n; k++ {
			f := a[k][i] / a[i][i]
			for j := range a[k] {
				a[k][j] -= f * a[i][j]
			}
		}
	}
	if a[n][n] <= 1e-12*dot(feature, feature) {
		return 0, math.Inf(1)
	}
	return a[n][4] / a[n][n], 1 / math.Sqrt(a[n][n])
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
