package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// AwayID identifies one time away.
type AwayID int64

// Away is a time without training, as somebody told it: first and last day, both
// inclusive. Why is never asked and has no place here.
type Away struct {
	ID     AwayID
	Lifter planner.LifterID
	From   planner.Date
	To     planner.Date     // zero: not back yet
	By     planner.LifterID // who told it; 0: somebody who was erased
	Told   time.Time
}

// AddAway keeps a time away and returns its number; a.ID is ignored.
func (t *Tx) AddAway(a Away, now time.Time) (AwayID, error) {
	id, err := t.q.AddAway(t.ctx, sqlgen.AddAwayParams{
		LifterID: a.Lifter, FromDay: column.Day(a.From), ToDay: column.Day(a.To), ByID: column.Lifter(a.By), ToldMs: column.At(now),
	})
	if dangling(err) {
		return 0, noLifter(a.Lifter)
	}
	return AwayID(id), err
}

// EndAway says which day was the last of a time away. NotFound where it was
// taken back.
func (t *Tx) EndAway(id AwayID, to planner.Date) error {
	n, err := t.q.EndAway(t.ctx, sqlgen.EndAwayParams{ToDay: column.Day(to), ID: int64(id)})
	return oneAway(n, err)
}

// DropAway takes a time away back, as if it had never been told.
func (t *Tx) DropAway(id AwayID) error {
	n, err := t.q.DropAway(t.ctx, int64(id))
	return oneAway(n, err)
}

func oneAway(n int64, err error) error {
	if err == nil && n == 0 {
		return planner.Errorf(planner.NotFound, "", "that time away was taken back already")
	}
	return err
}

// Aways returns a lifter's times away, oldest first, those to come too.
func (t *Tx) Aways(lifter planner.LifterID) ([]Away, error) {
	type key struct{ lifter planner.LifterID }
	rows, err := recall(t, key{lifter}, func() ([]sqlgen.Away, error) { return t.q.Aways(t.ctx, lifter) })
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Away) Away {
		return Away{ID: AwayID(r.ID), Lifter: r.LifterID, From: r.FromDay.Date(), To: r.ToDay.Date(), By: r.ByID.ID(), Told: r.ToldMs.Time}
	}), nil
}

// LiftOff is a competition lift that is off a lifter's plan: from From up to the
// day before Until. Why is never asked and has no place here.
type LiftOff struct {
	Lifter planner.LifterID
	Lift   planner.Lift
	From   planner.Date
	Until  planner.Date // the day on which it is back
	By     planner.LifterID
}

// TakeLiftOff takes a lift off the plan; a later call for the same lift replaces
// the dates.
func (t *Tx) TakeLiftOff(o LiftOff, now time.Time) error {
	err := t.q.TakeLiftOff(t.ctx, sqlgen.TakeLiftOffParams{
		LifterID: o.Lifter, Lift: string(o.Lift), FromDay: column.Day(o.From), UntilDay: column.Day(o.Until),
		ByID: column.Lifter(o.By), ToldMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(o.Lifter)
	}
	return err
}

// PutLiftBack ends a lift's time off at once and tells whether it was off.
func (t *Tx) PutLiftBack(lifter planner.LifterID, lift planner.Lift) (bool, error) {
	n, err := t.q.PutLiftBack(t.ctx, sqlgen.PutLiftBackParams{LifterID: lifter, Lift: string(lift)})
	return n > 0, err
}

// LiftsOff returns the lifts that are off a lifter's plan on a day.
func (t *Tx) LiftsOff(lifter planner.LifterID, on planner.Date) ([]LiftOff, error) {
	all, err := t.AllLiftsOff(lifter)
	var off []LiftOff
	for _, o := range all {
		if o.From <= on && on < o.Until {
			off = append(off, o)
		}
	}
	return off, err
}

// AllLiftsOff returns the lifts that are, were or will be off a lifter's plan.
func (t *Tx) AllLiftsOff(lifter planner.LifterID) ([]LiftOff, error) {
	type key struct{ lifter planner.LifterID }
	rows, err := recall(t, key{lifter}, func() ([]sqlgen.LiftsOff, error) { return t.q.LiftsOff(t.ctx, lifter) })
	return each(rows, func(r sqlgen.LiftsOff) LiftOff {
		return LiftOff{Lifter: r.LifterID, Lift: planner.Lift(r.Lift), From: r.FromDay.Date(), Until: r.UntilDay.Date(), By: r.ByID.ID()}
	}), err
}
