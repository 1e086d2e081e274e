package strength

import (
	"math"

	"blockbell/planner"
)

const (
	// freedom is of Student's t distribution, which gives the weights of
	// observations: small, so that one wild set costs little.
	freedom = 5.0
	// rounds is how often the weights are found anew.
	rounds = 4
	// vague is the variance of the level before anything is known, (50 %)^2.
	vague = 0.25
	// boundError is the error of a level that stands on bounds alone: people stop
	// one to three repetitions short (judgement).
	boundError = 0.05
)

// track is the filtered series of one lift with the part that each observation
// plays in it.
type track struct {
	obs       []Observation
	series    []moment // parallel to obs; r is infinite where one is not used
	used      []bool
	weight    []float64 // 1 for an ordinary observation, towards 0 for a wild one
	start     state
	variances Variances
	learnt    bool
	path      path
	smoothed  []state
}

// follow filters the observations of a history.
func follow(h *History, obs []Observation) *track {
	hab := habitsOf(h.level())
	t := &track{obs: obs, variances: hab.variances}
	t.series, t.used, t.weight = h.moments(obs), make([]bool, len(obs)), make([]float64, len(obs))
	for i := range t.weight {
		t.weight[i] = 1
	}
	t.start = state{l: obs[0].Log, b: 0, ll: vague, bb: hab.slope * hab.slope}
	for range rounds {
		t.choose()
		t.run()
		t.weigh()
	}
	if t.enough() {
		from := t.since(learnFrom)
		t.variances = maximise(t.path.before[from], t.series[from:], hab.variances, holdFast)
		t.learnt = true
		t.choose()
	}
	t.run()
	return t
}

// moments lays the observations out in time. A layoff adds to what the level may
// have moved: half a percent a week at first, two after the fourth.
func (h *History) moments(obs []Observation) []moment {
	series := make([]moment, len(obs))
	for i, o := range obs {
		m := moment{y: o.Log, r: math.Inf(1)}
		if i > 0 {
			m.dt = weeks(obs[i-1].Day, o.Day)
			m.extra = h.unsure(obs[i-1].Day, o.Day)
		}
		series[i] = m
	}
	return series
}

// unsure is the variance that layoffs between two days add to the level.
func (h *History) unsure(from, to planner.Date) float64 {
	kept, losing := h.idle(from, to)
	return kept*0.005*0.005 + losing*losing*0.02*0.02
}

// variance is that of one observation as it is used now.
func (t *track) variance(i int) float64 {
	sd := t.obs[i].SD
	if t.obs[i].Kind == AtLeast && i == 0 {
		sd = boundError
	}
	return sd * sd / t.weight[i]
}

// choose decides which observations count. Bounds count only where they bind.
// Easy work counts up to the last day on which, all taken together, it raised the
// level: two beliefs are carried along, one with all easy work and one without
// what came later, and the second takes over the first whenever that is higher. So
// no easy day ever lowers the level, and chance ups without their downs do not
// raise it. As long as nothing harder has been logged, rated easy work is all there
// is and counts both ways.
func (t *track) choose() {
	n := len(t.obs)
	all, some := make([]taken, n), make([]taken, n)
	with, without := t.start, t.start
	hard := false
	for i, o := range t.obs {
		m := t.series[i]
		if i > 0 {
			with, without = with.after(m.dt, t.variances, m.extra), without.after(m.dt, t.variances, m.extra)
		}
		r := t.variance(i) * t.variances.Scale
		with, all[i] = with.offered(o, r, i == 0, true)
		hard = hard || o.Kind == Hard
		without, some[i] = without.offered(o, r, i == 0, o.Rated && !o.Spare && !hard)
		if o.Kind == Easy && with.l > without.l {
			without = with
			copy(some, all[:i+1])
		}
	}
	for i, x := range some {
		t.used[i], t.series[i].y, t.series[i].r = x.used, x.y, math.Inf(1)
		if x.used {
			t.series[i].r = t.variance(i)
		}
	}
}

// taken is the part of an observation in a filter: whether it counts, and as what.
type taken struct {
	used bool
	y    float64
}

// offered takes an observation in if it may count; the first always does.
// Work as prescribed was loaded to the nearest discs, so only what lies beyond its
// slack says something; the rest confirms.
func (s state) offered(o Observation, r float64, first, easy bool) (state, taken) {
	y := o.Log
	if !first {
		y -= min(max(y-s.l, -o.Slack), o.Slack)
	}
	switch {
	case first, o.Kind == Hard,
		o.Kind == Easy && easy,
		o.Kind == AtLeast && o.Log > s.l,
		o.Kind == AtMost && o.Log < s.l:
		s, _, _ = s.seen(y, r)
		return s, taken{true, y}
	}
	return s, taken{false, y}
}

// run filters and smooths with the observations that count.
func (t *track) run() {
	t.path = filter(t.start, t.series, t.variances)
	t.smoothed = smooth(t.path, t.series)
}

// weigh gives each observation that counts its weight: Student's, from how far it
// lies from what all the others say (the residual with that observation left out).
func (t *track) weigh() {
	for i, m := range t.series {
		if math.IsInf(m.r, 1) {
			continue
		}
		r, p := m.r*t.variances.Scale, t.smoothed[i].ll
		if p >= r*(1-1e-9) {
			continue // the only word on the matter
		}
		others := p * r / (r - p) // variance of what the others say
		miss := (m.y - t.smoothed[i].l) * r / (r - p)
		z2 := miss * miss / (others + r*t.weight[i])
		t.weight[i] = min(1, (freedom+1)/(freedom+z2))
	}
}

// since returns the first observation of the last weeks.
func (t *track) since(n int) int {
	first := t.obs[len(t.obs)-1].Day.AddDays(-7 * n)
	for i, o := range t.obs {
		if o.Day >= first {
			return i
		}
	}
	return 0
}

// enough tells whether the log holds enough to learn the variances from.
func (t *track) enough() bool {
	n := 0
	for i, o := range t.obs {
		if t.used[i] && o.Rated && !o.Spare {
			n++
		}
	}
	return n >= learnDays && weeks(t.obs[0].Day, t.obs[len(t.obs)-1].Day) >= learnWeeks
}
