package blocks

import (
	"math"

	"blockbell/planner"
)

// life is the oracle's simulator: one plan lived week by week from the published
// numbers, and what it is worth so far.
type life struct {
	o          *oracle
	m, c, s, e float64
	value      float64
	cost       float64
	taken      []bool
	at         int // training weeks passed
}

// simulate returns the objective of a plan, written down from the published
// description.
func (o *oracle) simulate(blocks []oBlock) float64 {
	p := o.m
	x := life{o: o, m: p.Start.M, c: p.Start.C, s: p.Start.S, e: p.Start.E, taken: make([]bool, len(o.marks))}
	x.reach(0)
	for _, b := range blocks {
		k := map[byte]int{'H': 0, 'S': 1, 'P': 2, 'R': 3}[b.kind]
		if k < 3 && b.length > 0 {
			d := float64(b.length)/p.L0[k] - 1
			x.cost += p.Kappa * d * d
		}
		for ; x.at < b.from; x.at++ {
			x.reach(x.at + 1) // a week that begins on the day of a practice meet
		}
		for t := b.from; t < b.to; t++ {
			x.week(b.kind, k, b.length-(b.to-t))
			x.at = t + 1
			x.reach(t + 1)
		}
	}
	for _, st := range o.stops {
		for _, b := range blocks {
			if _, in := o.inBlock(b, st); in && b.kind == 'H' && st.kind == planner.TuneUp {
				x.cost += 0.001
			}
		}
	}
	return x.value + 0.5*x.m - x.cost - o.leftOut(blocks)
}

// week is one training week, w weeks into its block.
func (x *life) week(kind byte, k, w int) {
	p := x.o.m
	phi := 0.0
	if k < 2 {
		phi = (1 - math.Exp(-(float64(w)+1)/p.TauOn)) * math.Exp(-float64(w)/p.TauAcc[k])
	}
	switch kind {
	case 'H':
		x.m += p.Rm * phi
		x.s -= p.DS
		if p.TauH > 0 {
			x.s += (x.m + x.c - x.s) / p.TauH
		}
	case 'S':
		x.c += p.Rc * phi
		x.s += (x.m + x.c - x.s) / p.TauG
	case 'P':
		if w >= 3 {
			x.m -= p.Dm
		}
		x.s += (x.m + x.c - x.s) / p.TauP
	}
	if w >= 16 {
		x.s -= 0.0005
	}
	x.e += (p.ET[k] - x.e) / p.ETau[k]
}

// reach passes the marks and the weeks away that follow t training weeks.
func (x *life) reach(t int) {
	x.take(t, 0)
	for _, l := range x.o.lapses {
		if l.before != t {
			continue
		}
		if l.week >= 2 {
			x.m -= 0.015
		}
		if l.week >= 4 {
			x.s -= 0.02
		}
		x.e += (-0.06 - x.e) / 3
		x.take(t, 1+x.o.lapsedBefore(l.start, t))
	}
	x.take(t, 999)
}

// take counts the marks that come after t training weeks and so many weeks away.
func (x *life) take(t, lapsed int) {
	for i, k := range x.o.marks {
		if !x.taken[i] && (k.before < t || k.before == t && k.lapsed <= lapsed) {
			x.value += k.s*x.s + k.e*x.e
			x.taken[i] = true
		}
	}
}
