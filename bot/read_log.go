package bot

import (
	"time"

	"blockbell/planner"
	"blockbell/planner/strength"
	"blockbell/store"
)

// ReadLog reads the lifts of a lifter about which something changed since they were
// read last, and keeps what the log says of them.
func (b *Bot) ReadLog(tx *store.Tx, lifter planner.LifterID, now time.Time) error {
	lifts, err := tx.Unread(lifter)
	if err != nil || len(lifts) == 0 {
		return err
	}
	club, err := tx.Club()
	if err != nil {
		return err
	}
	t := &turn{bot: b, tx: tx, now: now, club: club}
	if t.about, err = tx.Lifter(lifter); err != nil {
		return err
	}
	c, err := t.course(t.about)
	if err != nil {
		return err
	}
	kept, err := tx.Readings(lifter)
	if err != nil {
		return err
	}
	sets, err := t.longLog(c)
	if err != nil {
		return err
	}
	for _, lift := range lifts {
		h, err := t.historyIn(sets, c, lift, "")
		if err != nil {
			return err
		}
		if err := tx.KeepReading(lifter, readingOf(strength.Read(h), lift, c.today, kept)); err != nil {
			return err
		}
	}
	return nil
}

// readingOf is what is kept of a reading. The day on which a lift was first read as
// standing still or falling stays as long as it is read so.
func readingOf(r strength.Reading, lift planner.Lift, today planner.Date, before []store.Reading) store.Reading {
	out := store.Reading{Lift: lift, Day: today, Kg: r.TrainingKg, Verdict: r.Verdict, Reason: r.Reason}
	for _, p := range r.Points {
		if !p.Claim {
			out.Observations++
		}
	}
	switch r.Verdict {
	case strength.Holding:
		out.Since, out.Stalled = r.Test.Since, today
		if r.Test.Ends != nil && r.Test.Since.IsZero() {
			out.Since = r.Test.Ends.First
		}
	case strength.Falling:
		out.Since, out.Stalled = r.Test.FallSince, today
	}
	for _, b := range before {
		if b.Lift == lift && !out.Stalled.IsZero() && !b.Stalled.IsZero() {
			out.Stalled = min(b.Stalled, today)
		}
	}
	return out
}
