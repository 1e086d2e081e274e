package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestBackupIsADatabaseOfItsOwn(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	write(t, s, ana, "m", now, aSet(march1))
	to := filepath.Join(t.TempDir(), "copy.db")
	if err := s.Backup(t.Context(), to); err != nil {
		t.Fatal(err)
	}
	same(t, "the backup's folder", listing(t, filepath.Dir(to))[1:], []string{"copy.db 600"})
	wantKind(t, s.Backup(t.Context(), to), planner.Conflict)
	join(t, s, "bo") // after the copy
	c, err := store.Open(t.Context(), to, terminal)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if got := read(t, c, func(tx *store.Tx) ([]planner.Set, error) { return tx.RecentSets(ana, 9) }); len(got) != 1 {
		t.Errorf("the copy has %d sets, want 1", len(got))
	}
	view(t, c, func(tx *store.Tx) error {
		all, err := tx.Lifters()
		if len(all) != 1 {
			t.Errorf("the copy has %d members, want 1", len(all))
		}
		return err
	})
}

func TestBackupFailsCleanly(t *testing.T) {
	s := storetest.New(t)
	to := filepath.Join(t.TempDir(), "none", "copy.db")
	wantKind(t, s.Backup(t.Context(), to), planner.NotFound)
}

func TestCheckFindsASpoiltPage(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	for range 50 {
		write(t, s, ana, "m", now, aSet(march1), aSet(march1))
	}
	if err := s.Check(t.Context()); err != nil {
		t.Fatalf("a sound database: %v", err)
	}
	s.Close()
	text, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	clear(text[len(text)-4096:]) // the last page
	if err := os.WriteFile(s.Path(), text, 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := store.OpenForReading(t.Context(), s.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	wantKind(t, r.Check(t.Context()), planner.Invalid)
}
