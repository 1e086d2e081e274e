package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestTimeAwayIsKeptAsTold(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	update(t, s, func(tx *store.Tx) error {
		id, err := tx.AddAway(store.Away{Lifter: ana, From: march1, By: ana}, now)
		if err != nil {
			return err
		}
		if err := tx.EndAway(id, march1.AddDays(9)); err != nil {
			return err
		}
		second, err := tx.AddAway(store.Away{Lifter: ana, From: march1.AddDays(30), To: march1.AddDays(31), By: ana}, now)
		if err != nil {
			return err
		}
		all, err := tx.Aways(ana)
		if err != nil || len(all) != 2 {
			t.Fatalf("%+v, %v", all, err)
		}
		want := store.Away{ID: id, Lifter: ana, From: march1, To: march1.AddDays(9), By: ana, Told: now.Truncate(time.Millisecond)}
		full(t, want)
		want.Told = all[0].Told
		same(t, "time away", all[0], want)
		if err := tx.DropAway(second); err != nil {
			return err
		}
		wantKind(t, tx.DropAway(second), planner.NotFound)
		wantKind(t, tx.EndAway(second, march1), planner.NotFound)
		return nil
	})
	broken := func(tx *store.Tx) error {
		_, err := tx.AddAway(store.Away{Lifter: ana, From: march1, To: march1.AddDays(-1)}, now)
		return err
	}
	if s.Update(t.Context(), broken) == nil {
		t.Error("a time away that ends before it begins was kept")
	}
}

func TestLiftIsOffUpToTheDayBeforeItIsBack(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	want := store.LiftOff{Lifter: ana, Lift: planner.Squat, From: march1, Until: march1.AddDays(14), By: ana}
	full(t, want)
	update(t, s, func(tx *store.Tx) error { return tx.TakeLiftOff(want, now) })
	update(t, s, func(tx *store.Tx) error {
		for day, n := range map[planner.Date]int{march1.AddDays(-1): 0, march1: 1, march1.AddDays(13): 1, march1.AddDays(14): 0} {
			off, err := tx.LiftsOff(ana, day)
			if err != nil || len(off) != n {
				t.Errorf("on %s: %+v, %v", day, off, err)
			}
			if n == 1 {
				same(t, "lift off", off[0], want)
			}
		}
		was, err := tx.PutLiftBack(ana, planner.Squat)
		again, err2 := tx.PutLiftBack(ana, planner.Squat)
		if !was || again || err != nil || err2 != nil {
			t.Errorf("put back %v then %v; %v, %v", was, again, err, err2)
		}
		return nil
	})
}

func TestPinsEndWithTheirPlan(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	want := store.Pin{Lifter: ana, Number: 2, Kind: planner.Peaking, Start: march1, Weeks: 4, Until: march1.AddDays(50), By: bo}
	full(t, want, "ID")
	update(t, s, func(tx *store.Tx) (err error) { want.ID, err = tx.AddPin(want, now); return err })
	update(t, s, func(tx *store.Tx) error {
		on, err := tx.Pins(ana, want.Until)
		if err != nil || len(on) != 1 {
			t.Fatalf("%+v, %v", on, err)
		}
		same(t, "pin", on[0], want)
		if past, err := tx.Pins(ana, want.Until.AddDays(1)); err != nil || len(past) != 0 {
			t.Errorf("after its plan: %+v, %v", past, err)
		}
		if was, err := tx.DropPin(bo, want.ID); was || err != nil {
			t.Errorf("another lifter's pin was dropped: %v", err)
		}
		if was, err := tx.DropPin(ana, want.ID); !was || err != nil {
			t.Errorf("the pin was not dropped: %v", err)
		}
		return nil
	})
}

func TestBoundsAreOneForEachKind(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	update(t, s, func(tx *store.Tx) error {
		for _, b := range []store.Bound{{Kind: planner.Peaking, Most: 6}, {Kind: planner.Peaking, Most: 5}, {Lifter: ana, Kind: planner.Peaking, Most: 4, By: ana}} {
			if err := tx.SetBound(b, now); err != nil {
				return err
			}
		}
		mine, err := tx.Bounds(ana)
		if err != nil {
			return err
		}
		same(t, "bounds", mine, []store.Bound{{Kind: planner.Peaking, Most: 5}, {Lifter: ana, Kind: planner.Peaking, Most: 4, By: ana}})
		if club, err := tx.Bounds(0); err != nil || len(club) != 1 {
			t.Errorf("the club's: %+v, %v", club, err)
		}
		if was, err := tx.DropBound(0, planner.Peaking); !was || err != nil {
			t.Errorf("the club's rule was not dropped: %v", err)
		}
		if left, err := tx.Bounds(ana); err != nil || len(left) != 1 || left[0].Lifter != ana {
			t.Errorf("left: %+v, %v", left, err)
		}
		return nil
	})
}

