package strength

import "blockbell/planner"

const (
	// meetDays is how long before a meet nothing lowers an estimate: the taper and
	// the last heavy days (common practice).
	meetDays = 14
	// returnDays is how long after a layoff nothing lowers an estimate, and
	// layoffDays how long an absence is to be one (common practice).
	returnDays = 7
	layoffDays = 7
)

// spared tells whether a day lies in a deload, in the last fourteen days before a
// meet, in a layoff or in the first week after one. Work is light on purpose
// there, or the lifter out of practice, so it may raise an estimate and never
// lower it.
func (h *History) spared(d planner.Date) bool {
	for _, s := range h.Deloads {
		if s.Contains(d) {
			return true
		}
	}
	for _, m := range h.Meets {
		if n := d.DaysUntil(m.Date); n >= 1 && n <= meetDays {
			return true
		}
	}
	for _, s := range h.Away {
		if s.layoff() && d >= s.From && (s.To.IsZero() || d <= s.To.AddDays(returnDays)) {
			return true
		}
	}
	return false
}

// layoff tells whether an absence is long enough to matter.
func (s Span) layoff() bool {
	return s.To.IsZero() || s.From.DaysUntil(s.To)+1 >= layoffDays
}

// idle returns how many weeks of layoff lie in (from, to], split into the first
// four of each layoff, in which strength keeps, and those after.
func (h *History) idle(from, to planner.Date) (kept, losing float64) {
	for _, s := range h.Away {
		if !s.layoff() || s.From > to {
			continue
		}
		end := to
		if !s.To.IsZero() {
			end = min(end, s.To)
		}
		turn := s.From.AddDays(28)
		kept += weeks(max(from, s.From), min(end, turn))
		losing += weeks(max(from, turn), end)
	}
	return kept, losing
}

// unlike is how many days away make what came before no measure of what comes after
// (common practice: two weeks cost most lifters next to nothing, more do).
const unlike = 14

// longAway tells whether so long a layoff lies between two days.
func (h *History) longAway(from, to planner.Date) bool {
	for _, s := range h.Away {
		end := to
		if !s.To.IsZero() {
			end = min(end, s.To)
		}
		if max(s.From, from).DaysUntil(end)+1 >= unlike {
			return true
		}
	}
	return false
}

// leap is the variance of what layoffs between two days did to the level, for the
// tests: a long one may have done anything.
func (h *History) leap(from, to planner.Date) float64 {
	if h.longAway(from, to) {
		return vague
	}
	return h.unsure(from, to)
}

// weeks returns the weeks from one day to another, 0 where they are in disorder.
func weeks(from, to planner.Date) float64 {
	return float64(max(0, from.DaysUntil(to))) / 7
}
