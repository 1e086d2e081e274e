package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Change says what became of a set.
type Change string

// A set is corrected in place, moved to another day, or dropped.
const (
	Fixed   Change = "fixed"
	Moved   Change = "moved"
	Dropped Change = "dropped"
)

// SetChange is what a set was before somebody changed it.
type SetChange struct {
	Former planner.Set
	Change Change
	By     planner.LifterID // 0: not known
	At     time.Time
}

// FixSet puts s in the place of a set and keeps the former in the history. Where
// s names another day the set moves there, at that day's end.
func (t *Tx) FixSet(lifter planner.LifterID, day planner.Date, seq int, s planner.Set, by planner.LifterID, now time.Time) error {
	former, err := t.set(lifter, day, seq)
	if err != nil {
		return err
	}
	if !s.Day.IsZero() && s.Day != day {
		return t.moveSet(former, s, by, now)
	}
	if err := t.keepSet(former, Fixed, by, now); err != nil {
		return err
	}
	return t.q.FixSet(t.ctx, sqlgen.FixSetParams{
		Lift: string(s.Lift), Variant: string(s.Variant), WeightG: s.Weight, Reps: int64(s.Reps), Sets: int64(s.Sets),
		Reserve: s.Reserve, Missed: s.Missed, Gear: string(s.Gear), Pending: s.Pending,
		LifterID: lifter, Day: column.Day(day), Seq: int64(seq),
	})
}

func (t *Tx) moveSet(former sqlgen.Set, s planner.Set, by planner.LifterID, now time.Time) error {
	if err := t.takeSet(former, Moved, by, now); err != nil {
		return err
	}
	_, err := t.AddSets(former.LifterID, former.Message, []planner.Set{s}, now)
	return err
}

// DropSet takes a set out of the log and keeps it in the history.
func (t *Tx) DropSet(lifter planner.LifterID, day planner.Date, seq int, by planner.LifterID, now time.Time) error {
	former, err := t.set(lifter, day, seq)
	if err != nil {
		return err
	}
	return t.takeSet(former, Dropped, by, now)
}

// takeSet moves a set from the log to the history.
func (t *Tx) takeSet(former sqlgen.Set, change Change, by planner.LifterID, now time.Time) error {
	if err := t.keepSet(former, change, by, now); err != nil {
		return err
	}
	return t.q.DropSet(t.ctx, sqlgen.DropSetParams{LifterID: former.LifterID, Day: former.Day, Seq: former.Seq})
}

// SetHistory returns the former forms of a set, oldest first.
func (t *Tx) SetHistory(lifter planner.LifterID, day planner.Date, seq int) ([]SetChange, error) {
	rows, err := t.q.SetHistory(t.ctx, sqlgen.SetHistoryParams{LifterID: lifter, Day: column.Day(day), Seq: int64(seq)})
	if err != nil {
		return nil, err
	}
	return each(rows, setChange), nil
}

func (t *Tx) set(lifter planner.LifterID, day planner.Date, seq int) (sqlgen.Set, error) {
	r, err := t.q.Set(t.ctx, sqlgen.SetParams{LifterID: lifter, Day: column.Day(day), Seq: int64(seq)})
	if absent(err) {
		return r, planner.Errorf(planner.NotFound, "Look at the recent sets and name one of them.",
			"there is no set number %d on %s", seq, day)
	}
	return r, err
}

func (t *Tx) keepSet(r sqlgen.Set, change Change, by planner.LifterID, now time.Time) error {
	err := t.q.KeepSet(t.ctx, sqlgen.KeepSetParams{
		LifterID: r.LifterID, Day: r.Day, Seq: r.Seq, Message: r.Message, Lift: r.Lift, Variant: r.Variant,
		WeightG: r.WeightG, Reps: r.Reps, Sets: r.Sets, Reserve: r.Reserve, Missed: r.Missed, Gear: r.Gear,
		Pending: r.Pending, WrittenMs: r.WrittenMs, Change: string(change), ByID: column.Lifter(by), ChangedMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(by)
	}
	return err
}

func setChange(r sqlgen.SetHistory) SetChange {
	return SetChange{
		Former: set(sqlgen.Set{
			Day: r.Day, Seq: r.Seq, Lift: r.Lift, Variant: r.Variant, WeightG: r.WeightG, Reps: r.Reps, Sets: r.Sets,
			Reserve: r.Reserve, Missed: r.Missed, Gear: r.Gear, Pending: r.Pending,
		}),
		Change: Change(r.Change), By: r.ByID.ID(), At: r.ChangedMs.Time,
	}
}
