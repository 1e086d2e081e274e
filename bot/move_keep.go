package bot

import (
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// move is what a captain wants with a plan: a kind of block begins on a day. It is
// kept with the proposal, and fixed once somebody accepts that.
type move struct {
	Kind  planner.BlockKind `json:"kind"`
	Start planner.Date      `json:"start"`
	Why   string            `json:"why,omitempty"` // as a sentence behind the move
	Until planner.Date      `json:"until"`         // the last day on which it counts
	By    planner.LifterID  `json:"by"`
	Frees []store.Pin       `json:"frees,omitempty"` // what stops being fixed with it
}

// pin is the move as something fixed.
func (m *move) pin(lifter planner.LifterID) store.Pin {
	return store.Pin{Lifter: lifter, Kind: m.Kind, Start: m.Start, Until: m.Until, By: m.By}
}

// frees tells whether a pin gives way to the move.
func (m *move) frees(p store.Pin) bool {
	return slices.ContainsFunc(m.Frees, func(f store.Pin) bool { return f.ID == p.ID })
}

// words say the move, with its reason.
func (m *move) words() string {
	return render.Sentence("from " + m.Start.Short() + ": " + render.BlockShort(m.Kind) + "." + m.Why)
}

// keepMove fixes what an agreed plan was moved for.
func (t *turn) keepMove(m *move) error {
	for _, p := range m.Frees {
		if _, err := t.tx.DropPin(t.about.ID, p.ID); err != nil {
			return err
		}
	}
	if err := t.fixPin(m.pin(t.about.ID)); err != nil {
		return err
	}
	return t.audit("moved to a " + string(m.Kind) + " block")
}

// movedBack is what taking a move back needs: the plan that was moved, and the one
// before.
type movedBack struct {
	Plan   store.PlanID `json:"plan"`
	Before store.PlanID `json:"before"`
}

// takeMoveBack takes a captain's move back: where nobody has accepted it the proposal
// goes, else the plan from before runs again and nothing of the move stays fixed.
func takeMoveBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[movedBack](n)
	if err != nil {
		return "", err
	}
	p, err := t.tx.Plan(a.Plan)
	if err != nil {
		return "", err
	}
	if p.State == store.PlanProposed {
		if _, err := t.tx.SettleApproval(p.ID, store.ApprovalDeclined, "", t.speaker.ID, t.now); err != nil {
			return "", err
		}
		return "Taken back: that proposal is off, and your plan goes on as agreed.", t.tx.DeclinePlan(p.ID, t.now)
	}
	said, err := takePlanBack(t, n)
	if err != nil {
		return "", err
	}
	d, err := detailOf(p)
	if err != nil || d.Move == nil {
		return said, err
	}
	return said, t.freeMove(n.Lifter, d.Move)
}

// freeMove lets go of what a move fixed, and fixes again what gave way to it.
func (t *turn) freeMove(lifter planner.LifterID, m *move) error {
	all, err := t.tx.Pins(lifter, t.today())
	if err != nil {
		return err
	}
	for _, p := range all {
		if own := m.pin(lifter); p.Start == own.Start && sameSubject(p, own) {
			if _, err := t.tx.DropPin(lifter, p.ID); err != nil {
				return err
			}
		}
	}
	for _, p := range m.Frees {
		if err := t.fixPin(p); err != nil {
			return err
		}
	}
	return nil
}

// fixPin keeps a pin that was decided earlier; who decided it may be erased since.
func (t *turn) fixPin(p store.Pin) error {
	all, err := t.tx.Lifters()
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(all, func(l planner.Lifter) bool { return l.ID == p.By }) {
		p.By = 0
	}
	_, err = t.tx.AddPin(p, t.now)
	return err
}
