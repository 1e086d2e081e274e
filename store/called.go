package store

import (
	"fmt"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// FirstCall notes that a lifter was shown the hand that says stop on a day, and
// tells whether it was the first time on it. It is kept among the events handled,
// for callKept and no longer.
func (t *Tx) FirstCall(lifter planner.LifterID, day planner.Date, now time.Time) (bool, error) {
	fresh, err := t.FreshEvent(fmt.Sprintf("hand/%d/%s", lifter, day), now)
	if err != nil || !fresh {
		return false, err
	}
	return true, t.ForgetCalls(now)
}

// callKept covers a day in any zone: after it the note is of no use.
const callKept = 36 * time.Hour

// ForgetCalls forgets on which days the hand was shown, for those that are over.
func (t *Tx) ForgetCalls(now time.Time) error {
	return t.q.ForgetCalls(t.ctx, column.At(now.Add(-callKept)))
}

// forgetCalled forgets on which day the lifter was shown the hand.
func (t *Tx) forgetCalled(lifter planner.LifterID) error {
	return t.q.ForgetEventsBetween(t.ctx, sqlgen.ForgetEventsBetweenParams{
		First: fmt.Sprintf("hand/%d/", lifter), Behind: fmt.Sprintf("hand/%d0", lifter), // 0 comes after the stroke
	})
}

// ForgetAnswers takes away the buttons of the lifter that would answer questions
// about a message: it has changed, and they no longer fit.
func (t *Tx) ForgetAnswers(lifter planner.LifterID, message string) error {
	return t.q.ForgetAnswers(t.ctx, sqlgen.ForgetAnswersParams{OwnerID: column.Lifter(lifter), Message: message})
}
