package blocks

import (
	"fmt"

	"blockbell/planner"
)

// boundaries prices every boundary between two blocks.
func (s *season) boundaries(f found, p Plan) []Boundary {
	var list []Boundary
	for i := 1; i < len(p.Blocks); i++ {
		b := Boundary{Date: p.Blocks[i].Start}
		if p.Blocks[i-1].End.AddDays(1) < b.Date {
			b.Binding = fmt.Sprintf("The meet on %s is fixed.", b.Date.AddDays(-1).Short())
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
	steps := append([]step(nil), f.steps...)
	steps[j-1].weeks, steps[j-1].total = steps[j-1].weeks+d, steps[j-1].total+d
	steps[j].weeks, steps[j].total, steps[j].at = steps[j].weeks-d, steps[j].total-d, steps[j].at+d
	if steps[j-1].weeks < 0 || steps[j].weeks < 1 || !f.g.allows(steps) {
		return nil
	}
	cost := 100 * (objective - s.model.Objective(s.blocks(steps), s.marks).Total)
	return &cost
}

// binding says in plain words which rule closes a direction of the boundary
// before step j.
func (s *season) binding(f found, j int, b Boundary) string {
	if j < 1 || b.Earlier != nil && b.Later != nil {
		return ""
	}
	if b.Earlier == nil {
		if t := s.closed(f, j-1, j); t != "" {
			return t
		}
	}
	if b.Later == nil {
		if t := s.closed(f, j, j-1); t != "" {
			return t
		}
	}
	return "The order of the blocks and the meets leave no other week."
}

// closed says why block short cannot lose a week or block long cannot gain one.
func (s *season) closed(f found, short, long int) string {
	r := f.g.rows[f.steps[short].stretch]
	a, z := f.steps[short], f.steps[long]
	switch {
	case len(s.pins) > 0 && (f.g.speaksOf(short, f.steps) || f.g.speaksOf(long, f.steps)):
		return "The coach has pinned it."
	case a.running && a.weeks == 0:
		return "The weeks already done stay."
	case a.total <= r.span[a.kind][0] || a.kind == iS && a.total <= r.between:
		return fmt.Sprintf("The %s is at its shortest, %s.", screenName(a.kind), plural(a.total))
	case z.total >= r.span[z.kind][1]:
		return fmt.Sprintf("The %s is at its longest, %s.", screenName(z.kind), plural(z.total))
	case z.kind == iH && r.mostH > 0:
		return fmt.Sprintf("Without a meet at most %s of hypertrophy in this cycle.", plural(r.mostH))
	case len(s.stops) > 0:
		return "A practice meet or test day stands in the way."
	}
	return ""
}

// speaksOf tells whether a pin speaks of step i.
func (g *graph) speaksOf(i int, steps []step) bool {
	b := steps[i]
	at := b.at
	if b.running {
		at = runningStart
	}
	for _, p := range g.pins {
		if (p.ordinal == i+1 || p.ordinal == 0) && p.fits(b.kind, at, b.total) {
			return true
		}
	}
	return false
}

// pinnedStep tells whether a pin speaks of step b.
func (g *graph) pinnedStep(steps []step, b step) bool {
	for i := range steps {
		if steps[i] == b {
			return g.speaksOf(i, steps)
		}
	}
	return false
}
