package blocks

import "blockbell/planner"

// Change is what the model allows for in one week of a plan.
type Change struct {
	Start    planner.Date // first day of the week
	Strength float64      // change of new strength s, as a natural logarithm
}

// Changes lists the weekly changes of new strength along the blocks of a plan,
// from the day of the plan on, weeks away included.
func (m Model) Changes(blocks []planner.Block) []Change {
	x := m.Start.State
	var all []Change
	for _, k := range m.schedule(blocks) {
		after := m.Week(x, k.kind, k.week)
		all = append(all, Change{Start: k.start, Strength: after.S - x.S})
		x = after
	}
	return all
}
