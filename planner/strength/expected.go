package strength

import "blockbell/planner"

// expected is the change expected in the week that contains a day.
func (h *History) expected(d planner.Date) float64 {
	if h.Expected == nil {
		return habitsOf(h.level()).usual
	}
	return h.Expected(d)
}

// expectedOver is the mean weekly change expected over some days.
func (h *History) expectedOver(from, to planner.Date) float64 {
	sum, n := 0.0, 0
	for d := from; d <= to; d = d.AddDays(7) {
		sum += h.expected(d)
		n++
	}
	return sum / float64(n)
}

// rail is an expected path by days from its first: all of the change, and only
// its falls.
type rail struct {
	first     planner.Date
	all, down []float64
}

// expectedPath adds the expected changes up from a day to today.
func (h *History) expectedPath(first planner.Date) rail {
	n := first.DaysUntil(h.Today) + 1
	p := rail{first, make([]float64, n), make([]float64, n)}
	for i := 1; i < n; i++ {
		e := h.expected(first.AddDays(i-1)) / 7
		p.all[i] = p.all[i-1] + e
		p.down[i] = p.down[i-1] + min(0, e)
	}
	return p
}
