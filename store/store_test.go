package store_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// now is the moment at which the tests write.
var now = time.Date(2027, 3, 2, 18, 30, 15, 250e6, time.UTC)

// update runs do in a write transaction and fails the test on an error.
func update(t testing.TB, s *store.Store, do func(*store.Tx) error) {
	t.Helper()
	if err := s.Update(t.Context(), do); err != nil {
		t.Fatalf("writing: %v", err)
	}
}

// view runs do on a snapshot and fails the test on an error.
func view(t testing.TB, s *store.Store, do func(*store.Tx) error) {
	t.Helper()
	if err := s.View(t.Context(), do); err != nil {
		t.Fatalf("reading: %v", err)
	}
}

// wantKind checks that err is an error for a person, of one kind and with words.
func wantKind(t testing.TB, err error, kind planner.ErrorKind) {
	t.Helper()
	var e *planner.Error
	if !errors.As(err, &e) {
		t.Fatalf("got %v (%T), want an error of kind %q", err, err, kind)
	}
	if e.Kind != kind || e.Sentence == "" {
		t.Fatalf("got kind %q, sentence %q; want kind %q", e.Kind, e.Sentence, kind)
	}
}

// join adds a member and returns the number.
func join(t testing.TB, s *store.Store, handle string) planner.LifterID {
	t.Helper()
	var id planner.LifterID
	update(t, s, func(tx *store.Tx) (err error) {
		id, err = tx.AddLifter(planner.Lifter{Handle: handle}, now)
		return err
	})
	return id
}

func TestUpdateUndoesOnErrorAndPanic(t *testing.T) {
	s := storetest.New(t)
	stop := errors.New("stop")
	add := func(tx *store.Tx) {
		if _, err := tx.AddLifter(planner.Lifter{Handle: "ana"}, now); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Update(t.Context(), func(tx *store.Tx) error { add(tx); return stop }); err != stop {
		t.Fatalf("got %v, want the function's own error", err)
	}
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		s.Update(t.Context(), func(tx *store.Tx) error { add(tx); panic("stop") })
	}()
	view(t, s, func(tx *store.Tx) error {
		all, err := tx.Lifters()
		if len(all) != 0 {
			t.Errorf("%d members are left of work that was undone", len(all))
		}
		return err
	})
}

func TestViewCannotWriteAndSeesOneSnapshot(t *testing.T) {
	s := storetest.New(t)
	err := s.View(t.Context(), func(tx *store.Tx) error { return tx.SaveClub(store.DefaultClub()) })
	if err == nil {
		t.Fatal("writing inside a View succeeded")
	}
	var e *planner.Error
	if errors.As(err, &e) {
		t.Errorf("a mistake of the program is told to a person: %q", e.Sentence)
	}
	view(t, s, func(tx *store.Tx) error {
		if _, err := tx.Lifters(); err != nil { // takes the snapshot
			return err
		}
		join(t, s, "ana")
		all, err := tx.Lifters()
		if len(all) != 0 {
			t.Error("a View sees what was written after it began")
		}
		return err
	})
}

func TestCancelledContextWritesNothing(t *testing.T) {
	s := storetest.New(t)
	ctx, cancel := context.WithCancel(t.Context())
	err := s.Update(ctx, func(tx *store.Tx) error {
		if _, err := tx.AddLifter(planner.Lifter{Handle: "ana"}, now); err != nil {
			return err
		}
		cancel()
		return nil
	})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v, want the context's end", err)
	}
	if err := s.Update(ctx, func(*store.Tx) error { return nil }); !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v from a context that had ended", err)
	}
	join(t, s, "ana") // the writer goes on, and the handle is free
}
