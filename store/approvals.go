package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Decider says who has the last word on plans.
type Decider string

// The coach alone, the lifter alone, or both must say yes.
const (
	CoachDecides  Decider = "coach"
	LifterDecides Decider = "lifter"
	BothDecide    Decider = "both"
)

// SetDecider says who decides in a training group; the empty group means
// everybody without a row of their own group.
func (t *Tx) SetDecider(group string, who Decider) error {
	return t.q.SetDecider(t.ctx, sqlgen.SetDeciderParams{TrainingGroup: group, Who: string(who)})
}

// DropDecider goes back to the default for a group and tells whether that
// changed anything.
func (t *Tx) DropDecider(group string) (bool, error) {
	n, err := t.q.DropDecider(t.ctx, group)
	return n > 0, err
}

// Deciders returns who decides, by group.
func (t *Tx) Deciders() (map[string]Decider, error) {
	rows, err := t.q.Deciders(t.ctx)
	if err != nil {
		return nil, err
	}
	who := make(map[string]Decider, len(rows))
	for _, r := range rows {
		who[r.TrainingGroup] = Decider(r.Who)
	}
	return who, nil
}

// ApprovalState is what became of a plan that one side had said yes to.
type ApprovalState string

// A plan waits until the other side approves or declines it.
const (
	ApprovalWaiting  ApprovalState = "waiting"
	ApprovalApproved ApprovalState = "approved"
	ApprovalDeclined ApprovalState = "declined"
)

// Approval is a proposed plan that one side has said yes to.
type Approval struct {
	Plan    PlanID
	Lifter  planner.LifterID
	Wants   Decider // whose yes is missing: CoachDecides or LifterDecides
	State   ApprovalState
	Reason  string           // of a no
	By      planner.LifterID // who said the last word; 0: nobody yet
	Asked   time.Time
	Settled time.Time
}

// AskApproval lets a proposed plan wait for the other side; asking twice changes
// nothing.
func (t *Tx) AskApproval(p Plan, wants Decider, now time.Time) error {
	err := t.q.AskApproval(t.ctx, sqlgen.AskApprovalParams{
		PlanID: int64(p.ID), LifterID: p.Lifter, Wants: string(wants), AskedMs: column.At(now),
	})
	if dangling(err) {
		return planner.Errorf(planner.NotFound, "", "there is no plan number %d", p.ID)
	}
	return err
}

// SettleApproval writes down what the other side said, and tells false where
// nothing waited any more.
func (t *Tx) SettleApproval(plan PlanID, state ApprovalState, reason string, by planner.LifterID, now time.Time) (bool, error) {
	n, err := t.q.SettleApproval(t.ctx, sqlgen.SettleApprovalParams{
		State: string(state), Reason: reason, ByID: column.Lifter(by), SettledMs: column.At(now), PlanID: int64(plan),
	})
	return n > 0, err
}

// Approval returns what is known of the approval of a plan, if it needed any.
func (t *Tx) Approval(plan PlanID) (Approval, bool, error) {
	r, err := t.q.Approval(t.ctx, int64(plan))
	if absent(err) {
		return Approval{}, false, nil
	}
	return approval(r), err == nil, err
}

// WaitingApprovals returns the proposed plans that wait for the other side,
// longest wait first.
func (t *Tx) WaitingApprovals() ([]Approval, error) {
	rows, err := t.q.WaitingApprovals(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, approval), nil
}

func approval(r sqlgen.Approval) Approval {
	return Approval{Plan: PlanID(r.PlanID), Lifter: r.LifterID, Wants: Decider(r.Wants), State: ApprovalState(r.State),
		Reason: r.Reason, By: r.ByID.ID(), Asked: r.AskedMs.Time, Settled: r.SettledMs.Time}
}
