package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// PinID identifies one pin.
type PinID int64

// Pin is something about one season's blocks that a person fixed. Number, Kind,
// Start and Weeks may be unset but not all; unset means any.
type Pin struct {
	ID     PinID
	Lifter planner.LifterID
	Number int               // of the block in the season, from 1, finished blocks counted
	Kind   planner.BlockKind // that block is of this kind
	Start  planner.Date      // a block begins in the training week of this day
	Weeks  int               // its length
	Until  planner.Date      // the last day on which the pin counts
	By     planner.LifterID
}

// AddPin keeps a pin and returns its number; p.ID is ignored.
func (t *Tx) AddPin(p Pin, now time.Time) (PinID, error) {
	id, err := t.q.AddPin(t.ctx, sqlgen.AddPinParams{
		LifterID: p.Lifter, Number: int64(p.Number), Kind: string(p.Kind), StartDay: column.Day(p.Start), Weeks: int64(p.Weeks),
		UntilDay: column.Day(p.Until), ByID: column.Lifter(p.By), SetMs: column.At(now),
	})
	if dangling(err) {
		return 0, noLifter(p.Lifter)
	}
	return PinID(id), err
}

// DropPin forgets a pin of a lifter and tells whether there was one.
func (t *Tx) DropPin(lifter planner.LifterID, id PinID) (bool, error) {
	n, err := t.q.DropPin(t.ctx, sqlgen.DropPinParams{ID: int64(id), LifterID: lifter})
	return n > 0, err
}

// Pins returns what is fixed about a lifter's season on a day, in the order in
// which it was fixed.
func (t *Tx) Pins(lifter planner.LifterID, on planner.Date) ([]Pin, error) {
	rows, err := t.q.Pins(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	var pins []Pin
	for _, r := range rows {
		if r.UntilDay.Date() >= on {
			pins = append(pins, Pin{ID: PinID(r.ID), Lifter: r.LifterID, Number: int(r.Number), Kind: planner.BlockKind(r.Kind),
				Start: r.StartDay.Date(), Weeks: int(r.Weeks), Until: r.UntilDay.Date(), By: r.ByID.ID()})
		}
	}
	return pins, nil
}

// Bound is the longest that blocks of a kind may be, in weeks; 0 forbids the kind.
type Bound struct {
	Lifter planner.LifterID // 0: a rule of the club
	Kind   planner.BlockKind
	Most   int
	By     planner.LifterID
}

// SetBound keeps a bound; a later one for the same lifter and kind replaces it.
func (t *Tx) SetBound(b Bound, now time.Time) error {
	err := t.q.SetBound(t.ctx, sqlgen.SetBoundParams{
		LifterID: column.Lifter(b.Lifter), Kind: string(b.Kind), Most: int64(b.Most), ByID: column.Lifter(b.By), SetMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(b.Lifter)
	}
	return err
}

// DropBound forgets a lifter's bound, or the club's for lifter 0, and tells
// whether there was one.
func (t *Tx) DropBound(lifter planner.LifterID, kind planner.BlockKind) (bool, error) {
	n, err := t.q.DropBound(t.ctx, sqlgen.DropBoundParams{LifterID: column.Lifter(lifter), Kind: string(kind)})
	return n > 0, err
}

// Bounds returns the club's bounds and those of a lifter; for lifter 0 only the
// club's.
func (t *Tx) Bounds(lifter planner.LifterID) ([]Bound, error) {
	rows, err := t.q.Bounds(t.ctx, column.Lifter(lifter))
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Bound) Bound {
		return Bound{Lifter: r.LifterID.ID(), Kind: planner.BlockKind(r.Kind), Most: int(r.Most), By: r.ByID.ID()}
	}), nil
}
