package store

import (
	"slices"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// MarkLeft notes that a lifter has left the club: nothing is told to or about them
// any more. What they had chosen is kept for their return.
func (t *Tx) MarkLeft(id, by planner.LifterID, now time.Time) error {
	l, err := t.Lifter(id)
	if err != nil {
		return err
	}
	public, err := t.LifterPublic(id)
	if err != nil {
		return err
	}
	p := sqlgen.MarkLeftParams{LifterID: id, Nudges: string(l.Nudges), PublicOk: public, ByID: column.Lifter(by), AtMs: column.At(now)}
	if err := t.q.MarkLeft(t.ctx, p); err != nil {
		return err
	}
	l.Nudges = planner.Ask
	if err := t.SaveLifter(l, now); err != nil {
		return err
	}
	if err := t.q.WakeForWards(t.ctx, column.Lifter(id)); err != nil {
		return err
	}
	return t.SetLifterPublic(id, false)
}

// Left tells when a lifter left; false where they are here.
func (t *Tx) Left(id planner.LifterID) (time.Time, bool, error) {
	r, err := t.q.Left(t.ctx, id)
	if absent(err) {
		return time.Time{}, false, nil
	}
	return r.AtMs.Time, err == nil, err
}

// Members returns the lifters who are here, in the order in which they joined:
// everybody but those who have left.
func (t *Tx) Members() ([]planner.Lifter, error) {
	all, err := t.Lifters()
	if err != nil {
		return nil, err
	}
	left, err := t.q.Leavers(t.ctx)
	return slices.DeleteFunc(all, func(l planner.Lifter) bool { return slices.Contains(left, l.ID) }), err
}

// Returned notes that a lifter who left is back, with what they had chosen, and tells
// whether they had left.
func (t *Tx) Returned(id planner.LifterID, now time.Time) (bool, error) {
	r, err := t.q.Left(t.ctx, id)
	if absent(err) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	l, err := t.Lifter(id)
	if err != nil {
		return false, err
	}
	l.Nudges = planner.Where(r.Nudges)
	if err := t.SaveLifter(l, now); err != nil {
		return false, err
	}
	if err := t.SetLifterPublic(id, r.PublicOk); err != nil {
		return false, err
	}
	n, err := t.q.ForgetLeft(t.ctx, id)
	if err != nil {
		return false, err
	}
	return n > 0, t.q.WakeForWards(t.ctx, column.Lifter(id))
}

// EraseLeft erases everybody who left at or before a moment, and returns how many.
func (t *Tx) EraseLeft(before time.Time) (int, error) {
	all, err := t.q.LeftBefore(t.ctx, column.At(before))
	if err != nil {
		return 0, err
	}
	for _, id := range all {
		if err := t.EraseLifter(id); err != nil {
			return 0, err
		}
	}
	return len(all), nil
}

// Unreachable lists the handles of those to whom a direct message could not be sent
// for the given reason since a moment.
func (t *Tx) Unreachable(reason string, since time.Time) ([]string, error) {
	return t.q.Unreachable(t.ctx, sqlgen.UnreachableParams{Reason: reason, SinceMs: column.At(since)})
}
