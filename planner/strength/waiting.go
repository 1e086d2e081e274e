package strength

import (
	"fmt"

	"blockbell/planner"
)

// nextEnds is the first pair of ends of one kind of block that is still to come and
// will be compared, with the power that it will have if as much is logged as so far;
// nil where the blocks hold none. Change is not known yet and 0.
func (h *History) nextEnds(t *track, sum rail) (next *Ends) {
	var better *Ends
	for _, kind := range likeForLike {
		e := h.nextOfKind(t, kind)
		if e != nil && better.yieldTo(e.Last) && (next == nil || e.Last < next.Last) {
			next = e
		}
		if now := h.endsOfKind(t, kind, sum); now != nil && better.yieldTo(now.Last) {
			better = now
		}
	}
	return next
}

// nextOfKind is nextEnds of one kind.
func (h *History) nextOfKind(t *track, kind planner.BlockKind) *Ends {
	var first planner.Date
	var known float64 // variance of the level at first
	for _, b := range h.Blocks {
		switch {
		case b.Kind != kind:
		case b.End <= h.Today:
			if _, v, ok := t.mean(lastDays(b)); ok {
				first, known = b.End, v
			}
		case !first.IsZero() && !h.longAway(first, b.End) && weeks(first, b.End) <= testWeeks:
			return h.pair(kind, first, b.End, known+t.usualEnd())
		default:
			first, known = b.End, t.usualEnd()
		}
	}
	return nil
}

// usualEnd is the variance of the level over as many days as stand for the end of a
// block, by what is logged of late; two days as exact as the last where that is less.
func (t *track) usualEnd() float64 {
	last := t.lastRated()
	if _, v, ok := t.mean(last.AddDays(-endDays), last); ok {
		return v
	}
	sd := t.obs[len(t.obs)-1].SD
	return sd * sd * t.variances.Scale / 2
}

// waiting says why nothing can be said of a lift that is expected to move so little,
// and when something can.
func (x Test) waiting(h *History) string {
	little := fmt.Sprintf("A change as small as %s (%+.2f %% a week) shows only from the end of one block to the end of the next of its kind", h.expects(), x.Expected)
	switch e := x.Next; {
	case len(h.Blocks) == 0:
		return little + ", and no plan with blocks is agreed."
	case e == nil:
		return little + ", and no two blocks of one kind end in your plan so far."
	case e.Expected <= 0:
		return little + fmt.Sprintf(". The next two can be compared on %s, when your %s ends; no progress is expected by then, so only a fall would show.", e.Last.Short(), words(e.Kind))
	default:
		return little + fmt.Sprintf(". The next two can be compared on %s, when your %s ends; a halt would show in about %.0f of 100 such pairs.", e.Last.Short(), words(e.Kind), 100*e.Power)
	}
}
