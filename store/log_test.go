package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

var march1 = planner.NewDate(2027, 3, 1)

// write logs sets under a message id and returns them as written.
func write(t testing.TB, s *store.Store, who planner.LifterID, message string, at time.Time, sets ...planner.Set) (out []planner.Set) {
	t.Helper()
	update(t, s, func(tx *store.Tx) (err error) { out, err = tx.AddSets(who, message, sets, at); return err })
	return out
}

// read returns what a query for sets finds.
func read(t testing.TB, s *store.Store, query func(*store.Tx) ([]planner.Set, error)) (out []planner.Set) {
	t.Helper()
	view(t, s, func(tx *store.Tx) (err error) { out, err = query(tx); return err })
	return out
}

func TestSetKeepsEveryField(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	reserve := 1.5
	want := planner.Set{
		Day: march1, Seq: 1, Lift: planner.Bench, Variant: "close-grip", Weight: 92500, Reps: 5, Sets: 3,
		Reserve: &reserve, Missed: true, Gear: planner.Wraps, Pending: true,
	}
	full(t, want)
	plain := aSet(march1)
	got := write(t, s, ana, "m1", now, want, plain)
	plain.Seq = 2
	same(t, "sets as written", got, []planner.Set{want, plain})
	s = storetest.Reopen(t, s)
	got = read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.Sets(ana, march1, march1) })
	same(t, "sets as read", got, []planner.Set{want, plain})
}

func TestSetsAreFoundByDayMessageAndTime(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	write(t, s, ana, "m1", now, aSet(march1), aSet(march1.AddDays(1)), aSet(march1))
	write(t, s, ana, "m2", now.Add(time.Hour), aSet(march1))
	write(t, s, bo, "m3", now, aSet(march1))
	type place struct{ Day, Seq int }
	for _, c := range []struct {
		name  string
		query func(*store.Tx) ([]planner.Set, error)
		want  []place
	}{
		{"all", func(tx *store.Tx) ([]planner.Set, error) { return tx.Sets(ana, march1, march1.AddDays(1)) },
			[]place{{0, 1}, {0, 2}, {0, 3}, {1, 1}}},
		{"second day", func(tx *store.Tx) ([]planner.Set, error) { return tx.Sets(ana, march1.AddDays(1), march1.AddDays(9)) },
			[]place{{1, 1}}},
		{"recent", func(tx *store.Tx) ([]planner.Set, error) { return tx.RecentSets(ana, 2) }, []place{{1, 1}, {0, 3}}},
		{"message", func(tx *store.Tx) ([]planner.Set, error) { return tx.SetsOfMessage(ana, "m1") },
			[]place{{0, 1}, {0, 2}, {1, 1}}},
		{"another's message", func(tx *store.Tx) ([]planner.Set, error) { return tx.SetsOfMessage(bo, "m1") }, []place{}},
		{"last hour", func(tx *store.Tx) ([]planner.Set, error) { return tx.LastSets(ana, time.Hour, now.Add(61*time.Minute)) },
			[]place{{0, 3}}},
		{"last two hours", func(tx *store.Tx) ([]planner.Set, error) { return tx.LastSets(ana, 2*time.Hour, now.Add(time.Hour)) },
			[]place{{0, 3}, {1, 1}, {0, 2}, {0, 1}}},
	} {
		got := []place{}
		for _, set := range read(t, s, c.query) {
			got = append(got, place{march1.DaysUntil(set.Day), set.Seq})
		}
		same(t, c.name, got, c.want)
	}
}

