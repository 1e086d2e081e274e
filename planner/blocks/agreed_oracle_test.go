package blocks

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"blockbell/planner"
)

// dated puts dates on a plan of the oracle, from its own calendar.
func (o *oracle) dated(plan []oBlock) (out []planner.Block) {
	kinds := map[byte]planner.BlockKind{'H': planner.Hypertrophy, 'S': planner.Strength, 'P': planner.Peaking, 'R': planner.Recovery}
	for i, b := range plan {
		s := o.stretches[b.stretch]
		start, end := s.from, s.end-1
		if b.from > s.lo {
			start = o.weeks[b.from]
		}
		if b.running {
			start = o.runStart
		}
		if b.to < s.hi && i+1 < len(plan) {
			end = o.weeks[b.to] - 1
		}
		if end < start || b.running && b.from == b.to && len(o.listed(plan)) < len(plan) {
			continue
		}
		out = append(out, planner.Block{Kind: kinds[b.kind], Start: start, End: end, Weeks: b.length})
	}
	return out
}

// TestAgreedPlansMatchEnumeration agrees random legal plans: each stays exactly where
// full enumeration finds no plan that is better by 0.0025, and costs what it finds.
func TestAgreedPlansMatchEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 404
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	kept, replaced := 0, 0
	for range 1200 {
		r := randomRequest(rng)
		r.Pins = nil
		if len(r.Meets) != mains(r) || len(r.Meets) == 0 {
			continue
		}
		if rng.IntN(3) == 0 {
			r.addRandomAway(rng)
		}
		s, err := newSeason(r)
		if err != nil {
			t.Fatal(err)
		}
		o := newOracle(r, s.model, stretchLimits(r))
		if len(o.weeks) == 0 || slices.ContainsFunc(o.stretches, func(s oStretch) bool { return s.hi == s.lo }) {
			continue // a few days of taper are no block to the oracle
		}
		best, ok := o.best()
		if !ok || o.stretches[0].hi == 0 {
			continue
		}
		pick, seen := oFound{}, 0
		o.walk(nil, 0, func(plan []oBlock) {
			if !o.prescribed(plan) && !o.freeOrder(plan) {
				return
			}
			v := o.simulate(plan)
			if rng.IntN(2) == 0 && v < best.value-0.004 {
				return
			}
			if seen++; rng.IntN(seen) == 0 {
				pick = oFound{blocks: append([]oBlock(nil), plan...), value: v}
			}
		})
		if pick.blocks == nil || pick.blocks[0].running && (o.run == 'P' && o.stretches[0].leave || pick.blocks[0].to == 0) {
			continue
		}
		r.Agreed = o.dated(pick.blocks)
		if r.Running != nil && o.runStart != r.Running.Start {
			continue // a time away has made another block of what runs
		}
		p := mustBuild(t, r)
		cost := best.value - pick.value
		if math.Abs(cost-keepGain) < 1e-9 {
			continue
		}
		if p.KeepCostPercent == nil || math.Abs(*p.KeepCostPercent-max(0, 100*cost)) > 100*sameValue {
			t.Fatalf("%s\nagreed %s costs %.9f %%, told %v, %q", describe(r), o.lengths(pick.blocks), 100*cost, p.KeepCostPercent, p.KeepWhy)
		}
		if p.Kept != (cost < keepGain) || p.Kept && lengths(p.Blocks) != lengths(r.Agreed) {
			t.Fatalf("%s\nagreed %s costs %.9f: kept %v, %s", describe(r), lengths(r.Agreed), cost, p.Kept, lengths(p.Blocks))
		}
		if p.Kept {
			kept++
		} else {
			replaced++
		}
	}
	t.Logf("%d kept, %d replaced", kept, replaced)
	if kept < 50 || replaced < 50 {
		t.Errorf("%d kept, %d replaced: too few of one", kept, replaced)
	}
}
