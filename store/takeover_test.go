package store_test

import (
	"encoding/json"
	"regexp"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
	"blockbell/store/storetest"
)

// put leaves a placeholder with a trace in every table that passes.
func put(t *testing.T, s *store.Store) (from planner.LifterID, meet planner.MeetID) {
	t.Helper()
	update(t, s, func(tx *store.Tx) (err error) {
		from, err = tx.AddPlaceholder(planner.Lifter{Name: "Ana", Squat: 150000, Bench: 90000, Level: planner.Intermediate, Unit: planner.KG}, now)
		return err
	})
	write(t, s, from, "m1", now, aSet(march1), aSet(march1))
	update(t, s, func(tx *store.Tx) (err error) {
		if meet, err = tx.AddMeet(aMeet(from, 0), now); err != nil {
			return err
		}
		p, err := tx.ProposePlan(store.Plan{Lifter: from, Season: aSeason(meet)}, now)
		if err != nil {
			return err
		}
		if _, err := tx.AgreePlan(p.ID, now); err != nil {
			return err
		}
		for _, do := range []func() error{
			func() error { return tx.DropSet(from, march1, 2, 0, now) },
			func() error { return tx.AddBodyweight(from, march1, 62500, now) },
			func() error { return tx.SetBound(store.Bound{Lifter: from, Kind: planner.Peaking, Most: 4}, now) },
			func() error { _, err := tx.AddPin(store.Pin{Lifter: from, Weeks: 4, Until: march1}, now); return err },
			func() error {
				return tx.TakeLiftOff(store.LiftOff{Lifter: from, Lift: planner.Squat, From: march1, Until: march1.AddDays(7)}, now)
			},
			func() error {
				_, err := tx.AddAway(store.Away{Lifter: from, From: march1, To: march1}, now)
				return err
			},
			func() error {
				_, err := tx.AddWeekChange(from, load.Override{Of: load.Movement{Lift: planner.Squat}, Sets: 1}, 0, now)
				return err
			},
			func() error { return tx.SaveTraining(from, store.Training{Cautious: true}) },
			func() error { return tx.Prescribe(from, load.Day{Date: march1}, now) },
			func() error { return tx.SaveLicence(from, store.Licence{Until: march1}) },
			func() error { return tx.SaveRoster(meet, store.Roster{Session: "2"}) },
			func() error { return tx.Audit(from, from, "did something", now) },
		} {
			if err := do(); err != nil {
				return err
			}
		}
		return nil
	})
	return from, meet
}

// kept counts what a lifter has.
func kept(t *testing.T, s *store.Store, id planner.LifterID) map[string]int {
	t.Helper()
	got := map[string]int{}
	view(t, s, func(tx *store.Tx) error {
		for _, count := range []func() error{
			func() error { all, err := tx.Sets(id, 1, march1.AddDays(9)); got["sets"] = len(all); return err },
			func() error { all, err := tx.Meets(id); got["meets"] = len(all); return err },
			func() error { all, err := tx.Plans(id); got["plans"] = len(all); return err },
			func() error { _, has, err := tx.AgreedPlan(id); got["agreed"] = map[bool]int{true: 1}[has]; return err },
			func() error { all, err := tx.Bodyweights(id, 1, march1); got["bodyweights"] = len(all); return err },
			func() error { all, err := tx.Pins(id, march1.AddDays(-1)); got["pins"] = len(all); return err },
			func() error { all, err := tx.LiftsOff(id, march1); got["off"] = len(all); return err },
			func() error { all, err := tx.Aways(id); got["away"] = len(all); return err },
			func() error { all, err := tx.WeekChanges(id); got["changes"] = len(all); return err },
			func() error {
				tr, err := tx.Training(id)
				got["cautious"] = map[bool]int{true: 1}[tr.Cautious]
				return err
			},
			func() error { all, err := tx.Prescribed(id, 1, march1); got["prescribed"] = len(all); return err },
			func() error {
				l, err := tx.Licence(id)
				got["licence"] = map[bool]int{true: 1}[!l.Until.IsZero()]
				return err
			},
		} {
			if err := count(); err != nil {
				return err
			}
		}
		return nil
	})
	return got
}

var whole = map[string]int{"sets": 1, "meets": 1, "plans": 1, "agreed": 1, "bodyweights": 1, "pins": 1, "off": 1, "away": 1, "changes": 1, "cautious": 1, "prescribed": 1, "licence": 1}

