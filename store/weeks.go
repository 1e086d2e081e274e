package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// WeekChange is a change to a lifter's weeks that stays when a week is made again.
type WeekChange struct {
	ID       int64
	By       planner.LifterID // 0: somebody who was erased
	Override load.Override
}

// AddWeekChange keeps a change and returns its number.
func (t *Tx) AddWeekChange(lifter planner.LifterID, o load.Override, by planner.LifterID, now time.Time) (int64, error) {
	body, err := json.Marshal(o)
	if err != nil {
		return 0, err
	}
	id, err := t.q.AddWeekChange(t.ctx, sqlgen.AddWeekChangeParams{LifterID: lifter, ByID: column.Lifter(by), ChangeJson: body, SetMs: column.At(now)})
	if dangling(err) {
		return 0, noLifter(lifter)
	}
	return id, err
}

// WeekChanges returns a lifter's changes, oldest first.
func (t *Tx) WeekChanges(lifter planner.LifterID) ([]WeekChange, error) {
	rows, err := t.q.WeekChanges(t.ctx, lifter)
	var all []WeekChange
	for _, r := range rows {
		c := WeekChange{ID: r.ID, By: r.ByID.ID()}
		if err := json.Unmarshal(r.ChangeJson, &c.Override); err != nil {
			return nil, err
		}
		all = append(all, c)
	}
	return all, err
}

// DropWeekChange takes a change away and tells whether it was there.
func (t *Tx) DropWeekChange(lifter planner.LifterID, id int64) (bool, error) {
	n, err := t.q.DropWeekChange(t.ctx, sqlgen.DropWeekChangeParams{LifterID: lifter, ID: id})
	return n > 0, err
}

// TrainingWeek is a training week as it was made.
type TrainingWeek struct {
	Start planner.Date
	Basis string          // a digest of what it was made from, but for the log
	Plan  json.RawMessage // as the planner of loads made it
	Edits json.RawMessage // what the lifter changed in it; a JSON list
}

// TrainingWeek returns the week of a lifter that was made with that first day, and
// false where none was.
func (t *Tx) TrainingWeek(lifter planner.LifterID, start planner.Date) (TrainingWeek, bool, error) {
	r, err := t.q.TrainingWeek(t.ctx, sqlgen.TrainingWeekParams{LifterID: lifter, StartDay: column.Day(start)})
	if absent(err) {
		return TrainingWeek{}, false, nil
	}
	return TrainingWeek{start, r.Basis, json.RawMessage(r.PlanJson), json.RawMessage(r.EditsJson)}, err == nil, err
}

// SaveTrainingWeek keeps a week; one with the same first day is replaced.
func (t *Tx) SaveTrainingWeek(lifter planner.LifterID, w TrainingWeek, now time.Time) error {
	err := t.q.SaveTrainingWeek(t.ctx, sqlgen.SaveTrainingWeekParams{
		LifterID: lifter, StartDay: column.Day(w.Start), Basis: w.Basis,
		PlanJson: column.JSON(w.Plan), EditsJson: column.JSON(w.Edits), MadeMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Prescribe keeps the work of a day as it was shown; what was shown before for that
// day is replaced.
func (t *Tx) Prescribe(lifter planner.LifterID, d load.Day, now time.Time) error {
	work, err := json.Marshal(d)
	if err != nil {
		return err
	}
	err = t.q.Prescribe(t.ctx, sqlgen.PrescribeParams{LifterID: lifter, Day: column.Day(d.Date), WorkJson: work, ShownMs: column.At(now)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Unprescribe forgets what was shown for a day: its work has moved.
func (t *Tx) Unprescribe(lifter planner.LifterID, day planner.Date) error {
	return t.q.Unprescribe(t.ctx, sqlgen.UnprescribeParams{LifterID: lifter, Day: column.Day(day)})
}

// Prescribed returns the work that was shown for the days from one to another, both
// included, in order. Days that were never shown are not in it.
func (t *Tx) Prescribed(lifter planner.LifterID, from, to planner.Date) ([]load.Day, error) {
	rows, err := t.q.Prescribed(t.ctx, sqlgen.PrescribedParams{LifterID: lifter, FirstDay: column.Day(from), LastDay: column.Day(to)})
	var days []load.Day
	for _, r := range rows {
		var d load.Day
		if err := json.Unmarshal(r.WorkJson, &d); err != nil {
			return nil, err
		}
		days = append(days, d)
	}
	return days, err
}
