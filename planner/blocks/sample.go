package blocks

import (
	"math"
	"math/rand/v2"
)

// Range says how uncertain one kind of number of the model is: 8 lifters of 10 lie
// between its value divided by Factor and its value times Factor, half of them on
// each side (log-normal). All ranges are judgement; Why says what they lean on.
type Range struct {
	Name   string  `json:"name"`
	Factor float64 `json:"factor"`
	Why    string  `json:"why"`
}

// places of the ranges.
const (
	zRm = iota
	zRc
	zTauOn
	zTauAcc
	zTauG
	zTauP
	zDm
	zDS
	zET
	zETau
	zStart
	zGrace
	zCount
)

// Ranges returns the ranges that are drawn from.
func Ranges() []Range {
	return []Range{
		zRm:     {"muscle gained a week", 1.8, "judgement; a year's gain of competing lifters of 2-3 years spans 0.02 to 0.1 % a week"},
		zRc:     {"skill of strength gained a week", 1.8, "judgement; as for muscle"},
		zTauOn:  {"weeks until new work pays", 1.3, "judgement"},
		zTauAcc: {"weeks until the same work pays less", 1.4, "judgement"},
		zTauG:   {"weeks in which strength work turns muscle into strength", 1.3, "judgement"},
		zTauP:   {"the same in peaking", 1.3, "judgement"},
		zDm:     {"muscle lost a week in long peaking", 1.8, "judgement; without work size holds 7 to 21 days, then falls 1 to 2 % a week"},
		zDS:     {"strength given up a week in muscle blocks", 1.6, "judgement"},
		zET:     {"how dull the single gets away from heavy singles", 1.6, "judgement; a taper brings 0 to 3 %"},
		zETau:   {"weeks it takes to get sharp", 1.3, "judgement; taper starts 7 to 21 days out"},
		zStart:  {"how sharp the lifter is where nothing is known", 1.6, "judgement"},
		zGrace:  {"weeks of peaking before muscle goes", 1.4, "judgement; rounded to whole weeks, so about half of the draws keep it"},
	}
}

// sampleSize is how many draws a comparison makes. Measured against 20,000 draws:
// with 400 the ends of the interval of a gain lie within 0.1 % of the total and
// shares within 3 in 100, see the tests.
const sampleSize = 400

// z90 is the standard normal quantile of 0.9: 80 % lie between -z90 and +z90.
const z90 = 1.2815515655446004

// seed of the draws. It is fixed, so that the same question has the same answer.
const seed1, seed2 = 0x626c6f636b62656c, 0x6c2d73616d706c65

// draws returns n draws of every range as standard normal numbers. Each range is
// cut into n equally likely parts of which every one is drawn once (Latin hypercube;
// McKay, Beckman and Conover 1979, from memory), which converges much faster than
// independent draws. The numbers come from integers of a fixed generator and are the
// same on every machine.
func draws(n int) [][zCount]float64 {
	rng := rand.New(rand.NewPCG(seed1, seed2))
	out := make([][zCount]float64, n)
	for k := range zCount {
		for i, j := range rng.Perm(n) {
			u := (float64(j) + 0.5) / float64(n)
			out[i][k] = math.Sqrt2 * math.Erfinv(2*u-1)
		}
	}
	return out
}

// times is the factor of draw z under range r.
func (r Range) times(z float64) float64 {
	return math.Exp(z * math.Log(r.Factor) / z90)
}

// drawn returns the model with its numbers moved by one draw, and the factor of the
// unknown sharpness at the start. Preferences, weights and limits are decisions and
// stay.
func (m Model) drawn(ranges []Range, z [zCount]float64) (Model, float64) {
	f := func(k int) float64 { return ranges[k].times(z[k]) }
	m.Rm *= f(zRm)
	m.Rc *= f(zRc)
	m.TauOn *= f(zTauOn)
	acc := f(zTauAcc)
	for k := range m.TauAcc {
		m.TauAcc[k] *= acc
	}
	m.TauG = atLeastOne(m.TauG * f(zTauG))
	m.TauP = atLeastOne(m.TauP * f(zTauP))
	if m.TauH > 0 {
		m.TauH = atLeastOne(m.TauH * f(zTauG))
	}
	m.Dm *= f(zDm)
	m.DS *= f(zDS)
	dull, slow := f(zET), f(zETau)
	for k := range m.ET {
		m.ET[k] *= dull
		m.ETau[k] = atLeastOne(m.ETau[k] * slow)
	}
	m.Grace = int(math.Round(float64(m.Grace) * f(zGrace)))
	return m, f(zStart)
}

// atLeastOne keeps a time constant from closing more than the whole gap in a week.
func atLeastOne(tau float64) float64 { return max(1, tau) }

// draw is a model with the stimulus of the weeks of a hypertrophy and of a strength
// block worked out, which spares two exponentials a week.
type draw struct {
	Model
	phi [2][32]float64
}

func (m Model) tabled() draw {
	d := draw{Model: m}
	for k := range d.phi {
		on, acc := math.Exp(-1/m.TauOn), math.Exp(-1/m.TauAcc[k])
		missing, worth := on, 1.0
		for w := range d.phi[k] {
			d.phi[k][w] = (1 - missing) * worth
			missing, worth = missing*on, worth*acc
		}
	}
	return d
}

// week is Model.Week.
func (d *draw) week(x State, k, w int) State {
	phi := 0.0
	switch {
	case k > iS:
	case w < len(d.phi[k]):
		phi = d.phi[k][w]
	default:
		phi = d.stimulus(k, w)
	}
	return d.next(x, k, w, phi)
}
