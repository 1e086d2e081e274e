package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// NudgeTimes is when a lifter wants to be told things directly.
type NudgeTimes struct {
	Own          bool // has an hour of their own; otherwise the club's
	Hour, Minute int
	Quiet        [7]bool   // by weekday, Sunday first: days without direct messages
	Paused       time.Time // nothing personal that can wait before this moment
}

// NudgeTimes returns what a lifter chose; the zero value where nothing.
func (t *Tx) NudgeTimes(lifter planner.LifterID) (NudgeTimes, error) {
	r, err := t.q.NudgeTimes(t.ctx, lifter)
	if absent(err) {
		return NudgeTimes{}, nil
	}
	if err != nil {
		return NudgeTimes{}, err
	}
	n := NudgeTimes{Paused: r.PausedMs.Time}
	if r.Hour != nil && r.Minute != nil {
		n.Own, n.Hour, n.Minute = true, int(*r.Hour), int(*r.Minute)
	}
	for day := range n.Quiet {
		n.Quiet[day] = r.Quiet&(1<<day) != 0
	}
	return n, nil
}

// SaveNudgeTimes keeps what a lifter chose.
func (t *Tx) SaveNudgeTimes(lifter planner.LifterID, n NudgeTimes) error {
	row := sqlgen.SaveNudgeTimesParams{LifterID: lifter, PausedMs: column.At(n.Paused)}
	if n.Own {
		hour, minute := int64(n.Hour), int64(n.Minute)
		row.Hour, row.Minute = &hour, &minute
	}
	for day, quiet := range n.Quiet {
		if quiet {
			row.Quiet |= 1 << day
		}
	}
	err := t.q.SaveNudgeTimes(t.ctx, row)
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}
