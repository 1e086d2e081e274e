package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// Whatever changes about a lifter is seen at the next look, and only about them.
func TestEveryChangeAsksForALook(t *testing.T) {
	s := storetest.New(t)
	ana, ben := join(t, s, "ana"), join(t, s, "ben")
	day := planner.NewDate(2027, time.March, 1)
	var meet planner.MeetID
	var plan store.Plan
	var away store.AwayID
	set := planner.Set{Lift: planner.Squat, Weight: 100 * planner.Kilogram, Reps: 5, Sets: 1, Day: day}
	steps := []struct {
		name   string
		change func(tx *store.Tx) error
	}{
		{"profile", func(tx *store.Tx) error {
			l, err := tx.Lifter(ana)
			if err != nil {
				return err
			}
			l.Nudges = planner.Direct
			return tx.SaveLifter(l, now)
		}},
		{"named in public or not", func(tx *store.Tx) error { return tx.SetLifterPublic(ana, false) }},
		{"meet added", func(tx *store.Tx) (err error) {
			meet, err = tx.AddMeet(planner.Meet{Lifter: ana, Name: "River Open", Date: day.AddDays(90), Kind: planner.Main}, now)
			return err
		}},
		{"meet dropped", func(tx *store.Tx) error { return tx.DropMeet(meet, now) }},
		{"plan agreed", func(tx *store.Tx) (err error) {
			blocks := []planner.Block{{Kind: planner.Strength, Start: day, End: day.AddDays(27), Weeks: 4}}
			plan, err = tx.ProposePlan(store.Plan{Lifter: ana, Season: planner.Season{Blocks: blocks, Begun: make([]planner.Date, 1)}, Detail: []byte("{}")}, now)
			if err == nil {
				_, err = tx.AgreePlan(plan.ID, now)
			}
			return err
		}},
		{"block begun", func(tx *store.Tx) error { return tx.BeginBlock(plan.ID, 0, day, now) }},
		{"set logged", func(tx *store.Tx) error { _, err := tx.AddSets(ana, "m1", []planner.Set{set}, now); return err }},
		{"set dropped", func(tx *store.Tx) error { return tx.DropSet(ana, day, 1, ana, now) }},
		{"kind off", func(tx *store.Tx) error { return tx.SetNudge(ana, "meet", false) }},
		{"kind on", func(tx *store.Tx) error { return tx.SetNudge(ana, "meet", true) }},
		{"kind kept", func(tx *store.Tx) error { return tx.KeepNudge(ana, "meet", now) }},
		{"kind kept again", func(tx *store.Tx) error { return tx.KeepNudge(ana, "meet", now.Add(time.Hour)) }},
		{"snoozed", func(tx *store.Tx) error { return tx.Snooze(ana, "k", now) }},
		{"snoozed again", func(tx *store.Tx) error { return tx.Snooze(ana, "k", now.Add(time.Hour)) }},
		{"told", func(tx *store.Tx) error {
			if _, err := tx.QueuePost(aPost("p"), []store.Fact{{Key: "p", Lifter: ana, Kind: "meet", Due: now}}, now); err != nil {
				return err
			}
			return tx.ConfirmPost("p", "ref", now)
		}},
		{"pressed", func(tx *store.Tx) error {
			if err := tx.AddButton(store.Button{Token: "b", Label: "Mine", Action: "mine.show", Args: []byte("{}"), Made: now}); err != nil {
				return err
			}
			_, err := tx.UseButton("b", ana, now)
			return err
		}},
		{"away told", func(tx *store.Tx) (err error) {
			away, err = tx.AddAway(store.Away{Lifter: ana, From: day, By: ben}, now)
			return err
		}},
		{"back", func(tx *store.Tx) error { return tx.EndAway(away, day.AddDays(3)) }},
		{"away taken back", func(tx *store.Tx) error { return tx.DropAway(away) }},
		{"trained without logging", func(tx *store.Tx) error { return tx.SetLifterDay(ana, store.TrainedDay, day) }},
		{"noted", func(tx *store.Tx) error {
			_, err := tx.AddNote(store.Note{Lifter: ana, By: ben, What: "Something."}, now)
			return err
		}},
	}
	for _, step := range steps {
		watchAll(t, s, ana, ben)
		update(t, s, step.change)
		if got := unwatched(t, s, now); len(got) != 1 || got[0] != ana {
			t.Errorf("%s: to be looked at %v, want Ana alone", step.name, got)
		}
	}
	watchAll(t, s, ana, ben)
	update(t, s, func(tx *store.Tx) error {
		c, err := tx.Club()
		if err != nil {
			return err
		}
		c.Hour = 9
		return tx.SaveClub(c)
	})
	if got := unwatched(t, s, now); len(got) != 2 {
		t.Errorf("the club's hour changed: to be looked at %v, want both", got)
	}
}

