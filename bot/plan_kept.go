package bot

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// propose keeps a plan as the lifter's proposal.
func (t *turn) propose(c course, p blocks.Plan) (store.Plan, error) {
	return t.proposeFor(c, p, nil)
}

// proposeFor is propose for a plan that may follow from a captain's move.
func (t *turn) proposeFor(c course, p blocks.Plan, m *move) (store.Plan, error) {
	detail, err := json.Marshal(detail{Plan: p, Calendar: c.calendar(), Move: m})
	if err != nil {
		return store.Plan{}, fmt.Errorf("plan: %w", err)
	}
	return t.tx.ProposePlan(store.Plan{Lifter: c.lifter.ID, Season: c.season(p), Detail: detail}, t.now)
}

// detail is what a stored plan keeps beside its blocks: the planner's whole
// answer, the calendar it was made for, and the captain's move it follows from.
type detail struct {
	blocks.Plan
	Calendar []planner.SeasonMeet `json:"calendar"`
	Move     *move                `json:"move,omitempty"`
}

// detailOf reads what a stored plan keeps.
func detailOf(p store.Plan) (detail, error) {
	var d detail
	if err := json.Unmarshal(p.Detail, &d); err != nil {
		return d, fmt.Errorf("stored plan %d: %w", p.ID, err)
	}
	return d, nil
}

// calendar lists the meets ahead as a plan must know them.
func (c course) calendar() []planner.SeasonMeet {
	var out []planner.SeasonMeet
	for _, m := range c.meets {
		if m.Date > c.today {
			out = append(out, planner.SeasonMeet{ID: m.ID, Name: m.Name, Date: m.Date, Kind: m.Kind})
		}
	}
	return out
}

// sameBlocks tells whether two seasons prescribe the same days.
func sameBlocks(a, b []planner.Block) bool {
	return slices.EqualFunc(a, b, func(x, y planner.Block) bool {
		return x.Kind == y.Kind && x.Start == y.Start && x.End == y.End
	})
}

// outdated tells whether a proposal no longer fits: the calendar changed, a week
// has gone by, or another block has begun since it was made.
func (c course) outdated(p store.Plan, now time.Time) (bool, error) {
	if now.Sub(p.Built) >= buttonLife {
		return true, nil
	}
	if c.has {
		for _, b := range c.agreed.Season.Blocks {
			made := planner.DateOf(p.Built)
			if b.Start > made.AddDays(1) && b.Start <= c.today {
				return true, nil
			}
		}
	}
	return c.stale(p)
}

// openProposal returns the lifter's proposal as long as it can be accepted.
func (t *turn) openProposal(c course) (store.Plan, bool, error) {
	p, ok, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil || !ok {
		return p, false, err
	}
	old, err := c.outdated(p, t.now)
	return p, !old, err
}

// stale tells whether a plan no longer fits the calendar: a meet was added,
// moved or dropped since it was made.
func (c course) stale(p store.Plan) (bool, error) {
	d, err := detailOf(p)
	if err != nil {
		return false, err
	}
	ahead := slices.DeleteFunc(d.Calendar, func(m planner.SeasonMeet) bool { return m.Date <= c.today })
	return !slices.EqualFunc(ahead, c.calendar(), func(a, b planner.SeasonMeet) bool {
		return a.ID == b.ID && a.Date == b.Date && a.Kind == b.Kind
	}), nil
}
