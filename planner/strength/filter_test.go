package strength

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.9f, want %.9f (tolerance %g)", what, got, want, tolerance)
	}
}

// nile reads the flow of the Nile as a series with one year between values; the
// variance of an observation is 1, so that Scale is that of the model.
func nile(t *testing.T) []moment {
	t.Helper()
	f, err := os.Open("../../testdata/vectors/nile.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var series []moment
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var year int
		m := moment{dt: 1, r: 1}
		if n, _ := fmt.Sscanf(strings.TrimSpace(lines.Text()), "%d %f", &year, &m.y); n == 2 {
			series = append(series, m)
		}
	}
	if len(series) != 100 {
		t.Fatalf("%d years", len(series))
	}
	return series
}

// published are Durbin and Koopman's variances of the local level of the Nile: 1469.1
// of the level, 15099 of the observations.
var published = Variances{Level: 1469.1, Scale: 15099}

func TestNileMean(t *testing.T) {
	sum := 0.0
	for _, m := range nile(t) {
		sum += m.y
	}
	near(t, "mean", sum/100, 919.35, 1e-9)
}

// From a level of 0 with variance 10^7, as in Durbin and Koopman's example; figures
// computed with R 4.2.2.
func TestNileFilter(t *testing.T) {
	series := nile(t)
	p := filter(state{ll: 1e7}, series, published)
	for _, c := range []struct {
		what      string
		got, want float64
		tolerance float64
	}{
		{"level, year 1", p.after[0].l, 1118.3114615, 1e-6},
		{"innovation, year 2", series[1].y - p.before[1].l, 41.68853848, 1e-7},
		{"its variance", p.before[1].ll + 15099, 31644.33639, 1e-4},
		{"level, year 2", p.after[1].l, 1140.1084392, 1e-6},
		{"level, year 28", p.after[27].l, 1133.1261146, 1e-6},
		{"level, year 100", p.after[99].l, 798.3702926, 1e-6},
		{"variance in the end", p.after[99].ll, 4032.157942, 1e-4},
		{"innovation variance in the end", p.before[99].ll + 15099, 20600.25794, 1e-3},
	} {
		near(t, c.what, c.got, c.want, c.tolerance)
	}
}

// Started from the first observation, which is the diffuse start of a local level,
// the likelihood of the other 99 is -632.5456251; with half the logarithm of 2 pi
// for the first, -633.4646 as published (Durbin and Koopman).
func TestNileLikelihood(t *testing.T) {
	series := nile(t)
	start := state{l: series[0].y, ll: published.Scale}
	got := likelihood(start.after(1, published, 0), series[1:], published)
	near(t, "log-likelihood", got, -632.5456251, 1e-6)
	near(t, "as published", got-0.5*math.Log(2*math.Pi), -633.4646, 1e-4)
	p := filter(start.after(1, published, 0), series[1:], published)
	near(t, "likelihood of the path", p.logLik, got, 1e-9)
}

// R's StructTS finds 1469.146619 and 15098.577154, the maximum of the exact diffuse
// likelihood is at 1469.175455 and 15098.52145; a flat start differs a little.
func TestNileMaximumLikelihood(t *testing.T) {
	got := maximise(state{l: 1120, ll: 1e10}, nile(t), Variances{Level: 3000, Scale: 9000}, 0)
	near(t, "level variance", got.Level, 1469.1, 1.5)
	near(t, "observation variance", got.Scale, 15099, 3)
	if got.Slope != 0 {
		t.Errorf("a slope variance of %g came from nothing", got.Slope)
	}
}

// R's smoothed level at StructTS's variances in years 1, 28, 50 and 100.
func TestNileSmoother(t *testing.T) {
	series := nile(t)
	v := Variances{Level: 1469.146619, Scale: 15098.577154}
	s := smooth(filter(state{ll: 1e12}, series, v), series)
	for year, want := range map[int]float64{1: 1111.668693, 28: 999.5857102, 50: 834.7630403, 100: 798.3681565} {
		near(t, fmt.Sprint("smoothed level, year ", year), s[year-1].l, want, 5e-4)
	}
}

// With 21-40 and 61-80 missing the level stands still inside the gaps, its variance
// grows by that of the level each year, and the smoother draws a straight line.
func TestMissingData(t *testing.T) {
	series := nile(t)
	for i := range series {
		if i >= 20 && i < 40 || i >= 60 && i < 80 {
			series[i].r = math.Inf(1)
		}
	}
	p := filter(state{ll: 1e7}, series, published)
	s := smooth(p, series)
	for i := 20; i < 40; i++ {
		near(t, "level in the gap", p.after[i].l, p.after[19].l, 1e-9)
		near(t, "variance in the gap", p.after[i].ll, p.after[19].ll+float64(i-19)*1469.1, 1e-6)
		if i > 20 && i < 39 {
			near(t, "smoothed line", s[i].l, (s[i-1].l+s[i+1].l)/2, 1e-6)
		}
	}
	left := make([]moment, 0, 60)
	for _, m := range series {
		gap := 1.0
		if n := len(left); n == 20 || n == 40 {
			gap = 21
		}
		if !math.IsInf(m.r, 1) {
			left = append(left, moment{dt: gap, y: m.y, r: m.r})
		}
	}
	q := filter(state{ll: 1e7}, left, published)
	near(t, "likelihood without the gaps", q.logLik, p.logLik, 1e-9)
	near(t, "level in the end", q.after[59].l, p.after[99].l, 1e-9)
}

