package store_test

import (
	"encoding/json"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// aSeason is two blocks before a meet; meet 0 is a test day of the plan's own.
func aSeason(meet planner.MeetID) planner.Season {
	return planner.Season{
		Blocks: []planner.Block{
			{Kind: planner.Strength, Start: march1, End: march1.AddDays(27), Weeks: 4, Reason: "Force first."},
			{Kind: planner.Peaking, Start: march1.AddDays(28), End: march1.AddDays(54), Weeks: 4,
				TaperStart: march1.AddDays(42), Reason: "The single."},
		},
		Meets: []planner.SeasonMeet{{ID: meet, Name: "River Open", Date: march1.AddDays(55), Kind: planner.Main}},
		Begun: []planner.Date{march1, 0},
	}
}

// propose keeps a season as the lifter's next proposal.
func propose(t testing.TB, s *store.Store, who planner.LifterID) (p store.Plan) {
	t.Helper()
	update(t, s, func(tx *store.Tx) (err error) {
		p, err = tx.ProposePlan(store.Plan{Lifter: who, Season: aSeason(0)}, now)
		return err
	})
	return p
}

func TestPlanKeepsEveryField(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	var meet planner.MeetID
	update(t, s, func(tx *store.Tx) (err error) { meet, err = tx.AddMeet(aMeet(ana, 0), now); return err })
	want := store.Plan{
		Lifter: ana, Version: 1, State: store.PlanProposed, Built: now.Add(-time.Hour), Season: aSeason(meet),
		Detail: json.RawMessage(`{"objective":0.012,"notes":["a","ö"]}`),
	}
	update(t, s, func(tx *store.Tx) error {
		got, err := tx.ProposePlan(want, now)
		want.ID = got.ID
		same(t, "a proposal", got, want)
		return err
	})
	want.State, want.Agreed = store.PlanAgreed, now
	full(t, want)
	update(t, s, func(tx *store.Tx) error {
		got, err := tx.AgreePlan(want.ID, now)
		same(t, "an agreed plan", got, want)
		return err
	})
	update(t, s, func(tx *store.Tx) error { return tx.BeginBlock(want.ID, 1, march1.AddDays(30), now) })
	want.Season.Begun[1] = march1.AddDays(30)
	s = storetest.Reopen(t, s)
	view(t, s, func(tx *store.Tx) error {
		got, ok, err := tx.AgreedPlan(ana)
		if !ok {
			t.Error("the agreed plan is not found")
		}
		same(t, "the plan after a restart", got, want)
		return err
	})
}

func TestOnePlanProposedAndOneAgreed(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	propose(t, s, bo)
	first, second := propose(t, s, ana), propose(t, s, ana)
	agree := func(id store.PlanID) error {
		return s.Update(t.Context(), func(tx *store.Tx) error { _, err := tx.AgreePlan(id, now); return err })
	}
	decline := func(id store.PlanID) error {
		return s.Update(t.Context(), func(tx *store.Tx) error { return tx.DeclinePlan(id, now) })
	}
	wantKind(t, agree(first.ID), planner.Conflict) // the second proposal replaced it
	if err := agree(second.ID); err != nil {
		t.Fatal(err)
	}
	wantKind(t, agree(second.ID), planner.Conflict)
	wantKind(t, decline(second.ID), planner.Conflict)
	third := propose(t, s, ana)
	if err := decline(third.ID); err != nil {
		t.Fatal(err)
	}
	wantKind(t, decline(third.ID), planner.Conflict)
	fourth := propose(t, s, ana)
	if err := agree(fourth.ID); err != nil {
		t.Fatal(err)
	}
	view(t, s, func(tx *store.Tx) error {
		all, err := tx.Plans(ana)
		states := map[int]store.PlanState{}
		for _, p := range all {
			states[p.Version] = p.State
		}
		same(t, "states by version", states, map[int]store.PlanState{
			1: store.PlanReplaced, 2: store.PlanReplaced, 3: store.PlanDeclined, 4: store.PlanAgreed,
		})
		if _, ok, _ := tx.ProposedPlan(ana); ok {
			t.Error("a proposal is left after all were settled")
		}
		if p, ok, _ := tx.ProposedPlan(bo); !ok || p.Version != 1 {
			t.Error("another lifter's proposal was touched")
		}
		return err
	})
}

func TestUnknownPlanIsNotFound(t *testing.T) {
	s := storetest.New(t)
	p := propose(t, s, join(t, s, "ana"))
	for name, do := range map[string]func(*store.Tx) error{
		"Plan":        func(tx *store.Tx) error { _, err := tx.Plan(99); return err },
		"AgreePlan":   func(tx *store.Tx) error { _, err := tx.AgreePlan(99, now); return err },
		"DeclinePlan": func(tx *store.Tx) error { return tx.DeclinePlan(99, now) },
		"BeginBlock":  func(tx *store.Tx) error { return tx.BeginBlock(p.ID, 2, march1, now) },
		"meet": func(tx *store.Tx) error {
			_, err := tx.ProposePlan(store.Plan{Lifter: p.Lifter, Season: aSeason(99)}, now)
			return err
		},
	} {
		t.Run(name, func(t *testing.T) { wantKind(t, s.Update(t.Context(), do), planner.NotFound) })
	}
}
