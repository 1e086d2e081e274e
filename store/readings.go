package store

import (
	"blockbell/planner"
	"blockbell/planner/strength"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Reading is what the log last said of a competition lift.
type Reading struct {
	Lift         planner.Lift
	Day          planner.Date // on which it was read
	Kg           float64      // the estimated max in the form in which it is trained; 0: not known
	Observations int          // days with sets that it rests on
	Verdict      strength.Verdict
	Reason       string       // one plain sentence
	Since        planner.Date // since when it holds or falls; zero: not told
	Stalled      planner.Date // the day on which it was first read so; zero: it is not
}

// Readings returns what was last read of a lifter's lifts.
func (t *Tx) Readings(lifter planner.LifterID) ([]Reading, error) {
	rows, err := t.q.Readings(t.ctx, lifter)
	return each(rows, func(r sqlgen.Reading) Reading {
		return Reading{Lift: planner.Lift(r.Lift), Day: r.ReadDay.Date(), Kg: r.Kg, Observations: int(r.Observations),
			Verdict: strength.Verdict(r.Verdict), Reason: r.Reason, Since: r.SinceDay.Date(), Stalled: r.StalledDay.Date()}
	}), err
}

// KeepReading keeps what was read of a lift, which then counts as read.
func (t *Tx) KeepReading(lifter planner.LifterID, r Reading) error {
	err := t.q.KeepReading(t.ctx, sqlgen.KeepReadingParams{
		LifterID: lifter, Lift: string(r.Lift), ReadDay: column.Day(r.Day), Kg: r.Kg, Observations: int64(r.Observations),
		Verdict: string(r.Verdict), Reason: r.Reason, SinceDay: column.Day(r.Since), StalledDay: column.Day(r.Stalled),
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	if err != nil {
		return err
	}
	return t.q.MarkRead(t.ctx, sqlgen.MarkReadParams{LifterID: lifter, Lift: string(r.Lift)})
}

// Unread lists the competition lifts of a lifter whose log changed since they were
// read.
func (t *Tx) Unread(lifter planner.LifterID) ([]planner.Lift, error) {
	rows, err := t.q.Unread(t.ctx, lifter)
	return each(rows, func(l string) planner.Lift { return planner.Lift(l) }), err
}

// SomeUnread tells whether anybody has an unread lift.
func (t *Tx) SomeUnread() (bool, error) {
	n, err := t.q.SomeUnread(t.ctx)
	return n > 0, err
}

// UnreadLifters lists, at most most of them, the lifters with an unread lift.
func (t *Tx) UnreadLifters(most int) ([]planner.LifterID, error) {
	return t.q.UnreadLifters(t.ctx, int64(most))
}

// PassOver takes the lifts of somebody whose log could not be read off the list of
// what is unread, until it changes again.
func (t *Tx) PassOver(lifter planner.LifterID) error { return t.q.EraseUnread(t.ctx, lifter) }

// LiftBests returns, of all days but one, the heaviest set of a lift for each variant,
// gear, number of repetitions and reserve: all that a record can be beaten by.
func (t *Tx) LiftBests(lifter planner.LifterID, lift planner.Lift, but planner.Date) ([]planner.Set, error) {
	rows, err := t.q.LiftBests(t.ctx, sqlgen.LiftBestsParams{LifterID: lifter, Lift: string(lift), Day: column.Day(but)})
	return each(rows, func(r sqlgen.LiftBestsRow) planner.Set {
		return planner.Set{Lift: lift, Variant: planner.Variant(r.Variant), Gear: planner.Equipment(r.Gear), Reps: int(r.Reps),
			Sets: 1, Reserve: r.Reserve, Weight: planner.Grams(r.WeightG)}
	}), err
}

// LiftDay returns a day's sets of a lift, in order.
func (t *Tx) LiftDay(lifter planner.LifterID, lift planner.Lift, day planner.Date) ([]planner.Set, error) {
	return sets(t.q.LiftDay(t.ctx, sqlgen.LiftDayParams{LifterID: lifter, Day: column.Day(day), Lift: string(lift)}))
}