// The smoother equals the conditional mean and covariance of the whole Gaussian
// vector, computed densely, on random series with irregular days and gaps.
func TestSmootherAgainstDenseConditional(t *testing.T) {
	for seed := uint64(1); seed <= 40; seed++ {
		rng := rand.New(rand.NewPCG(seed, 5))
		v := Variances{Level: 0.5 * rng.Float64(), Slope: 0.1 * rng.Float64(), Scale: 0.5 + rng.Float64()}
		start := state{l: rng.NormFloat64(), b: rng.NormFloat64() / 5, ll: 1 + rng.Float64(), lb: 0.1, bb: 0.2 + rng.Float64()}
		series := make([]moment, 2+rng.IntN(18))
		for i := range series {
			series[i] = moment{dt: float64(rng.IntN(30)) / 7, extra: 0.1 * float64(rng.IntN(2)), y: rng.NormFloat64(), r: 0.2 + rng.Float64()}
			if rng.IntN(5) == 0 {
				series[i].r = math.Inf(1)
			}
		}
		p := filter(start, series, v)
		got, want := smooth(p, series), dense(start, series, v)
		for i := range got {
			g := [5]float64{got[i].l, got[i].b, got[i].ll, got[i].lb, got[i].bb}
			w := [5]float64{want[i].l, want[i].b, want[i].ll, want[i].lb, want[i].bb}
			for k := range g {
				near(t, fmt.Sprintf("seed %d, moment %d, figure %d", seed, i, k), g[k], w[k], 1e-9)
			}
		}
	}
}

// dense is the conditional distribution of all states given the observations, from
// the covariance of the whole vector. It writes out the integrals of the integrated
// random walk for each pair of moments and shares nothing with the filter.
func dense(start state, series []moment, v Variances) []state {
	n := len(series)
	at := make([]float64, n) // time since the first moment
	for i := 1; i < n; i++ {
		at[i] = at[i-1] + series[i].dt
	}
	mean := make([]float64, 2*n)
	cov := matrix(2*n, 2*n)
	for i := range n {
		mean[2*i], mean[2*i+1] = start.l+start.b*at[i], start.b
		extra := 0.0
		for j := range n {
			if j > 0 && j <= i {
				extra += series[j].extra
			}
			s, u := at[j], at[i] // covariances of times s <= u
			if j > i {
				s, u = u, s
			}
			e := extra
			if j > i {
				e = 0
				for k := 1; k <= i; k++ {
					e += series[k].extra
				}
			}
			d := u - s
			cov[2*i][2*j] = start.ll + start.lb*(s+u) + start.bb*s*u + v.Level*s + v.Slope*(s*s*s/3+s*s*d/2) + e
			cov[2*i+1][2*j+1] = start.bb + v.Slope*s
			slopeAt, levelAt := at[i], at[j]
			m := min(slopeAt, levelAt)
			cov[2*i+1][2*j] = start.lb + start.bb*levelAt + v.Slope*(m*levelAt-m*m/2)
			cov[2*j][2*i+1] = cov[2*i+1][2*j]
		}
	}
	return condition(mean, cov, series, v)
}

// condition takes the observations in by Gaussian elimination on their covariance.
func condition(mean []float64, cov [][]float64, series []moment, v Variances) []state {
	var seen []int
	for i, m := range series {
		if !math.IsInf(m.r, 1) {
			seen = append(seen, i)
		}
	}
	k, n := len(seen), len(mean)
	// [S | C' | v]: solve S X = C' and S x = v at once.
	a := matrix(k, k+n+1)
	for r, i := range seen {
		for c, j := range seen {
			a[r][c] = cov[2*i][2*j]
		}
		a[r][r] += series[i].r * v.Scale
		copy(a[r][k:], cov[2*i])
		a[r][k+n] = series[i].y - mean[2*i]
	}
	eliminate(a)
	out := make([]state, n/2)
	for i := range out {
		s := state{l: mean[2*i], b: mean[2*i+1], ll: cov[2*i][2*i], lb: cov[2*i][2*i+1], bb: cov[2*i+1][2*i+1]}
		for r, j := range seen {
			s.l += cov[2*i][2*j] * a[r][k+n]
			s.b += cov[2*i+1][2*j] * a[r][k+n]
			s.ll -= cov[2*i][2*j] * a[r][k+2*i]
			s.lb -= cov[2*i][2*j] * a[r][k+2*i+1]
			s.bb -= cov[2*i+1][2*j] * a[r][k+2*i+1]
		}
		out[i] = s
	}
	return out
}

func matrix(rows, columns int) [][]float64 {
	m := make([][]float64, rows)
	for i := range m {
		m[i] = make([]float64, columns)
	}
	return m
}

// eliminate turns the left square of a into the identity (Gauss and Jordan, with
// pivots).
func eliminate(a [][]float64) {
	for c := range a {
		best := c
		for r := c; r < len(a); r++ {
			if math.Abs(a[r][c]) > math.Abs(a[best][c]) {
				best = r
			}
		}
		a[c], a[best] = a[best], a[c]
		for k := len(a[c]) - 1; k >= c; k-- {
			a[c][k] /= a[c][c]
		}
		for r := range a {
			if r == c {
				continue
			}
			f := a[r][c]
			for k := c; k < len(a[r]); k++ {
				a[r][k] -= f * a[c][k]
			}
		}
	}
}