func TestTakingOverMovesEverythingAndTakingBackReturnsIt(t *testing.T) {
	s := storetest.New(t)
	from, _ := put(t, s)
	to := join(t, s, "ana")
	same(t, "before", kept(t, s, from), whole)
	update(t, s, func(tx *store.Tx) error { return tx.TakeOver(from, to, 0, now) })
	same(t, "after", kept(t, s, to), whole)
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
	view(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(to)
		if l.Squat != 150000 || l.Level != planner.Intermediate {
			t.Errorf("profile %+v", l)
		}
		if left, _ := tx.Placeholders(); len(left) != 0 {
			t.Errorf("still put down: %+v", left)
		}
		return err
	})
	write(t, s, to, "m9", now, aSet(march1.AddDays(1)))
	var back planner.LifterID
	update(t, s, func(tx *store.Tx) (err error) { back, err = tx.TakeBack(to, now); return err })
	same(t, "the placeholder again", kept(t, s, back), whole)
	got := kept(t, s, to)
	same(t, "the account again", got["sets"]*10+got["meets"]+got["plans"]+got["pins"]+got["licence"], 10)
	view(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(to)
		if l.Squat != 0 {
			t.Errorf("the squat of the placeholder stayed: %+v", l)
		}
		return err
	})
	wantKind(t, s.Update(t.Context(), func(tx *store.Tx) error { _, err := tx.TakeBack(to, now); return err }), planner.Conflict)
	for _, id := range []planner.LifterID{back, to} {
		update(t, s, func(tx *store.Tx) error { return tx.EraseLifter(id) })
	}
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

func TestWhatTheAccountHasStays(t *testing.T) {
	s := storetest.New(t)
	from, _ := put(t, s)
	to := join(t, s, "ana")
	write(t, s, to, "m2", now, aSet(march1))
	var own store.Plan
	update(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(to)
		if err != nil {
			return err
		}
		l.Squat = 160000
		if err := tx.SaveLifter(l, now); err != nil {
			return err
		}
		if err := tx.AddBodyweight(to, march1, 70000, now); err != nil {
			return err
		}
		meet, err := tx.AddMeet(aMeet(to, 0), now)
		if err != nil {
			return err
		}
		if own, err = tx.ProposePlan(store.Plan{Lifter: to, Season: aSeason(meet)}, now); err != nil {
			return err
		}
		_, err = tx.AgreePlan(own.ID, now)
		return err
	})
	update(t, s, func(tx *store.Tx) error { return tx.TakeOver(from, to, 0, now) })
	got := kept(t, s, to)
	if got["sets"] != 2 || got["meets"] != 1 || got["plans"] != 2 || got["bodyweights"] != 1 {
		t.Errorf("%v", got)
	}
	view(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(to)
		p, _, perr := tx.AgreedPlan(to)
		meets, merr := tx.Meets(to)
		r, rerr := tx.Roster(meets[0].ID)
		if l.Squat != 160000 || l.Bench != 90000 || p.ID != own.ID || r.Session != "2" {
			t.Errorf("squat %d, bench %d, plan %d, roster %+v", l.Squat, l.Bench, p.ID, r)
		}
		for _, e := range []error{err, perr, merr, rerr} {
			if e != nil {
				return e
			}
		}
		return nil
	})
	var back planner.LifterID
	update(t, s, func(tx *store.Tx) (err error) { back, err = tx.TakeBack(to, now); return err })
	if got := kept(t, s, back); got["meets"] != 1 || got["agreed"] != 1 || got["sets"] != 1 {
		t.Errorf("back: %v", got)
	}
	if got := kept(t, s, to); got["meets"] != 1 || got["agreed"] != 1 || got["sets"] != 1 {
		t.Errorf("account: %v", got)
	}
	for _, id := range []planner.LifterID{to, back} {
		update(t, s, func(tx *store.Tx) error { return tx.EraseLifter(id) })
	}
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

func TestErasingTakesNamesOutOfOthersPapers(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	update(t, s, func(tx *store.Tx) error {
		meet, err := tx.AddMeet(aMeet(bo, 0), now)
		if err != nil {
			return err
		}
		if err := tx.SaveRoster(meet, store.Roster{Travel: "with ana, 7:00"}); err != nil {
			return err
		}
		if err := tx.SaveReview(meet, store.Review{Well: "ana called the openers"}, now); err != nil {
			return err
		}
		if _, err := tx.AddNote(store.Note{Lifter: bo, What: "ana says to be Bo."}, now); err != nil {
			return err
		}
		return tx.EraseLifter(ana)
	})
	raw, _ := json.Marshal(export(t, s))
	if regexp.MustCompile(`(?i)\bana\b`).Match(raw) {
		t.Errorf("the name is still there: %s", raw)
	}
}
