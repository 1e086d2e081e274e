package store_test

import (
	"os"
	"syscall"
	"testing"

	"blockbell/store/storetest"
)

// The bytes of a database file on which SQLite holds its shared lock (SQLite,
// os.h: SHARED_FIRST and SHARED_SIZE), and Linux's command that asks whether a
// lock could be had (fcntl.h).
const (
	sharedFirst = 0x40000000 + 2
	sharedSize  = 510
	ofdGetLock  = 36
)

// Any code of the process may open and close the database file. With ordinary
// locks that would drop the store's own, and an older SQLite tool that visits the
// file would take it for abandoned and delete the write-ahead log, with it every
// later commit.
func TestLockSurvivesAnotherReaderOfTheFile(t *testing.T) {
	s := storetest.New(t)
	join(t, s, "ana")
	f, err := os.Open(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	probe, err := os.OpenFile(s.Path(), os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer probe.Close()
	lock := syscall.Flock_t{Type: syscall.F_WRLCK, Start: sharedFirst, Len: sharedSize}
	if err := syscall.FcntlFlock(probe.Fd(), ofdGetLock, &lock); err != nil {
		t.Skipf("this system has no such locks (%v)", err)
	}
	if lock.Type == syscall.F_UNLCK {
		t.Error("nothing keeps others away from the database any more")
	}
}
