package blocks

import (
	"fmt"
	"slices"

	"blockbell/planner"
)

// boundaries prices every boundary between two blocks.
func (s *season) boundaries(f found, p Plan) []Boundary {
	var list []Boundary
	for i := 1; i < len(p.Blocks); i++ {
		b := Boundary{Date: p.Blocks[i].Start}
		if p.Blocks[i-1].End.AddDays(1) < b.Date {
			b.Binding = s.between(p.Blocks[i-1].End.AddDays(1), b.Date.AddDays(-1))
			list = append(list, b)
			continue
		}
		j := s.stepOf(f.steps, p.Blocks, i)
		b.Earlier = s.moved(f, p.Objective, j, -1)
		b.Later = s.moved(f, p.Objective, j, 1)
		b.Binding = s.binding(f, j, b)
		list = append(list, b)
	}
	return list
}

// between says what lies between two blocks: meets, or a time away.
func (s *season) between(from, to planner.Date) string {
	var names []string
	for _, m := range s.byDay {
		if m.Date >= from && m.Date <= to {
			names = append(names, fmt.Sprintf("the %s on %s", meetKind(m.Kind), m.Date.Short()))
		}
	}
	for _, a := range s.parts {
		if a.From <= to && a.To >= from {
			names = append(names, fmt.Sprintf("the time away from %s to %s", a.From.Short(), a.To.Short()))
		}
	}
	if len(names) == 1 {
		return capital(names[0]) + " is fixed."
	}
	return capital(list(names)) + " are fixed."
}

// meetKind is a kind of meet in words.
func meetKind(k planner.MeetKind) string {
	switch k {
	case planner.TuneUp:
		return "practice meet"
	case planner.Test:
		return "test day"
	}
	return "meet"
}

// stepOf returns the step behind block i; running blocks that ended unlisted and
// days without a training week shift the count.
func (s *season) stepOf(steps []step, blocks []planner.Block, i int) int {
	at := s.weeksBefore(firstWeek(blocks[i], s.Rules.WeekStart))
	for j, b := range steps {
		if b.at == at && !b.running && kindOf[b.kind] == blocks[i].Kind {
			return j
		}
	}
	return -1
}

// moved returns the cost of moving the start of step j by d weeks, nil where
// that is not legal.
func (s *season) moved(f found, objective float64, j, d int) *float64 {
	if j < 1 {
		return nil
	}
	steps := shiftedStart(f.steps, j, d)
	if steps[j-1].weeks < 0 || steps[j].weeks < 1 || !f.g.allows(steps) {
		return nil
	}
	cost := 100 * (objective - s.model.Objective(s.blocks(steps), s.marks).Total)
	return &cost
}

// shiftedStart returns the steps with the start of step j moved by d weeks.
func shiftedStart(steps []step, j, d int) []step {
	out := append([]step(nil), steps...)
	out[j-1].weeks, out[j-1].total = out[j-1].weeks+d, out[j-1].total+d
	out[j].weeks, out[j].total, out[j].at = out[j].weeks-d, out[j].total-d, out[j].at+d
	return out
}

// binding says in plain words which rule closes a direction of the boundary
// before step j.
func (s *season) binding(f found, j int, b Boundary) string {
	if j < 1 || b.Earlier != nil && b.Later != nil {
		return ""
	}
	if b.Earlier == nil {
		return s.closed(f, j, -1)
	}
	return s.closed(f, j, 1)
}

// closed says which rule forbids that step j begins d weeks later. A decision is
// to blame where the move is legal without it.
func (s *season) closed(f found, j, d int) string {
	steps := shiftedStart(f.steps, j, d)
	long, short := steps[j-1], steps[j] // as they would be
	if d < 0 {
		long, short = short, long
	}
	if short.weeks < 0 && short.running {
		return "The weeks already done stay."
	}
	if len(s.pins) > 0 && (short.weeks > 0 || short.running) && s.unpinned().lets(f, steps) {
		return "It is fixed by hand."
	}
	if len(s.Bounds) > 0 && (short.weeks > 0 || short.running) && s.unbound().lets(f, steps) {
		return capital(s.boundsInTheWay()) + "."
	}
	return s.lengthBound(f, steps, short, long)
}

// lets tells whether the season allows steps with no more rules set aside than f.
func (s *season) lets(f found, steps []step) bool {
	o := f.loosened
	o.free = f.g.o.free
	return s.newGraph(o).allows(steps)
}

// unbound is the season without bounds.
func (s *season) unbound() *season {
	c := s.undecided()
	c.Pins, c.pins = s.Pins, s.pins
	return c
}

// lengthBound says which rule of length or place forbids the moved steps, in which
// short has lost a week to long.
func (s *season) lengthBound(f found, steps []step, short, long step) string {
	r := f.g.rows[short.stretch]
	most := r.span[long.kind][1]
	if long.running && long.kind == iP {
		most = r.stretch
	}
	tooSoon := f.g.o
	tooSoon.back = true
	switch {
	case short.weeks < 1 && !short.running || short.total < r.span[short.kind][0]:
		return fmt.Sprintf("%s is at its shortest, %s.", capital(theBlock(short.kind)), plural(short.total+1))
	case long.total > most:
		return fmt.Sprintf("%s is at its longest, %s.", capital(theBlock(long.kind)), plural(long.total-1))
	case long.kind == iP && s.barredPeak(long) && s.newGraph(tooSoon).allows(steps):
		return "So soon after the time away nobody peaks."
	case short.kind == iS && short.total < r.between && f.g.liesBetween(steps, short):
		return fmt.Sprintf("Between two muscle blocks strength lasts at least %s.", plural(r.between))
	case long.kind == iH && r.mostH > 0:
		return fmt.Sprintf("Without a meet at most %s of this cycle are for muscle.", plural(r.mostH))
	}
	for _, t := range s.stops {
		for _, b := range []step{short, long} {
			if w, in := s.holds(b, t); in && t.kind == planner.TuneUp && (b.kind == iR || b.kind == iH && w < firstWeeks) {
				return fmt.Sprintf("The practice meet on %s would fall into %s.", t.date.Short(), early(b.kind))
			}
		}
	}
	return "The order of the blocks and the meets leave no other week."
}

// liesBetween tells whether step b has muscle blocks on either side.
func (g *graph) liesBetween(steps []step, b step) bool {
	i := slices.Index(steps, b)
	if i < 0 || i+1 >= len(steps) || steps[i+1].kind != iH {
		return false
	}
	if i == 0 {
		return b.running && g.before == planner.Hypertrophy
	}
	return steps[i-1].kind == iH
}

// pinningOf is what the pins say about step i of a plan.
func (g *graph) pinningOf(i int, steps []step) pinning {
	if i < 0 || i >= len(steps) {
		return pinning{}
	}
	if g.Running != nil && g.stretches[0].weeks() == 0 {
		i++ // the running block is the first, and no step
		steps = append([]step{{kind: index(g.Running.Kind), total: g.done, running: true}}, steps...)
	}
	var k key
	for _, b := range steps[:i] {
		if p := g.pinsOn(k, b); p.ok {
			k.kept = p.kept
		}
		k.ordinal = min(k.ordinal+1, g.last)
	}
	return g.pinsOn(k, steps[i])
}

// askedPeak tells whether a pin asks for peaking step b by name and for its length.
func (g *graph) askedPeak(steps []step, b step) bool {
	p := g.pinningOf(slices.Index(steps, b), steps)
	return b.kind == iP && p.fixed && p.named
}
