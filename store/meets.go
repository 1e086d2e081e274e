package store

import (
	"slices"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// AddMeet enters a lifter in a meet and returns the entry's number; m.ID is
// ignored. Conflict where the lifter has an entry of that name on that day; two
// entries on one day are legal.
func (t *Tx) AddMeet(m planner.Meet, now time.Time) (planner.MeetID, error) {
	p := meetColumns(m, now)
	id, err := t.q.AddMeet(t.ctx, sqlgen.AddMeetParams{
		LifterID: p.LifterID, Name: p.Name, Day: p.Day, Kind: p.Kind, Event: p.Event, Equipment: p.Equipment,
		RuleSet: p.RuleSet, WeighInHours: p.WeighInHours, ClassLimitG: p.ClassLimitG, ClassPlus: p.ClassPlus,
		QualifyingG: p.QualifyingG, EntryClosesDay: p.EntryClosesDay, Place: p.Place, Zone: p.Zone,
		HandlerID: p.HandlerID, Entered: p.Entered, ResultTotalG: p.ResultTotalG, ResultEntered: p.ResultEntered,
		AddedMs: column.At(now), ChangedMs: p.ChangedMs,
	})
	return id, meetError(m, err)
}

// SaveMeet replaces everything known about the entry m.ID. NotFound where it was
// dropped or belongs to another lifter.
func (t *Tx) SaveMeet(m planner.Meet, now time.Time) error {
	n, err := t.q.SaveMeet(t.ctx, meetColumns(m, now))
	if err == nil && n == 0 {
		return noMeet(m.ID)
	}
	return meetError(m, err)
}

// DropMeet takes an entry off the calendar. The row stays, marked, because plans
// were made for it.
func (t *Tx) DropMeet(id planner.MeetID, now time.Time) error {
	n, err := t.q.DropMeet(t.ctx, sqlgen.DropMeetParams{DroppedMs: column.At(now), ID: id})
	if err == nil && n == 0 {
		return noMeet(id)
	}
	return err
}

// Meets returns the lifter's entries by date, past ones too, without the dropped.
func (t *Tx) Meets(lifter planner.LifterID) ([]planner.Meet, error) {
	type key struct{ lifter planner.LifterID }
	all, err := recall(t, key{lifter}, func() ([]planner.Meet, error) {
		rows, err := t.q.Meets(t.ctx, lifter)
		return each(rows, meet), err
	})
	if err != nil {
		return nil, err
	}
	return slices.Clone(all), nil
}

// AllMeets returns everybody's entries by date, without the dropped.
func (t *Tx) AllMeets() ([]planner.Meet, error) {
	rows, err := t.q.AllMeets(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, meet), nil
}

func meetError(m planner.Meet, err error) error {
	switch {
	case taken(err):
		return planner.Errorf(planner.Conflict, "Give the second entry another name.",
			"%s on %s is on the calendar already", m.Name, m.Date)
	case dangling(err):
		return planner.Errorf(planner.NotFound, "", "the lifter or the handler of %s is not a member", m.Name)
	}
	return err
}

func noMeet(id planner.MeetID) *planner.Error {
	return planner.Errorf(planner.NotFound, "", "no meet on the calendar has the number %d", id)
}

func meet(r sqlgen.Meet) planner.Meet {
	return planner.Meet{
		ID: r.ID, Lifter: r.LifterID, Name: r.Name, Date: r.Day.Date(), Kind: planner.MeetKind(r.Kind),
		Event: planner.EventKind(r.Event), Equipment: planner.Equipment(r.Equipment), RuleSet: r.RuleSet,
		WeighInHours: int(r.WeighInHours), Class: planner.Class{Limit: r.ClassLimitG, Plus: r.ClassPlus},
		Qualifying: r.QualifyingG, EntryCloses: r.EntryClosesDay.Date(), Place: r.Place, Zone: r.Zone,
		Handler: r.HandlerID.ID(), Entered: r.Entered, ResultTotal: r.ResultTotalG, ResultEntered: r.ResultEntered,
	}
}

func meetColumns(m planner.Meet, now time.Time) sqlgen.SaveMeetParams {
	return sqlgen.SaveMeetParams{
		Name: m.Name, Day: column.Day(m.Date), Kind: string(m.Kind), Event: string(m.Event),
		Equipment: string(m.Equipment), RuleSet: m.RuleSet, WeighInHours: int64(m.WeighInHours),
		ClassLimitG: m.Class.Limit, ClassPlus: m.Class.Plus, QualifyingG: m.Qualifying,
		EntryClosesDay: column.Day(m.EntryCloses), Place: m.Place, Zone: m.Zone, HandlerID: column.Lifter(m.Handler),
		Entered: m.Entered, ResultTotalG: m.ResultTotal, ResultEntered: m.ResultEntered, ChangedMs: column.At(now),
		ID: m.ID, LifterID: m.Lifter,
	}
}
