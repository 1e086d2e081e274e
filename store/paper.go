package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// ClassTable is the list of bodyweight classes that the club enters.
type ClassTable struct {
	Name    string       // of the rule book it was read in
	Since   planner.Date // since when it holds; zero: not told
	Classes map[planner.Category][]planner.Class
}

// ClassTable returns the club's classes; no Classes where none were told.
func (t *Tx) ClassTable() (ClassTable, error) {
	c := ClassTable{Classes: map[planner.Category][]planner.Class{}}
	r, err := t.q.ClassTable(t.ctx)
	if absent(err) {
		return c, nil
	}
	if err != nil {
		return c, err
	}
	c.Name, c.Since = r.Name, r.SinceDay.Date()
	rows, err := t.q.ClassLimits(t.ctx)
	for _, l := range rows {
		k := planner.Category(l.Category)
		c.Classes[k] = append(c.Classes[k], planner.Class{Limit: l.LimitG, Plus: l.ClassPlus})
	}
	return c, err
}

// SaveClassTable replaces the club's classes.
func (t *Tx) SaveClassTable(c ClassTable) error {
	if err := t.q.EraseClassLimits(t.ctx); err != nil {
		return err
	}
	if len(c.Classes) == 0 {
		return t.q.EraseClassTable(t.ctx)
	}
	if err := t.q.SaveClassTable(t.ctx, sqlgen.SaveClassTableParams{Name: c.Name, SinceDay: column.Day(c.Since)}); err != nil {
		return err
	}
	for k, all := range c.Classes {
		for _, x := range all {
			p := sqlgen.AddClassLimitParams{Category: string(k), LimitG: x.Limit, ClassPlus: x.Plus}
			if err := t.q.AddClassLimit(t.ctx, p); err != nil {
				return err
			}
		}
	}
	return nil
}

// Licence returns the last day of a lifter's licence; zero where none was told.
func (t *Tx) Licence(lifter planner.LifterID) (planner.Date, error) {
	day, err := t.q.Licence(t.ctx, lifter)
	if absent(err) {
		return 0, nil
	}
	return day.Date(), err
}

// SaveLicence keeps the last day of a lifter's licence; zero forgets it.
func (t *Tx) SaveLicence(lifter planner.LifterID, until planner.Date) error {
	if until.IsZero() {
		return t.q.DropLicence(t.ctx, lifter)
	}
	err := t.q.SaveLicence(t.ctx, sqlgen.SaveLicenceParams{LifterID: lifter, UntilDay: column.Day(until)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Roster is where a lifter has to be at a meet.
type Roster struct{ Session, Flight, Travel string }

// Roster returns what is known of a meet's entry; zero where nothing is.
func (t *Tx) Roster(meet planner.MeetID) (Roster, error) {
	r, err := t.q.Roster(t.ctx, column.Meet(meet))
	if absent(err) {
		return Roster{}, nil
	}
	return Roster{r.Session, r.Flight, r.Travel}, err
}

// SaveRoster keeps it.
func (t *Tx) SaveRoster(meet planner.MeetID, r Roster) error {
	return t.q.SaveRoster(t.ctx, sqlgen.SaveRosterParams{MeetID: column.Meet(meet), Session: r.Session, Flight: r.Flight, Travel: r.Travel})
}

// Review counts the attempts missed at a meet, by reason.
type Review struct{ Strength, Technique, Command int }

// Review returns a meet's review; false where none was told.
func (t *Tx) Review(meet planner.MeetID) (Review, bool, error) {
	r, err := t.q.Review(t.ctx, column.Meet(meet))
	if absent(err) {
		return Review{}, false, nil
	}
	return Review{int(r.Strength), int(r.Technique), int(r.Command)}, err == nil, err
}

// SaveReview keeps a meet's review in place of an earlier one.
func (t *Tx) SaveReview(meet planner.MeetID, r Review, now time.Time) error {
	return t.q.SaveReview(t.ctx, sqlgen.SaveReviewParams{MeetID: column.Meet(meet), Strength: int64(r.Strength), Technique: int64(r.Technique),
		Command: int64(r.Command), ToldMs: column.At(now)})
}
