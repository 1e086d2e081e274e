package bot

import (
	"encoding/json"
	"fmt"
	"slices"

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
	from, err := t.basis(c, c.today)
	if err != nil {
		return store.Plan{}, err
	}
	detail, err := json.Marshal(detail{Plan: p, Calendar: c.calendar(), Basis: from, Move: m})
	if err != nil {
		return store.Plan{}, fmt.Errorf("plan: %w", err)
	}
	return t.tx.ProposePlan(store.Plan{Lifter: c.lifter.ID, Season: c.season(p), Detail: detail}, t.now)
}

// detail is what a stored plan keeps beside its blocks: the planner's whole
// answer, the calendar it was made for, digests of all that it was made from, and the
// captain's move it follows from.
type detail struct {
	blocks.Plan
	Calendar []planner.SeasonMeet `json:"calendar"`
	Basis    basis                `json:"basis"`
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

// openProposal returns the lifter's proposal as long as it can be accepted as it was
// shown.
func (t *turn) openProposal(c course) (store.Plan, bool, error) {
	p, ok, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil || !ok {
		return p, false, err
	}
	parts, err := t.changedSince(c, p)
	return p, len(parts) == 0, err
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
