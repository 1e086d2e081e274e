package store

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// errLocked says that another process has the lock.
var errLocked = errors.New("another process has the lock")

// lockedByte lies behind what is written into the file: a lock keeps others from
// reading what it covers, and they shall read who has it.
const lockedByte = 1 << 20

// lockNow locks a file for this process or returns errLocked.
func lockNow(f *os.File) error {
	err := windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY,
		0, 1, 0, &windows.Overlapped{Offset: lockedByte})
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) {
		return errLocked
	}
	return err
}

// unlock gives the lock back; an error means that there is nothing to give back.
func unlock(f *os.File) {
	_ = windows.UnlockFileEx(windows.Handle(f.Fd()), 0, 1, 0, &windows.Overlapped{Offset: lockedByte})
}
