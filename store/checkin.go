package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// CheckIn is how a lifter said they feel on a day: Tired and Stale from 0 (rested,
// keen) to 2 (very); nil where not told.
type CheckIn struct {
	Day          planner.Date
	Tired, Stale *int
}

// AddCheckIn keeps what a lifter said on a day; what it does not tell leaves what was
// told on that day before.
func (t *Tx) AddCheckIn(lifter planner.LifterID, c CheckIn, now time.Time) error {
	err := t.q.CheckIn(t.ctx, sqlgen.CheckInParams{
		LifterID: lifter, Day: column.Day(c.Day), Tired: wide(c.Tired), Stale: wide(c.Stale), ToldMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// CheckIns returns what a lifter said from a day on, oldest first.
func (t *Tx) CheckIns(lifter planner.LifterID, from planner.Date) ([]CheckIn, error) {
	rows, err := t.q.CheckIns(t.ctx, sqlgen.CheckInsParams{LifterID: lifter, Day: column.Day(from)})
	return each(rows, func(r sqlgen.Checkin) CheckIn {
		return CheckIn{Day: r.Day.Date(), Tired: narrow(r.Tired), Stale: narrow(r.Stale)}
	}), err
}

func wide(n *int) *int64 {
	if n == nil {
		return nil
	}
	w := int64(*n)
	return &w
}

func narrow(w *int64) *int {
	if w == nil {
		return nil
	}
	n := int(*w)
	return &n
}

// Seen says who else may see a lifter's bodyweight and check-ins.
type Seen string

// The lifter's own coach, every captain, or nobody.
const (
	SeenByCoach    Seen = "coach"
	SeenByCaptains Seen = "captains"
	SeenByNobody   Seen = "nobody"
)

// BodySeenBy returns who may see a lifter's bodyweight and check-ins: the coach,
// unless the lifter chose otherwise.
func (t *Tx) BodySeenBy(lifter planner.LifterID) (Seen, error) {
	who, err := t.q.BodySeenBy(t.ctx, lifter)
	if absent(err) {
		return SeenByCoach, nil
	}
	return Seen(who), err
}

// SetBodySeenBy keeps who may see them.
func (t *Tx) SetBodySeenBy(lifter planner.LifterID, who Seen) error {
	err := t.q.SetBodySeenBy(t.ctx, sqlgen.SetBodySeenByParams{LifterID: lifter, Who: string(who)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// DropBodyweight forgets the weighing of a day and tells whether there was one.
func (t *Tx) DropBodyweight(lifter planner.LifterID, day planner.Date) (bool, error) {
	n, err := t.q.DropBodyweight(t.ctx, sqlgen.DropBodyweightParams{LifterID: lifter, Day: column.Day(day)})
	return n > 0, err
}
