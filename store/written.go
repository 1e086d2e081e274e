package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Written is a message that wrote sets, and when.
type Written struct {
	Message string
	At      time.Time
	Sets    []planner.Set
}

// WrittenSince returns the messages that wrote sets since a moment and still have
// some, newest first. Files that were imported are left out.
func (t *Tx) WrittenSince(lifter planner.LifterID, since time.Time) ([]Written, error) {
	rows, err := t.q.WrittenSince(t.ctx, sqlgen.WrittenSinceParams{LifterID: lifter, SinceMs: column.At(since)})
	if err != nil {
		return nil, err
	}
	var all []Written
	for _, r := range rows {
		if n := len(all); n > 0 && all[n-1].Message == r.Message {
			continue
		}
		sets, err := t.SetsOfMessage(lifter, r.Message)
		if err != nil {
			return nil, err
		}
		all = append(all, Written{Message: r.Message, At: r.WrittenMs.Time, Sets: sets})
	}
	return all, nil
}