func TestHeavySetsAreEvidenceOnly(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	with := func(change func(*planner.Set)) planner.Set {
		set := aSet(march1)
		change(&set)
		return set
	}
	write(t, s, ana, "m", now,
		aSet(march1),
		with(func(s *planner.Set) { s.Gear = planner.Raw }),
		with(func(s *planner.Set) { s.Gear = planner.SinglePly }),
		with(func(s *planner.Set) { s.Variant = "paused" }),
		with(func(s *planner.Set) { s.Missed = true }),
		with(func(s *planner.Set) { s.Pending = true }),
		with(func(s *planner.Set) { s.Lift = planner.Bench }),
		with(func(s *planner.Set) { s.Day = march1.AddDays(-1) }),
	)
	var seqs []int
	for _, set := range read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.HeavySets(ana, planner.Squat, march1) }) {
		seqs = append(seqs, set.Seq)
	}
	same(t, "evidence", seqs, []int{1, 2})
}

func TestCorrectionsKeepTheFormer(t *testing.T) {
	s := storetest.New(t)
	ana, cap := join(t, s, "ana"), join(t, s, "cap")
	was := write(t, s, ana, "m1", now, aSet(march1), aSet(march1))[1]
	fixed := was
	fixed.Weight, fixed.Reps = 145000, 4
	update(t, s, func(tx *store.Tx) error { return tx.FixSet(ana, march1, 2, fixed, cap, now.Add(time.Minute)) })
	got := read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.Sets(ana, march1, march1) })
	same(t, "the corrected set", got[1], fixed)
	update(t, s, func(tx *store.Tx) error { return tx.DropSet(ana, march1, 2, ana, now.Add(time.Hour)) })
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.SetHistory(ana, march1, 2)
		same(t, "the history", got, []store.SetChange{
			{Former: was, Change: store.Fixed, By: cap, At: now.Add(time.Minute)},
			{Former: fixed, Change: store.Dropped, By: ana, At: now.Add(time.Hour)},
		})
		return err
	})
	if again := write(t, s, ana, "m2", now, aSet(march1)); again[0].Seq != 3 {
		t.Errorf("the number of a dropped set was used again: %d", again[0].Seq)
	}
	gone := func(tx *store.Tx) error { return tx.FixSet(ana, march1, 2, fixed, cap, now) }
	wantKind(t, s.Update(t.Context(), gone), planner.NotFound)
	gone = func(tx *store.Tx) error { return tx.DropSet(ana, march1, 2, cap, now) }
	wantKind(t, s.Update(t.Context(), gone), planner.NotFound)
}

func TestFixSetMovesToAnotherDay(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	next := march1.AddDays(1)
	write(t, s, ana, "m1", now, aSet(march1), aSet(next))
	moved := aSet(next)
	update(t, s, func(tx *store.Tx) error { return tx.FixSet(ana, march1, 1, moved, ana, now) })
	got := read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.SetsOfMessage(ana, "m1") })
	first, second := aSet(next), aSet(next)
	first.Seq, second.Seq = 1, 2
	same(t, "sets after the move", got, []planner.Set{first, second})
	view(t, s, func(tx *store.Tx) error {
		h, err := tx.SetHistory(ana, march1, 1)
		if len(h) != 1 || h[0].Change != store.Moved {
			t.Errorf("the move left no trace: %+v", h)
		}
		return err
	})
}

// The schema has the bounds of the vocabulary.
func TestBoundsAreTheVocabularys(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	most := planner.Set{Day: march1, Lift: planner.Squat, Weight: planner.MaxWeight, Reps: planner.MaxReps, Sets: planner.MaxSets}
	write(t, s, ana, "m", now, most)
	for name, change := range map[string]func(*planner.Set){
		"weight": func(s *planner.Set) { s.Weight++ },
		"reps":   func(s *planner.Set) { s.Reps++ },
		"sets":   func(s *planner.Set) { s.Sets++ },
		"day":    func(s *planner.Set) { s.Day = 0 },
	} {
		set := most
		change(&set)
		err := s.Update(t.Context(), func(tx *store.Tx) error {
			_, err := tx.AddSets(ana, "m", []planner.Set{most, set}, now)
			return err
		})
		if err == nil {
			t.Errorf("one more in %s was kept", name)
		}
	}
	if got := read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.RecentSets(ana, 9) }); len(got) != 1 {
		t.Errorf("%d sets are there: a refused message left a part of itself", len(got))
	}
}
