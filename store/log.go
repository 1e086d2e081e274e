package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// AddSets writes the sets of one message (or command) into the log and returns
// them with their place in the day. A number within a day is never used twice,
// also when its set was dropped.
func (t *Tx) AddSets(lifter planner.LifterID, message string, sets []planner.Set, now time.Time) ([]planner.Set, error) {
	written := make([]planner.Set, 0, len(sets))
	last := map[planner.Date]int64{}
	for _, s := range sets {
		seq, known := last[s.Day]
		if !known {
			var err error
			if seq, err = t.q.LastSeq(t.ctx, sqlgen.LastSeqParams{LifterID: lifter, Day: column.Day(s.Day)}); err != nil {
				return nil, err
			}
		}
		seq++
		if err := t.addSet(lifter, message, seq, s, now); err != nil {
			return nil, err
		}
		last[s.Day] = seq
		s.Seq = int(seq)
		written = append(written, s)
	}
	return written, nil
}

func (t *Tx) addSet(lifter planner.LifterID, message string, seq int64, s planner.Set, now time.Time) error {
	err := t.q.AddSet(t.ctx, sqlgen.AddSetParams{
		LifterID: lifter, Day: column.Day(s.Day), Seq: seq, Message: message, Lift: string(s.Lift),
		Variant: string(s.Variant), WeightG: s.Weight, Reps: int64(s.Reps), Sets: int64(s.Sets), Reserve: s.Reserve,
		Missed: s.Missed, Gear: string(s.Gear), Pending: s.Pending, WrittenMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Sets returns the log from one day to another, both included, in order.
func (t *Tx) Sets(lifter planner.LifterID, from, to planner.Date) ([]planner.Set, error) {
	return sets(t.q.Sets(t.ctx, sqlgen.SetsParams{LifterID: lifter, FirstDay: column.Day(from), LastDay: column.Day(to)}))
}

// RecentSets returns the lifter's last n sets, newest day first.
func (t *Tx) RecentSets(lifter planner.LifterID, n int) ([]planner.Set, error) {
	return sets(t.q.RecentSets(t.ctx, sqlgen.RecentSetsParams{LifterID: lifter, Limit: int64(n)}))
}

// SetsOfMessage returns what one message wrote, in order.
func (t *Tx) SetsOfMessage(lifter planner.LifterID, message string) ([]planner.Set, error) {
	return sets(t.q.SetsOfMessage(t.ctx, sqlgen.SetsOfMessageParams{LifterID: lifter, Message: message}))
}

// LastSets returns the sets that were written (whatever day they are for) within
// the given time before now, the last written first.
func (t *Tx) LastSets(lifter planner.LifterID, within time.Duration, now time.Time) ([]planner.Set, error) {
	return sets(t.q.LastSets(t.ctx, sqlgen.LastSetsParams{LifterID: lifter, SinceMs: column.At(now.Add(-within))}))
}

// HeavySets returns what counts as evidence of strength in a lift since a day:
// done as in competition, without gear, made, confirmed.
func (t *Tx) HeavySets(lifter planner.LifterID, lift planner.Lift, since planner.Date) ([]planner.Set, error) {
	rows, err := t.q.HeavySets(t.ctx, sqlgen.HeavySetsParams{LifterID: lifter, FirstDay: column.Day(since), Lift: string(lift)})
	if err != nil {
		return nil, err
	}
	// Each log line reads a year of these, so only what differs is read.
	return each(rows, func(r sqlgen.HeavySetsRow) planner.Set {
		return planner.Set{Day: r.Day.Date(), Seq: int(r.Seq), Lift: lift, Weight: r.WeightG, Reps: int(r.Reps), Sets: int(r.Sets),
			Reserve: r.Reserve, Gear: planner.Equipment(r.Gear)}
	}), nil
}

func sets(rows []sqlgen.Set, err error) ([]planner.Set, error) {
	if err != nil {
		return nil, err
	}
	return each(rows, set), nil
}

func set(r sqlgen.Set) planner.Set {
	return planner.Set{
		Day: r.Day.Date(), Seq: int(r.Seq), Lift: planner.Lift(r.Lift), Variant: planner.Variant(r.Variant),
		Weight: r.WeightG, Reps: int(r.Reps), Sets: int(r.Sets), Reserve: r.Reserve, Missed: r.Missed,
		Gear: planner.Equipment(r.Gear), Pending: r.Pending,
	}
}

// MessageOf returns the message that a set was written with; empty where the set is
// gone.
func (t *Tx) MessageOf(lifter planner.LifterID, s planner.Set) (string, error) {
	message, err := t.q.MessageOfSet(t.ctx, sqlgen.MessageOfSetParams{LifterID: lifter, Day: column.Day(s.Day), Seq: int64(s.Seq)})
	if absent(err) {
		return "", nil
	}
	return message, err
}
