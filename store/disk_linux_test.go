package store_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"blockbell/planner"
	"blockbell/store"
)

// smallDisk mounts a disk in memory of the given size, or skips the test.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "disk")
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("none", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("this user may not mount a disk of a chosen size (%v)", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

func TestFullDiskIsToldAndLosesNothing(t *testing.T) {
	dir := smallDisk(t, "2m")
	ballast := filepath.Join(dir, "ballast")
	if err := os.WriteFile(ballast, bytes.Repeat([]byte("x"), 1<<19), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(t.Context(), filepath.Join(dir, "club.db"), terminal)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	ana := join(t, s, "ana")
	day := make([]planner.Set, 100)
	for i := range day {
		day[i] = aSet(march1)
	}
	add := func() error {
		return s.Update(t.Context(), func(tx *store.Tx) error { _, err := tx.AddSets(ana, "m", day, now); return err })
	}
	acked := 0
	for err = add(); err == nil && acked < 10_000; err = add() {
		acked += len(day)
	}
	wantKind(t, err, planner.Impossible)
	if !strings.Contains(err.Error(), "is full") {
		t.Errorf("the error does not say that the disk is full: %v", err)
	}
	count := func() int {
		return len(read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.RecentSets(ana, 1<<20) }))
	}
	if got := count(); got != acked {
		t.Errorf("%d sets are there, %d were acknowledged", got, acked)
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if err := add(); err != nil {
		t.Fatalf("with space again: %v", err)
	}
	if got := count(); got != acked+len(day) {
		t.Errorf("%d sets are there, want %d", got, acked+len(day))
	}
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

func TestOpenOnAFullDiskIsTold(t *testing.T) {
	dir := smallDisk(t, "64k")
	path := filepath.Join(dir, "club.db")
	refused(t, path, terminal, planner.Impossible)
	if err := syscall.Mount("none", dir, "tmpfs", syscall.MS_REMOUNT, "size=4m"); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(t.Context(), path, terminal)
	if err != nil {
		t.Fatalf("with space again: %v", err)
	}
	s.Close()
}

func TestReadOnlyDiskIsTold(t *testing.T) {
	dir := smallDisk(t, "4m")
	path := filepath.Join(dir, "club.db")
	s, err := store.Open(t.Context(), path, terminal)
	if err != nil {
		t.Fatal(err)
	}
	join(t, s, "ana")
	s.Close()
	if err := syscall.Mount("none", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=4m"); err != nil {
		t.Skipf("this disk cannot be made read-only (%v)", err)
	}
	for _, path := range []string{path, filepath.Join(dir, "new.db"), filepath.Join(dir, "deep", "new.db")} {
		if e := refused(t, path, terminal, planner.Forbidden); !strings.Contains(e.Sentence, "can only be read") {
			t.Errorf("%q", e.Sentence)
		}
	}
	r, err := store.OpenForReading(t.Context(), path)
	if err != nil {
		t.Fatalf("reading from a read-only disk: %v", err)
	}
	defer r.Close()
	if got := export(t, r)["lifters"]; len(got) != 1 {
		t.Errorf("the export has %d members, want 1", len(got))
	}
}
