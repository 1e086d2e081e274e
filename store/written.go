package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Written is a message that wrote sets, and when it wrote the first of them.
type Written struct {
	Message string
	At      time.Time
	Sets    []planner.Set
}

// WrittenSince returns the messages that wrote sets for the given days since a
// moment and still have some, newest first. Files that were imported are left out.
func (t *Tx) WrittenSince(lifter planner.LifterID, from, to planner.Date, since time.Time) ([]Written, error) {
	rows, err := t.q.WrittenSince(t.ctx, sqlgen.WrittenSinceParams{
		LifterID: lifter, FirstDay: column.Day(from), LastDay: column.Day(to), SinceMs: column.At(since),
	})
	if err != nil {
		return nil, err
	}
	var all []Written
	for _, r := range rows {
		if n := len(all); n == 0 || all[n-1].Message != r.Message {
			all = append(all, Written{Message: r.Message})
		}
		w := &all[len(all)-1]
		w.At = r.WrittenMs.Time
		w.Sets = append(w.Sets, set(r))
	}
	return all, nil
}

// RecentPage returns n of the lifter's sets, newest day first, after passing over
// the given number of them.
func (t *Tx) RecentPage(lifter planner.LifterID, skip, n int) ([]planner.Set, error) {
	return sets(t.q.RecentPage(t.ctx, sqlgen.RecentPageParams{LifterID: lifter, Limit: int64(n), Offset: int64(skip)}))
}

// FirstForm returns what a set of the log was before anybody corrected it.
func (t *Tx) FirstForm(lifter planner.LifterID, s planner.Set) (planner.Set, error) {
	was, err := t.SetHistory(lifter, s.Day, s.Seq)
	if err != nil || len(was) == 0 {
		return s, err
	}
	return was[0].Former, nil
}

// LiftersOfMessage lists whose sets came with a message: its author's, or those that
// a coach logged for.
func (t *Tx) LiftersOfMessage(message string) ([]planner.LifterID, error) {
	return t.q.LiftersOfMessage(t.ctx, message)
}
