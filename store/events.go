package store

import (
	"time"

	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// FreshEvent keeps the id of an event and tells whether it had not been seen.
// In one transaction with the work of the event it makes a replay harmless.
func (t *Tx) FreshEvent(id string, now time.Time) (bool, error) {
	n, err := t.q.FreshEvent(t.ctx, sqlgen.FreshEventParams{ID: id, SeenMs: column.At(now)})
	return n == 1, err
}

// ForgetEvents deletes the ids seen before a moment: the platform does not
// replay older ones.
func (t *Tx) ForgetEvents(before time.Time) error {
	_, err := t.q.ForgetEvents(t.ctx, column.At(before))
	return err
}
