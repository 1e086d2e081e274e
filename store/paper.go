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

// Licence is a lifter's right to compete.
type Licence struct {
	Until  planner.Date // its last day; zero: not told
	Number string       // for the lifter's own eyes; empty: not told
}

// Licence returns a lifter's licence; zero where none was told.
func (t *Tx) Licence(lifter planner.LifterID) (Licence, error) {
	r, err := t.q.Licence(t.ctx, lifter)
	if absent(err) {
		return Licence{}, nil
	}
	return Licence{r.UntilDay.Date(), r.Number}, err
}

// SaveLicence keeps a lifter's licence; one without a last day forgets it.
func (t *Tx) SaveLicence(lifter planner.LifterID, l Licence) error {
	if l.Until.IsZero() {
		return t.q.DropLicence(t.ctx, lifter)
	}
	err := t.q.SaveLicence(t.ctx, sqlgen.SaveLicenceParams{LifterID: lifter, UntilDay: column.Day(l.Until), Number: l.Number})
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

// Review is what a lifter says of a meet that is over.
type Review struct {
	Strength, Technique, Command int // attempts missed, by reason
	// The heaviest good attempt of each lift, where LiftsTold; 0: none was good.
	LiftsTold              bool
	Squat, Bench, Deadlift planner.Grams
	// What the log and the plan let expect of the total the day before; 0: nothing.
	ExpectedLow, ExpectedHigh planner.Grams
	Well, NextTime            string // short words: what went well, what to do otherwise
}

// Review returns a meet's review; false where none was told.
func (t *Tx) Review(meet planner.MeetID) (Review, bool, error) {
	r, err := t.q.Review(t.ctx, column.Meet(meet))
	if absent(err) {
		return Review{}, false, nil
	}
	return Review{int(r.Strength), int(r.Technique), int(r.Command), r.LiftsTold != 0, r.SquatG, r.BenchG, r.DeadliftG,
		r.ExpectedLowG, r.ExpectedHighG, r.Well, r.NextTime}, err == nil, err
}

// SaveReview keeps a meet's review in place of an earlier one.
func (t *Tx) SaveReview(meet planner.MeetID, r Review, now time.Time) error {
	told := int64(0)
	if r.LiftsTold {
		told = 1
	}
	return t.q.SaveReview(t.ctx, sqlgen.SaveReviewParams{MeetID: column.Meet(meet), Strength: int64(r.Strength), Technique: int64(r.Technique),
		Command: int64(r.Command), ToldMs: column.At(now), LiftsTold: told, SquatG: r.Squat, BenchG: r.Bench, DeadliftG: r.Deadlift,
		ExpectedLowG: r.ExpectedLow, ExpectedHighG: r.ExpectedHigh, Well: r.Well, NextTime: r.NextTime})
}

// DropReview forgets a meet's review.
func (t *Tx) DropReview(meet planner.MeetID) error { return t.q.DropReview(t.ctx, column.Meet(meet)) }
