package planner_test

import (
	"errors"
	"testing"

	"blockbell/planner"
)

func TestWordsAreSentenceAndHint(t *testing.T) {
	for want, e := range map[string]*planner.Error{
		"The disk is full. Make room.": planner.Errorf(planner.Conflict, "Make room.", "The disk is full"),
		"Did you mean it?":             planner.Errorf(planner.Invalid, "", "Did you mean it?"),
	} {
		if got := e.Words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	cause := errors.New("cause")
	e := &planner.Error{Sentence: "It failed", Cause: cause}
	if !errors.Is(e, cause) || e.Error() != "It failed: cause" || e.Words() != "It failed." {
		t.Errorf("%v; %s", e, e.Words())
	}
}