// A plan that waits concerns the coach, not the lifter: the own coach, and captains.
func TestWaitingPlanAsksTheCoachToBeLookedAt(t *testing.T) {
	s := storetest.New(t)
	ana, ben, cap := join(t, s, "ana"), join(t, s, "ben"), join(t, s, "cap")
	var p store.Plan
	update(t, s, func(tx *store.Tx) error {
		a, err := tx.Lifter(ana)
		if err != nil {
			return err
		}
		c, err := tx.Lifter(cap)
		if err != nil {
			return err
		}
		a.Coach, c.Captain = ben, true
		if err := tx.SaveLifter(a, now); err != nil {
			return err
		}
		if err := tx.SaveLifter(c, now); err != nil {
			return err
		}
		p, err = tx.ProposePlan(store.Plan{Lifter: ana, Season: aSeason(0)}, now)
		return err
	})
	watchAll(t, s, ana, ben, cap)
	update(t, s, func(tx *store.Tx) error { return tx.AskApproval(p, store.CoachDecides, now) })
	if got := unwatched(t, s, now); len(got) != 2 || got[0] != ben || got[1] != cap {
		t.Errorf("asked: to be looked at %v, want Ben and the captain", got)
	}
	watchAll(t, s, ana, ben, cap)
	update(t, s, func(tx *store.Tx) error {
		_, err := tx.SettleApproval(p.ID, store.ApprovalApproved, "", ben, now)
		return err
	})
	if got := unwatched(t, s, now); len(got) != 2 {
		t.Errorf("settled: to be looked at %v", got)
	}
}

func watchAll(t *testing.T, s *store.Store, ids ...planner.LifterID) {
	t.Helper()
	update(t, s, func(tx *store.Tx) error {
		for _, id := range ids {
			if err := tx.Watch(id, now.Add(time.Hour), now); err != nil {
				return err
			}
		}
		return nil
	})
	if got := unwatched(t, s, now); len(got) != 0 {
		t.Fatalf("still to be looked at: %v", got)
	}
}

func unwatched(t *testing.T, s *store.Store, at time.Time) (ids []planner.LifterID) {
	t.Helper()
	view(t, s, func(tx *store.Tx) (err error) { ids, err = tx.Unwatched(at, 10); return err })
	return ids
}

// A look falls due at its moment, and one that was worked out under a clock that
// ran ahead does not count once the clock is right again.
func TestLooksFallDue(t *testing.T) {
	s := storetest.New(t)
	ana, ben := join(t, s, "ana"), join(t, s, "ben")
	watchAll(t, s, ana, ben)
	ripe := func(at time.Time) (ids []planner.LifterID) {
		view(t, s, func(tx *store.Tx) (err error) { ids, err = tx.Ripe(at); return err })
		return ids
	}
	if got := ripe(now.Add(time.Hour - time.Millisecond)); len(got) != 0 {
		t.Errorf("due before their moment: %v", got)
	}
	if got := ripe(now.Add(time.Hour)); len(got) != 2 {
		t.Errorf("due at their moment: %v, want both", got)
	}
	years := now.AddDate(3, 0, 0)
	update(t, s, func(tx *store.Tx) error { return tx.Watch(ana, years.Add(time.Hour), years) })
	if got := unwatched(t, s, now); len(got) != 1 || got[0] != ana {
		t.Errorf("after the clock went back: to be looked at %v, want Ana", got)
	}
	view(t, s, func(tx *store.Tx) error {
		at, ok, err := tx.NextLook()
		if !ok || !at.Equal(now.Add(time.Hour)) {
			t.Errorf("the next look is %s, %t", at, ok)
		}
		return err
	})
}
