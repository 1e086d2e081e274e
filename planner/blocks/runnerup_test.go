package blocks

import (
	"math"
	"testing"

	"blockbell/planner"
)

// alike tells whether two plans count as one: the same kinds, and no block two
// weeks or more longer or shorter.
func alike(a, b []oBlock) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		d := a[i].length - b[i].length
		if a[i].kind != b[i].kind || d <= -2 || d >= 2 {
			return false
		}
	}
	return true
}

// TestRunnersUpMatchEnumeration: each runner-up is the best plan of the
// prescribed order that differs from those before it.
func TestRunnersUpMatchEnumeration(t *testing.T) {
	for _, level := range trained {
		for n := 8; n <= 24; n += 2 {
			r := fresh(level, n)
			p := mustBuild(t, r)
			o := newOracle(r, p.Model, stretchLimits(r))
			best, _ := o.best()
			known := [][]oBlock{best.blocks}
			for i, alt := range p.RunnersUp {
				next := o.nextBest(known)
				if got := lengths(alt.Blocks); got != o.lengths(next.blocks) || math.Abs(alt.Objective-next.value) > sameValue {
					t.Errorf("%s, %d weeks, runner-up %d: %s %.9f, oracle %s %.9f", level, n, i+1, got, alt.Objective, o.lengths(next.blocks), next.value)
				}
				if want := 100 * (p.Objective - alt.Objective); math.Abs(alt.CostPercent-want) > 100*sameValue {
					t.Errorf("%s, %d weeks: cost %g, want %g", level, n, alt.CostPercent, want)
				}
				known = append(known, next.blocks)
			}
			if len(p.RunnersUp) < 2 && o.nextBest(known).blocks != nil {
				t.Errorf("%s, %d weeks: only %d runners-up", level, n, len(p.RunnersUp))
			}
		}
	}
}

func (o *oracle) nextBest(known [][]oBlock) (f oFound) {
	o.walk(nil, 0, func(plan []oBlock) {
		if !o.prescribed(plan) {
			return
		}
		for _, k := range known {
			if alike(plan, k) {
				return
			}
		}
		if v := o.simulate(plan); o.better(plan, v, f) {
			f.blocks, f.value = append([]oBlock(nil), plan...), v
		}
	})
	return f
}

// TestBoundariesMatchEnumeration: a boundary's cost is the loss of the plan with
// that one boundary moved, and nil exactly where that plan is not legal.
func TestBoundariesMatchEnumeration(t *testing.T) {
	for _, level := range trained {
		for _, weeks := range [][]int{{8}, {12}, {16}, {24}, {10, 22}, {6, 14}} {
			r := fresh(level, weeks...)
			p := mustBuild(t, r)
			o := newOracle(r, p.Model, stretchLimits(r))
			legal, free := map[string]float64{}, map[string]float64{}
			o.walk(nil, 0, func(plan []oBlock) {
				if o.prescribed(plan) {
					legal[o.lengths(plan)] = o.simulate(plan)
				}
				if o.freeOrder(plan) {
					free[o.lengths(plan)] = o.simulate(plan)
				}
			})
			if _, ok := legal[lengths(p.Blocks)]; !ok {
				legal = free // the plan is of another order than the prescribed one
			}
			if len(p.Boundaries) != len(p.Blocks)-1 {
				t.Fatalf("%d boundaries between %d blocks", len(p.Boundaries), len(p.Blocks))
			}
			for i, b := range p.Boundaries {
				for d, cost := range map[int]*float64{-1: b.Earlier, 1: b.Later} {
					moved := append([]planner.Block(nil), p.Blocks...)
					moved[i].Weeks += d
					moved[i+1].Weeks -= d
					v, ok := legal[lengths(moved)]
					if moved[i].Kind == planner.Peaking {
						ok = false // a meet lies between them
					}
					if ok != (cost != nil) || ok && math.Abs(*cost-100*(p.Objective-v)) > 100*sameValue {
						t.Errorf("%s %v, boundary %s by %d: cost %v, legal %v", level, weeks, b.Date, d, cost, ok)
					}
				}
			}
		}
	}
}
