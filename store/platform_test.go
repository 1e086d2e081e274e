package store_test

import (
	"slices"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestSignInsAreReplaced(t *testing.T) {
	s := storetest.New(t)
	now := time.UnixMilli(1_800_000_000_000).UTC()
	for _, want := range [][]time.Time{{now}, {now, now.Add(time.Second)}, {}} {
		var got []time.Time
		err := s.Update(t.Context(), func(tx *store.Tx) (err error) {
			if err := tx.SaveSignIns(want); err != nil {
				return err
			}
			got, err = tx.SignIns()
			return err
		})
		if err != nil || !slices.EqualFunc(got, want, time.Time.Equal) {
			t.Errorf("got %v, %v; want %v", got, err, want)
		}
	}
}

func TestRemovalIsMarkedOnceAndCleared(t *testing.T) {
	s := storetest.New(t)
	first := time.UnixMilli(1_800_000_000_000).UTC()
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		if _, gone, err := tx.Removed(); gone || err != nil {
			t.Errorf("removed at the start: %v, %v", gone, err)
		}
		for _, at := range []time.Time{first, first.Add(time.Hour)} {
			if err := tx.MarkRemoved(at); err != nil {
				return err
			}
		}
		if at, gone, err := tx.Removed(); !gone || err != nil || !at.Equal(first) {
			t.Errorf("removed at %v, %v, %v", at, gone, err)
		}
		if err := tx.ClearRemoved(); err != nil {
			return err
		}
		_, gone, err := tx.Removed()
		if gone {
			t.Error("still removed")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestAuthorOfAMessageIsWhoseSetsCameWithIt(t *testing.T) {
	s := storetest.New(t)
	now := time.UnixMilli(1_800_000_000_000).UTC()
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		id, err := tx.AddLifter(planner.Lifter{Handle: "ana", Unit: planner.KG}, now)
		if err != nil {
			return err
		}
		set := planner.Set{Day: planner.DateOf(now), Lift: planner.Squat, Weight: 100000, Reps: 5, Sets: 1}
		if _, err := tx.AddSets(id, "m1", []planner.Set{set}, now); err != nil {
			return err
		}
		for message, want := range map[string]string{"m1": "ana", "m2": ""} {
			if got, known, err := tx.AuthorOfMessage(message); got != want || known != (want != "") || err != nil {
				t.Errorf("%s: %q, %v, %v", message, got, known, err)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestHomeIsKeptAndForgotten(t *testing.T) {
	s := storetest.New(t)
	for _, want := range []string{"", "100", "200", ""} {
		var got string
		err := s.Update(t.Context(), func(tx *store.Tx) (err error) {
			if err := tx.SaveHome(want); err != nil {
				return err
			}
			got, err = tx.Home()
			return err
		})
		if err != nil || got != want {
			t.Errorf("got %q, %v; want %q", got, err, want)
		}
	}
}

func TestLastEventIsTheNewestOfAll(t *testing.T) {
	s := storetest.New(t)
	now := time.UnixMilli(1_800_000_000_000).UTC()
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		if at, known, err := tx.LastEvent(); known || err != nil {
			t.Errorf("before any: %v %v %v", at, known, err)
		}
		for i, at := range []time.Time{now, now.Add(time.Hour), now.Add(time.Minute)} {
			if _, err := tx.FreshEvent(string(rune('a'+i)), at); err != nil {
				return err
			}
		}
		at, known, err := tx.LastEvent()
		if !known || !at.Equal(now.Add(time.Hour)) {
			t.Errorf("%v %v", at, known)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
