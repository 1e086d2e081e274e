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

// pickLegal chooses a random legal plan, in half the draws one near the best.
func (o *oracle) pickLegal(rng *rand.Rand, best float64) (pick oFound) {
	near := rng.IntN(2) == 0
	o.walk(nil, 0, func(plan []oBlock) {
		if !o.prescribed(plan) && !o.freeOrder(plan) {
			return
		}
		v := o.simulate(plan)
		if near && v < best-0.004 {
			return
		}
		if pick.count++; rng.IntN(pick.count) == 0 {
			pick.blocks, pick.value = append([]oBlock(nil), plan...), v
		}
	})
	return pick
}

// agreedRequest is a random request with an agreed plan and what that costs; false
// where the draw has none that the oracle can date.
func agreedRequest(t *testing.T, rng *rand.Rand) (r Request, cost float64, ok bool) {
	t.Helper()
	r = randomRequest(rng)
	r.Pins = nil
	if len(r.Meets) != mains(r) || len(r.Meets) == 0 {
		return r, 0, false
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
		return r, 0, false // a few days of taper are no block to the oracle
	}
	if r.Running != nil && o.runStart != r.Running.Start {
		return r, 0, false // a time away has made another block of what runs
	}
	best, ok := o.best()
	if !ok {
		return r, 0, false
	}
	pick := o.pickLegal(rng, best.value)
	if pick.blocks == nil || pick.blocks[0].running && (o.run == 'P' && o.stretches[0].leave || pick.blocks[0].to == 0) {
		return r, 0, false
	}
	r.Agreed = o.dated(pick.blocks)
	return r, best.value - pick.value, true
}

// TestAgreedPlansMatchEnumeration agrees random legal plans: each stays exactly where
// full enumeration finds no plan that is better by 0.0025, and costs what it finds.
func TestAgreedPlansMatchEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 404
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	kept, replaced := 0, 0
	for range 1200 / sparse(3) {
		r, cost, ok := agreedRequest(t, rng)
		if !ok || math.Abs(cost-keepGain) < 1e-9 {
			continue
		}
		p := mustBuild(t, r)
		if p.KeepCostPercent == nil || math.Abs(*p.KeepCostPercent-max(0, 100*cost)) > 100*sameValue {
			t.Fatalf("%s\nagreed %s costs %.9f %%, told %v, %q", describe(r), lengths(r.Agreed), 100*cost, p.KeepCostPercent, p.KeepWhy)
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
	if kept < 50/sparse(3) || replaced < 50/sparse(3) {
		t.Errorf("%d kept, %d replaced: too few of one", kept, replaced)
	}
}
