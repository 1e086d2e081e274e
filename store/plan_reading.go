package store

import (
	"context"
	"slices"

	"blockbell/planner"
	"blockbell/store/internal/sqlgen"
)

// Plan returns one version; NotFound where there is none with that number.
func (t *Tx) Plan(id PlanID) (Plan, error) {
	r, err := t.q.Plan(t.ctx, int64(id))
	if absent(err) {
		return Plan{}, planner.Errorf(planner.NotFound, "", "there is no plan number %d", id)
	}
	if err != nil {
		return Plan{}, err
	}
	return t.plan(r)
}

// AgreedPlan returns the plan that runs, if any.
func (t *Tx) AgreedPlan(lifter planner.LifterID) (Plan, bool, error) {
	return t.planInState(lifter, PlanAgreed, t.q.AgreedPlan)
}

// ProposedPlan returns the plan that waits for a decision, if any.
func (t *Tx) ProposedPlan(lifter planner.LifterID) (Plan, bool, error) {
	return t.planInState(lifter, PlanProposed, t.q.ProposedPlan)
}

func (t *Tx) planInState(lifter planner.LifterID, state PlanState, find func(context.Context, planner.LifterID) (sqlgen.Plan, error)) (Plan, bool, error) {
	type key struct {
		lifter planner.LifterID
		state  PlanState
	}
	p, err := recall(t, key{lifter, state}, func() (Plan, error) {
		r, err := find(t.ctx, lifter)
		if absent(err) {
			return Plan{}, nil
		}
		if err != nil {
			return Plan{}, err
		}
		return t.plan(r)
	})
	return p.clone(), p.ID != 0, err
}

// clone lets the caller change the season while others use the same plan. Detail is
// read and replaced, never changed in place.
func (p Plan) clone() Plan {
	p.Season.Blocks, p.Season.Begun = slices.Clone(p.Season.Blocks), slices.Clone(p.Season.Begun)
	p.Season.Meets = slices.Clone(p.Season.Meets)
	return p
}

// Plans returns all versions of a lifter's plan, oldest first.
func (t *Tx) Plans(lifter planner.LifterID) ([]Plan, error) {
	rows, err := t.q.Plans(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	plans := make([]Plan, len(rows))
	for i, r := range rows {
		if plans[i], err = t.plan(r); err != nil {
			return nil, err
		}
	}
	return plans, nil
}

// plan adds blocks and meets to a row.
func (t *Tx) plan(r sqlgen.Plan) (Plan, error) {
	p := Plan{
		ID: PlanID(r.ID), Lifter: r.LifterID, Version: int(r.Version), State: PlanState(r.State),
		Built: r.BuiltMs.Time, Agreed: r.AgreedMs.Time, Detail: r.DetailJson.Raw(),
	}
	blocks, err := t.q.PlanBlocks(t.ctx, r.ID)
	if err != nil {
		return Plan{}, err
	}
	for _, b := range blocks {
		p.Season.Blocks = append(p.Season.Blocks, planner.Block{
			Kind: planner.BlockKind(b.Kind), Start: b.StartDay.Date(), End: b.EndDay.Date(), Weeks: int(b.Weeks),
			TaperStart: b.TaperStartDay.Date(), Reason: b.Reason,
		})
		p.Season.Begun = append(p.Season.Begun, b.BegunDay.Date())
	}
	meets, err := t.q.PlanMeets(t.ctx, r.ID)
	if err != nil {
		return Plan{}, err
	}
	for _, m := range meets {
		p.Season.Meets = append(p.Season.Meets, planner.SeasonMeet{
			ID: m.MeetID.ID(), Name: m.Name, Date: m.Day.Date(), Kind: planner.MeetKind(m.Kind),
		})
	}
	return p, nil
}
