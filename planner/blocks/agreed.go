package blocks

import (
	"fmt"

	"blockbell/planner"
)

// keepGain is how much a new plan must gain over an agreed one that is still
// legal, in log units, before it replaces it (common practice: small gains never
// shuffle a plan that people have begun to live by).
const keepGain = 0.0025

// keeping is what became of the agreed plan.
type keeping struct {
	kept bool
	cost *float64
	why  string
}

// keep returns the agreed plan in place of f where that loses less than keepGain.
// Where its meet alone was moved later, the agreed plan with a longer running block
// stands for it.
func (s *season) keep(f found) (found, keeping) {
	if len(s.Agreed) == 0 {
		return f, keeping{}
	}
	steps, why := s.agreedSteps(s.Agreed)
	if why != "" {
		return s.stretched(f), keeping{why: why}
	}
	old, ok := s.legal(f, steps)
	if !ok {
		return s.decidedAgainst(f, steps)
	}
	cost := max(0, 100*(f.objective-old.objective))
	k := keeping{cost: &cost, kept: cost < 100*keepGain}
	if k.kept {
		return old, k
	}
	return f, k
}

// decidedAgainst replaces an agreed plan that breaks a rule. Where people decided so,
// by a pin or a bound, and no meet moved, holding the running block is a habit that may
// not cost keepGain: what was decided comes first.
func (s *season) decidedAgainst(f found, steps []step) (found, keeping) {
	why, decided := s.whyIllegal(steps)
	next := s.stretched(f)
	if decided && f.objective-next.objective >= keepGain {
		next = f
	}
	return next, keeping{why: why}
}

// legal scores steps where they are a plan of the order prescribed, or of any
// legal order, with no more rules set aside than f needed.
func (s *season) legal(f found, steps []step) (found, bool) {
	for _, free := range []bool{f.g.o.free, true} {
		o := f.loosened
		o.free = free
		g := s.newGraph(o)
		if !g.allows(steps) {
			continue
		}
		steps = g.placed(steps)
		return found{plan: plan{steps: steps, objective: s.model.Objective(s.blocks(steps), s.marks).Total, g: g}, loosened: f.loosened}, true
	}
	return found{}, false
}

// placed fills in where each step of an allowed plan lies.
func (g *graph) placed(steps []step) []step {
	out := make([]step, 0, len(steps))
	at := int32(0)
	for _, b := range steps {
		n := &g.nodes[at]
		for _, e := range n.edges {
			if int(e.kind) == b.kind && int(e.total) == b.total {
				out = append(out, step{kind: b.kind, at: int(n.t), weeks: int(e.weeks), total: b.total, running: n.running, next: int(g.nodes[e.to].t), stretch: n.stretch})
				at = e.to
				break
			}
		}
	}
	return out
}

// agreedSteps reads blocks with dates as steps, or says why they cannot be read
// against the calendar.
func (s *season) agreedSteps(blocks []planner.Block) (steps []step, why string) {
	rest := blocks
	if s.Running != nil {
		first := blocks[0]
		if first.Kind != s.Running.Kind || first.Start != s.Running.Start {
			if s.done > 0 || first.Start != s.Today {
				return nil, fmt.Sprintf("The agreed plan goes on with %s from %s, and that is not what runs now.", theBlock(index(first.Kind)), first.Start.Short())
			}
			steps = append(steps, step{kind: index(s.Running.Kind), total: s.done})
		} else {
			rest = blocks[1:]
			if s.stretches[0].weeks() > 0 {
				steps = append(steps, step{kind: index(first.Kind), total: s.done + s.weeksBefore(first.End.AddDays(1))})
			}
		}
	}
	for _, b := range rest {
		k := index(b.Kind)
		if k == iLayoff {
			return nil, fmt.Sprintf("%q is not a kind of block.", b.Kind)
		}
		n := s.weeksBefore(b.End.AddDays(1)) - s.weeksBefore(b.Start)
		if n == 0 && k == iP {
			continue // a few days of taper are no step
		}
		steps = append(steps, step{kind: k, total: n})
	}
	return steps, s.misplaced(blocks)
}

// misplaced compares the days on which the agreed plan is done with the meets as
// they stand now.
func (s *season) misplaced(blocks []planner.Block) string {
	for _, a := range s.parts {
		for _, b := range blocks {
			if a.days() >= awayEnds && b.Start <= a.To && b.End >= a.From && !(b.End < s.Today) {
				return fmt.Sprintf("The time away from %s to %s runs through %s of the agreed plan.", a.From.Short(), a.To.Short(), theBlock(index(b.Kind)))
			}
		}
	}
	end := s.end()
	for i, st := range s.stretches {
		if st.days() > 0 && (st.weeks() > 0 || st.kind != leaving || s.runsIn(i)) {
			end = st.end
		}
		if st.days() <= 0 || st.kind != planner.Main {
			continue
		}
		if i := planner.At(blocks, st.end); i < 0 || blocks[i].End != st.end || blocks[i].Kind != planner.Peaking {
			return fmt.Sprintf("The agreed plan does not peak for %s on %s.", s.meetName(st), st.end.AddDays(1).Short())
		}
	}
	last := blocks[len(blocks)-1].End
	if last != end {
		return fmt.Sprintf("The agreed plan ends on %s, the time to plan on %s.", last.Short(), end.Short())
	}
	return ""
}

// whyIllegal says in one sentence which rule the agreed plan no longer keeps; decided
// tells that it is a pin or a bound.
func (s *season) whyIllegal(steps []step) (why string, decided bool) {
	for _, b := range steps {
		if most := s.caps[b.kind]; most != noCap && b.total > most {
			c, _ := s.capOn(b.kind)
			return fmt.Sprintf("In the agreed plan %s lasts %s, against the bound %s.", theBlock(b.kind), plural(b.total), c.text()), true
		}
	}
	if len(s.pins) > 0 {
		bare := *s
		bare.pins = nil
		if bare.newGraph(loosening{free: true}).allows(steps) || bare.newGraph(loosening{}).allows(steps) {
			return "The agreed plan does not keep what is fixed by hand.", true
		}
	}
	return "The agreed plan no longer keeps the rules for the weeks that are left.", false
}
