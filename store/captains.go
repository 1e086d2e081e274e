package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Appoint makes a lifter a captain whatever the workspace says of them.
func (t *Tx) Appoint(lifter, by planner.LifterID, now time.Time) error {
	err := t.q.Appoint(t.ctx, sqlgen.AppointParams{LifterID: lifter, ByID: column.Lifter(by), AtMs: column.At(now)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Dismiss ends an appointment and tells whether there was one.
func (t *Tx) Dismiss(lifter planner.LifterID) (bool, error) {
	n, err := t.q.Dismiss(t.ctx, lifter)
	return n > 0, err
}

// Appointed tells whether a captain appointed the lifter.
func (t *Tx) Appointed(lifter planner.LifterID) (bool, error) {
	n, err := t.q.Appointed(t.ctx, lifter)
	return n > 0, err
}
