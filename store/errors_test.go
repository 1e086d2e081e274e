package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"

	"blockbell/planner"
)

// Errors of the file system decide by number, also when they are wrapped.
func TestFileErrorsGetWords(t *testing.T) {
	for err, want := range map[error]planner.ErrorKind{
		syscall.ENOSPC: planner.Impossible, syscall.EDQUOT: planner.Impossible, syscall.EFBIG: planner.Impossible,
		syscall.EROFS: planner.Forbidden, syscall.EACCES: planner.Forbidden, syscall.EPERM: planner.Forbidden,
		syscall.ENOENT: planner.NotFound, syscall.ENOTDIR: planner.NotFound, syscall.EISDIR: planner.NotFound,
	} {
		wrapped := fmt.Errorf("open: %w", &fs.PathError{Op: "open", Path: "p", Err: err})
		var e *planner.Error
		if !errors.As(explain("club.db", wrapped), &e) {
			t.Errorf("%v has no words", err)
			continue
		}
		if e.Kind != want || e.Hint == "" || !errors.Is(e, err) {
			t.Errorf("%v: kind %q, hint %q, cause %v", err, e.Kind, e.Hint, e.Cause)
		}
	}
}

// What no person can mend stays as it is, and words once found are kept.
func TestExplainLeavesOthersAlone(t *testing.T) {
	known := planner.Errorf(planner.Conflict, "", "taken")
	for _, err := range []error{context.Canceled, errors.New("x"), known, nil} {
		if got := explain("p", err); got != err {
			t.Errorf("explain(%v) = %v", err, got)
		}
	}
	s := fresh(t)
	_, err := s.writer.ExecContext(t.Context(), `UPDATE origin SET world = 'moon'`)
	if got := explain("p", err); err == nil || got != err {
		t.Errorf("a broken constraint became %v", got)
	}
}