func TestApprovalIsSettledOnce(t *testing.T) {
	s := storetest.New(t)
	ana, cap := join(t, s, "ana"), join(t, s, "cap")
	p := propose(t, s, ana)
	update(t, s, func(tx *store.Tx) error {
		p2, err := tx.ProposePlan(store.Plan{Lifter: ana, Season: p.Season}, now)
		if err != nil {
			return err
		}
		for range 2 {
			if err := tx.AskApproval(p2, store.CoachDecides, now); err != nil {
				return err
			}
		}
		if w, err := tx.WaitingApprovals(); err != nil || len(w) != 1 || w[0].Plan != p2.ID || w[0].Wants != store.CoachDecides {
			t.Errorf("waiting: %+v, %v", w, err)
		}
		first, err := tx.SettleApproval(p2.ID, store.ApprovalDeclined, "another time", cap, now)
		second, err2 := tx.SettleApproval(p2.ID, store.ApprovalApproved, "", cap, now)
		if !first || second || err != nil || err2 != nil {
			t.Errorf("settled %v then %v; %v, %v", first, second, err, err2)
		}
		a, ok, err := tx.Approval(p2.ID)
		full(t, a)
		if !ok || err != nil || a.State != store.ApprovalDeclined || a.Reason != "another time" || a.By != cap {
			t.Errorf("%+v, %v", a, err)
		}
		if w, err := tx.WaitingApprovals(); err != nil || len(w) != 0 {
			t.Errorf("still waiting: %+v, %v", w, err)
		}
		return nil
	})
}

// A proposal that was replaced by another one waits for nobody.
func TestReplacedProposalWaitsForNobody(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	update(t, s, func(tx *store.Tx) error {
		p, err := tx.ProposePlan(store.Plan{Lifter: ana, Season: aSeason(0)}, now)
		if err != nil {
			return err
		}
		if err := tx.AskApproval(p, store.LifterDecides, now); err != nil {
			return err
		}
		if _, err := tx.ProposePlan(store.Plan{Lifter: ana, Season: aSeason(0)}, now); err != nil {
			return err
		}
		if w, err := tx.WaitingApprovals(); err != nil || len(w) != 0 {
			t.Errorf("waiting: %+v, %v", w, err)
		}
		return nil
	})
}

func TestNotesAndDaysComeBack(t *testing.T) {
	s := storetest.New(t)
	ana, cap := join(t, s, "ana"), join(t, s, "cap")
	update(t, s, func(tx *store.Tx) error {
		id, err := tx.AddNote(store.Note{Lifter: ana, By: cap, What: "A meet was added.", Undo: "meet.drop", Args: []byte(`{"meet":1}`)}, now)
		if err != nil {
			return err
		}
		if first, err := tx.UndoNote(id, now); !first || err != nil {
			t.Errorf("not undone: %v", err)
		}
		if again, err := tx.UndoNote(id, now); again || err != nil {
			t.Errorf("undone twice: %v", err)
		}
		n, err := tx.Note(id)
		if err != nil {
			return err
		}
		full(t, n)
		if all, err := tx.NotesSince(ana, now.Add(-time.Hour)); err != nil || len(all) != 1 || all[0].What != n.What {
			t.Errorf("%+v, %v", all, err)
		}
		if later, err := tx.NotesSince(ana, now.Add(time.Hour)); err != nil || len(later) != 0 {
			t.Errorf("%+v, %v", later, err)
		}
		for _, d := range []planner.Date{march1, march1.AddDays(1)} {
			if err := tx.SetLifterDay(ana, store.QuietDay, d); err != nil {
				return err
			}
		}
		days, err := tx.LifterDays(ana)
		same(t, "days", days, map[store.DayName]planner.Date{store.QuietDay: march1.AddDays(1)})
		if last, err := tx.LastLogged(ana); err != nil || last != 0 {
			t.Errorf("logged on %s, %v", last, err)
		}
		return err
	})
	write(t, s, ana, "m1", now, aSet(march1))
	update(t, s, func(tx *store.Tx) error {
		last, err := tx.LastLogged(ana)
		if last != march1 {
			t.Errorf("logged on %s", last)
		}
		return err
	})
}

func TestPlanCanBeWithdrawnOnce(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	p := propose(t, s, ana)
	update(t, s, func(tx *store.Tx) error {
		if p.State == store.PlanProposed {
			if _, err := tx.AgreePlan(p.ID, now); err != nil {
				return err
			}
		}
		if err := tx.WithdrawPlan(p.ID, now); err != nil {
			return err
		}
		if _, runs, err := tx.AgreedPlan(ana); runs || err != nil {
			t.Errorf("a plan still runs: %v", err)
		}
		wantKind(t, tx.WithdrawPlan(p.ID, now), planner.Conflict)
		return nil
	})
}
