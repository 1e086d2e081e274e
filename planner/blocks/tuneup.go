package blocks

import "blockbell/planner"

// firstWeeks of hypertrophy hold no tune-up unless the coach pins the block there
// (common practice).
const firstWeeks = 3

// holds tells whether the day of a tune-up or test day lies in block b, and in which
// of its weeks, from 0.
func (s *season) holds(b step, t stop) (week int, ok bool) {
	if t.early {
		return s.done - 1, b.running
	}
	return b.total - b.weeks + t.week - b.at, t.week >= b.at && t.week < b.at+b.weeks
}

// tuneUpsIn returns what block b pays for the tune-ups in it; false where it must
// not hold one. Strength and peaking hold any, hypertrophy from its fourth week on
// and where a pin speaks of the block, recovery none.
func (g *graph) tuneUpsIn(b step, p pinning) (cost float64, ok bool) {
	if b.kind == iS || b.kind == iP {
		return 0, true
	}
	for _, t := range g.stops {
		w, in := g.holds(b, t)
		if t.kind != planner.TuneUp || !in {
			continue
		}
		if b.kind == iH {
			cost += g.model.TuneUpCost
		}
		if !(g.o.tuneUp || b.kind == iH && (p.matched || w >= firstWeeks)) {
			return 0, false
		}
	}
	return cost, true
}

// tuneUpsAtOnce is what the running block pays where no training week is left of
// its stretch.
func (s *season) tuneUpsAtOnce() (cost float64) {
	for _, t := range s.stops {
		if t.kind == planner.TuneUp && s.Running.Kind == planner.Hypertrophy && t.date <= s.stretches[0].end {
			cost += s.model.TuneUpCost
		}
	}
	return cost
}
