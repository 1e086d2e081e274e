package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// NudgeOff returns the kinds of nudge a lifter does not want.
func (t *Tx) NudgeOff(lifter planner.LifterID) (map[string]bool, error) {
	kinds, err := t.q.NudgesOff(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	off := make(map[string]bool, len(kinds))
	for _, k := range kinds {
		off[k] = true
	}
	return off, nil
}

// SetNudge turns a kind of nudge on or off for a lifter.
func (t *Tx) SetNudge(lifter planner.LifterID, kind string, on bool) error {
	if on {
		return t.q.TurnNudgeOn(t.ctx, sqlgen.TurnNudgeOnParams{LifterID: lifter, Kind: kind})
	}
	err := t.q.TurnNudgeOff(t.ctx, sqlgen.TurnNudgeOffParams{LifterID: lifter, Kind: kind})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Snooze keeps a fact quiet until a moment; a later call replaces it.
func (t *Tx) Snooze(lifter planner.LifterID, key string, until time.Time) error {
	err := t.q.Snooze(t.ctx, sqlgen.SnoozeParams{LifterID: lifter, Key: key, UntilMs: column.At(until)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Snoozes returns until when each fact of a lifter is kept quiet, past ones too.
func (t *Tx) Snoozes(lifter planner.LifterID) (map[string]time.Time, error) {
	rows, err := t.q.Snoozes(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	until := make(map[string]time.Time, len(rows))
	for _, r := range rows {
		until[r.Key] = r.UntilMs.Time
	}
	return until, nil
}
