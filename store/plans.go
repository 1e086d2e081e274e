package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// PlanID identifies one version of a lifter's plan.
type PlanID int64

// PlanState is what people decided about a plan.
type PlanState string

// A lifter has at most one proposed and one agreed plan; the others are kept.
const (
	PlanProposed PlanState = "proposed"
	PlanAgreed   PlanState = "agreed"
	PlanReplaced PlanState = "replaced"
	PlanDeclined PlanState = "declined"
)

// Plan is one version of a lifter's season.
type Plan struct {
	ID      PlanID
	Lifter  planner.LifterID
	Version int // from 1, counted for each lifter
	State   PlanState
	Built   time.Time       // when the planner made it
	Agreed  time.Time       // zero unless it was agreed
	Season  planner.Season  // Begun is as long as Blocks when read back
	Detail  json.RawMessage // the planner's whole answer
}

// ProposePlan keeps p as the lifter's next version, proposed. A proposal that
// still waited becomes replaced; the agreed plan stays. ID, Version, State and
// Agreed of p are ignored, and a zero Built means now.
func (t *Tx) ProposePlan(p Plan, now time.Time) (Plan, error) {
	last, err := t.q.LastVersion(t.ctx, p.Lifter)
	if err != nil {
		return Plan{}, err
	}
	if err := t.replacePlans(p.Lifter, PlanProposed, now); err != nil {
		return Plan{}, err
	}
	if p.Built.IsZero() {
		p.Built = now
	}
	id, err := t.q.AddPlan(t.ctx, sqlgen.AddPlanParams{
		LifterID: p.Lifter, Version: last + 1, BuiltMs: column.At(p.Built), ChangedMs: column.At(now),
		DetailJson: column.JSON(p.Detail),
	})
	if dangling(err) {
		return Plan{}, noLifter(p.Lifter)
	}
	if err != nil {
		return Plan{}, err
	}
	if err := t.addSeason(id, p.Season); err != nil {
		return Plan{}, err
	}
	return t.Plan(PlanID(id))
}

func (t *Tx) addSeason(plan int64, s planner.Season) error {
	for i, b := range s.Blocks {
		row := sqlgen.AddPlanBlockParams{
			PlanID: plan, Ordinal: int64(i), Kind: string(b.Kind), StartDay: column.Day(b.Start), EndDay: column.Day(b.End),
			Weeks: int64(b.Weeks), TaperStartDay: column.Day(b.TaperStart), Reason: b.Reason,
		}
		if i < len(s.Begun) {
			row.BegunDay = column.Day(s.Begun[i])
		}
		if err := t.q.AddPlanBlock(t.ctx, row); err != nil {
			return err
		}
	}
	for i, m := range s.Meets {
		err := t.q.AddPlanMeet(t.ctx, sqlgen.AddPlanMeetParams{
			PlanID: plan, Ordinal: int64(i), MeetID: column.Meet(m.ID), Name: m.Name, Day: column.Day(m.Date), Kind: string(m.Kind),
		})
		if dangling(err) {
			return noMeet(m.ID)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// AgreePlan makes a proposal the plan that runs; the one agreed before becomes
// replaced. Conflict where it is no longer proposed.
func (t *Tx) AgreePlan(id PlanID, now time.Time) (Plan, error) {
	p, err := t.Plan(id)
	if err != nil {
		return Plan{}, err
	}
	if p.State != PlanProposed {
		return Plan{}, settled(p)
	}
	if err := t.replacePlans(p.Lifter, PlanAgreed, now); err != nil {
		return Plan{}, err
	}
	if _, err := t.q.AgreePlan(t.ctx, sqlgen.AgreePlanParams{AgreedMs: column.At(now), ID: int64(id)}); err != nil {
		return Plan{}, err
	}
	return t.Plan(id)
}

// DeclinePlan turns a proposal down. Conflict where it is no longer proposed.
func (t *Tx) DeclinePlan(id PlanID, now time.Time) error {
	n, err := t.q.DeclinePlan(t.ctx, sqlgen.DeclinePlanParams{ChangedMs: column.At(now), ID: int64(id)})
	if err != nil || n == 1 {
		return err
	}
	p, err := t.Plan(id)
	if err != nil {
		return err
	}
	return settled(p)
}

// WithdrawPlan takes back that a plan was agreed: it counts as declined, and no plan
// runs. Conflict where it does not run.
func (t *Tx) WithdrawPlan(id PlanID, now time.Time) error {
	n, err := t.q.WithdrawPlan(t.ctx, sqlgen.WithdrawPlanParams{ChangedMs: column.At(now), ID: int64(id)})
	if err != nil || n == 1 {
		return err
	}
	p, err := t.Plan(id)
	if err != nil {
		return err
	}
	return settled(p)
}

// DropProposal takes a lifter's proposal back, if one waits; the agreed plan stays.
func (t *Tx) DropProposal(lifter planner.LifterID, now time.Time) error {
	return t.replacePlans(lifter, PlanProposed, now)
}

func (t *Tx) replacePlans(lifter planner.LifterID, state PlanState, now time.Time) error {
	return t.q.ReplacePlans(t.ctx, sqlgen.ReplacePlansParams{
		ChangedMs: column.At(now), LifterID: lifter, State: string(state),
	})
}

// BeginBlock keeps the day on which a person let a block begin. index counts
// from 0. NotFound where the plan has no such block.
func (t *Tx) BeginBlock(plan PlanID, index int, day planner.Date, now time.Time) error {
	n, err := t.q.BeginBlock(t.ctx, sqlgen.BeginBlockParams{BegunDay: column.Day(day), PlanID: int64(plan), Ordinal: int64(index)})
	if err != nil {
		return err
	}
	if n == 0 {
		return planner.Errorf(planner.NotFound, "", "plan %d has no block number %d", plan, index+1)
	}
	return t.q.TouchPlan(t.ctx, sqlgen.TouchPlanParams{ChangedMs: column.At(now), ID: int64(plan)})
}

func settled(p Plan) *planner.Error {
	return planner.Errorf(planner.Conflict, "Look at the season as it stands now.",
		"this plan is %s already", p.State)
}
