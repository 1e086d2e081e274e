//go:build !windows

package store

import (
	"errors"
	"os"
	"syscall"
)

// errLocked says that another process has the lock.
var errLocked = errors.New("another process has the lock")

// lockNow locks a file for this process or returns errLocked.
func lockNow(f *os.File) error {
	err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return errLocked
	}
	return err
}

// unlock gives the lock back by name: a child that was forked at this very moment
// still holds the file open, and closing alone would not do. An error means that it
// is closed already, with nothing to give back.
func unlock(f *os.File) { _ = syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }
