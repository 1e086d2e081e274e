// Package storetest opens databases for tests: real ones, in the test's own
// folder.
package storetest

import (
	"path/filepath"
	"testing"
	"time"

	"blockbell/store"
)

// Made is the moment at which the databases of New say they were made.
var Made = time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)

// New opens a fresh database of the terminal's world, which ends with the test.
func New(t testing.TB) *store.Store {
	t.Helper()
	return open(t, filepath.Join(t.TempDir(), "club.db"))
}

// Reopen closes s and opens its file again, as a new start of the program would.
func Reopen(t testing.TB, s *store.Store) *store.Store {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Fatalf("closing the database: %v", err)
	}
	return open(t, s.Path())
}

func open(t testing.TB, path string) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), path, store.Options{World: store.Terminal, Now: Made})
	if err != nil {
		t.Fatalf("opening a database: %v", err)
	}
	t.Cleanup(func() { s.Close() }) // a second Close after Reopen is harmless
	return s
}
