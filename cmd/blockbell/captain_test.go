package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// Where nobody can be captain, nobody could run the club.
func TestCaptainMustBeAName(t *testing.T) {
	for _, flag := range []string{"--captain=", "--captain=@", "--captain= ", "--captain=the boss", "--captain=cap,the boss"} {
		db := filepath.Join(t.TempDir(), "new.db")
		status, _, errs := run(t, "", "rehearse", flag, "--db", db)
		if status != statusUsage || !strings.Contains(errs, "names nobody") {
			t.Errorf("%q: status %d: %s", flag, status, errs)
		}
	}
	db := filepath.Join(t.TempDir(), "new.db")
	if status, _, errs := run(t, "", "rehearse", "--captain=@Boss", "--captain=cap", "--db", db); status != statusOK {
		t.Errorf("two captains: status %d: %s", status, errs)
	}
}
