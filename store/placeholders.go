package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Placeholder is a lifter whom a captain put down before they joined.
type Placeholder struct {
	Lifter planner.LifterID
	Claims planner.LifterID // who says to be this lifter; 0: nobody yet
}

// AddPlaceholder marks a lifter as a placeholder.
func (t *Tx) AddPlaceholder(id planner.LifterID, now time.Time) error {
	return t.q.AddPlaceholder(t.ctx, sqlgen.AddPlaceholderParams{LifterID: id, MadeMs: column.At(now)})
}

// Placeholders lists all of them.
func (t *Tx) Placeholders() ([]Placeholder, error) {
	rows, err := t.q.Placeholders(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.PlaceholdersRow) Placeholder { return Placeholder{r.LifterID, r.ByID.ID()} }), nil
}

// Claim notes who says to be a placeholder (0: nobody); false where there is no such
// placeholder.
func (t *Tx) Claim(id, by planner.LifterID) (bool, error) {
	n, err := t.q.ClaimPlaceholder(t.ctx, sqlgen.ClaimPlaceholderParams{ByID: column.Lifter(by), LifterID: id})
	return n > 0, err
}

// MergePlaceholder moves everything that was kept for a placeholder to the real
// account, and erases the placeholder. What the account has told itself stays: bests
// are filled in only where none are told, a meet of the same name and day stays the
// account's, and plans come along only where it has none.
func (t *Tx) MergePlaceholder(from, to planner.LifterID, now time.Time) error {
	p, err := t.Lifter(from)
	if err != nil {
		return err
	}
	l, err := t.Lifter(to)
	if err != nil {
		return err
	}
	if err := t.SaveLifter(filledFrom(l, p), now); err != nil {
		return err
	}
	if err := t.q.MoveMeets(t.ctx, sqlgen.MoveMeetsParams{RealID: to, FromID: from}); err != nil {
		return err
	}
	if err := t.q.MoveAways(t.ctx, sqlgen.MoveAwaysParams{RealID: to, FromID: from}); err != nil {
		return err
	}
	if err := t.moveLog(from, to); err != nil {
		return err
	}
	if own, err := t.Plans(to); err != nil || len(own) == 0 {
		if err != nil {
			return err
		}
		if err := t.q.MovePlans(t.ctx, sqlgen.MovePlansParams{RealID: to, FromID: from}); err != nil {
			return err
		}
	}
	return t.EraseLifter(from)
}

// filledFrom fills in what a lifter has not told.
func filledFrom(l, p planner.Lifter) planner.Lifter {
	for _, g := range []struct {
		to   *planner.Grams
		from planner.Grams
	}{{&l.Squat, p.Squat}, {&l.Bench, p.Bench}, {&l.Deadlift, p.Deadlift}} {
		if *g.to == 0 {
			*g.to = g.from
		}
	}
	if l.Group == "" {
		l.Group = p.Group
	}
	if l.Coach == 0 && p.Coach != l.ID {
		l.Coach = p.Coach
	}
	if l.Level == "" {
		l.Level = p.Level
	}
	return l
}

// moveLog moves sets behind those of the same day.
func (t *Tx) moveLog(from, to planner.LifterID) error {
	days, err := t.q.DaysLogged(t.ctx, from)
	if err != nil {
		return err
	}
	for _, day := range days {
		behind, err := t.q.LastSeq(t.ctx, sqlgen.LastSeqParams{LifterID: to, Day: day})
		if err != nil {
			return err
		}
		if err := t.q.MoveSets(t.ctx, sqlgen.MoveSetsParams{RealID: to, FromID: from, Day: day, Behind: behind}); err != nil {
			return err
		}
		if err := t.q.MoveSetHistory(t.ctx, sqlgen.MoveSetHistoryParams{RealID: to, FromID: from, Day: day, Behind: behind}); err != nil {
			return err
		}
	}
	return nil
}
