package strength

import "math"

// Variances of the trend, per week, in squared log units.
type Variances struct {
	// Level is what the level wanders in a week beside its slope: tiredness, form,
	// what the block trains.
	Level float64
	// Slope is what the weekly slope changes in a week.
	Slope float64
	// Scale multiplies the variances of the observations, 1 where their stated
	// errors are right.
	Scale float64
}

// state is what is believed at one moment: level and weekly slope in log units,
// with their covariance.
type state struct{ l, b, ll, lb, bb float64 }

// after returns the belief dt weeks later, before anything is observed: the
// integrated random walk in continuous time, whose discrete form is exact for any
// distance of days (Durbin and Koopman, Time Series Analysis by State Space
// Methods, section on continuous time). extra is added to the variance of the level.
func (s state) after(dt float64, v Variances, extra float64) state {
	return state{
		l:  s.l + s.b*dt,
		b:  s.b,
		ll: s.ll + 2*dt*s.lb + dt*dt*s.bb + v.Level*dt + v.Slope*dt*dt*dt/3 + extra,
		lb: s.lb + dt*s.bb + v.Slope*dt*dt/2,
		bb: s.bb + v.Slope*dt,
	}
}

// seen returns the belief after y was observed with variance r, the innovation and
// its variance.
func (s state) seen(y, r float64) (after state, v, f float64) {
	v, f = y-s.l, s.ll+r
	return state{
		l:  s.l + s.ll/f*v,
		b:  s.b + s.lb/f*v,
		ll: s.ll * r / f,
		lb: s.lb * r / f,
		bb: s.bb - s.lb*s.lb/f,
	}, v, f
}

// moment is one point of time in a series: dt weeks after the one before it, with
// an observation y of variance r, or none where r is infinite.
type moment struct {
	dt, extra float64
	y, r      float64
}

// path is a filtered series: the belief before and after each moment.
type path struct {
	before, after []state
	logLik        float64 // Gaussian log-likelihood of the observations after the start
}

// filter runs forward from the belief at the first moment. Its first observation,
// if any, is taken into that belief like the others.
func filter(start state, series []moment, v Variances) path {
	p := path{before: make([]state, len(series)), after: make([]state, len(series))}
	s := start
	for i, m := range series {
		if i > 0 {
			s = s.after(m.dt, v, m.extra)
		}
		p.before[i] = s
		if !math.IsInf(m.r, 1) {
			var e, f float64
			s, e, f = s.seen(m.y, m.r*v.Scale)
			p.logLik -= 0.5 * (math.Log(2*math.Pi*f) + e*e/f)
		}
		p.after[i] = s
	}
	return p
}

// smooth runs backward and returns the belief at each moment given all
// observations (Rauch, Tung and Striebel 1965).
func smooth(p path, series []moment) []state {
	n := len(series)
	out := make([]state, n)
	if n == 0 {
		return out
	}
	out[n-1] = p.after[n-1]
	for i := n - 2; i >= 0; i-- {
		out[i] = back(p.after[i], p.before[i+1], out[i+1], series[i+1].dt)
	}
	return out
}

// back is one step of the smoother: from the belief after a moment, what was
// expected at the next, and what is known of the next by the end.
func back(a, expected, known state, dt float64) state {
	// Covariance of this moment with the next: P T'.
	c := [2][2]float64{{a.ll + dt*a.lb, a.lb}, {a.lb + dt*a.bb, a.bb}}
	det := expected.ll*expected.bb - expected.lb*expected.lb
	var j [2][2]float64 // P T' times the inverse of what was expected
	if det > 1e-14*expected.ll*expected.bb {
		for i := range j {
			j[i][0] = (c[i][0]*expected.bb - c[i][1]*expected.lb) / det
			j[i][1] = (c[i][1]*expected.ll - c[i][0]*expected.lb) / det
		}
	} else if expected.ll > 0 { // a slope known exactly: the level alone is left
		j[0][0] = c[0][0] / expected.ll
	}
	dl, db := known.l-expected.l, known.b-expected.b
	dll, dlb, dbb := known.ll-expected.ll, known.lb-expected.lb, known.bb-expected.bb
	quad := func(x, y [2]float64) float64 {
		return x[0]*(dll*y[0]+dlb*y[1]) + x[1]*(dlb*y[0]+dbb*y[1])
	}
	return state{
		l:  a.l + j[0][0]*dl + j[0][1]*db,
		b:  a.b + j[1][0]*dl + j[1][1]*db,
		ll: a.ll + quad(j[0], j[0]),
		lb: a.lb + quad(j[0], j[1]),
		bb: a.bb + quad(j[1], j[1]),
	}
}
