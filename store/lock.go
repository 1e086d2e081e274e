package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"blockbell/planner"
)

// lockFile keeps a second process away from a database. The kernel gives the
// lock back when its holder dies, so a lock file that is left over locks nothing
// and is never removed: removing it would let two processes lock two files of
// one name.
type lockFile struct{ f *os.File }

// takeLock locks path+".lock" or says which process has it.
func takeLock(path string) (*lockFile, error) {
	f, err := os.OpenFile(path+".lock", os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	if err := lockNow(f); err != nil {
		defer f.Close()
		if errors.Is(err, errLocked) {
			return nil, heldBy(path, holder(f))
		}
		return nil, fmt.Errorf("lock %s: %w", f.Name(), err)
	}
	l := &lockFile{f}
	if err := l.sign(); err != nil {
		l.release()
		return nil, err
	}
	return l, nil
}

// sign writes this process's number into the file, for whoever comes second.
func (l *lockFile) sign() error {
	if err := l.f.Truncate(0); err != nil {
		return err
	}
	_, err := l.f.WriteAt([]byte(strconv.Itoa(os.Getpid())+"\n"), 0)
	return err
}

// release gives the lock back; doing so again is harmless.
func (l *lockFile) release() error {
	if l == nil {
		return nil
	}
	unlock(l.f)
	if err := l.f.Close(); !errors.Is(err, os.ErrClosed) {
		return err
	}
	return nil
}

// holder reads the number of the process that has the lock; 0 where it has not
// signed yet.
func holder(f *os.File) int {
	text, err := io.ReadAll(io.LimitReader(f, 32))
	if err != nil {
		return 0
	}
	pid, err := strconv.Atoi(strings.TrimSpace(string(text)))
	if err != nil {
		return 0
	}
	return pid
}

// heldBy is the error for a database that another process uses.
func heldBy(path string, pid int) *planner.Error {
	who := "another process"
	if pid > 0 {
		who = fmt.Sprintf("process %d", pid)
	}
	return planner.Errorf(planner.Conflict, "End that process first, or name another database.",
		"the database %s is in use by %s", path, who)
}
