package nudge

import (
	"context"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// A lifter's look is the next instant at which something is to be said or skipped
// about them. The store keeps it and forgets it whenever something about the
// lifter changes, so that a minute in which nothing is due costs one look into an
// index, however large the club.

const (
	// lookAhead is how far a look is searched. Where nothing is due for longer the
	// lifter is looked at again then.
	lookAhead = 400 * 24 * time.Hour
	// atOnce is how many looks one write works out, so that a change for everybody,
	// such as the club's hour, does not keep events waiting.
	atOnce    = 200
	everybody = 1 << 30
)

// look works out the looks of everybody about whom something changed.
func (r *Runner) look(ctx context.Context, now time.Time) error {
	for {
		var changed []planner.LifterID
		err := r.Store.View(ctx, func(tx *store.Tx) (err error) { changed, err = tx.Unwatched(now, 1); return err })
		if err != nil || len(changed) == 0 {
			return err
		}
		err = r.Store.Update(ctx, func(tx *store.Tx) error {
			changed, err := tx.Unwatched(now, atOnce)
			if err != nil {
				return err
			}
			f, err := loadOnly(tx, changed)
			if err != nil {
				return err
			}
			return lookAgain(tx, f, now)
		})
		if err != nil {
			return err
		}
	}
}

// lookAgain writes down the looks of the members in the facts. What can be done at
// now already has its look at now.
func lookAgain(tx *store.Tx, f Facts, now time.Time) error {
	past := newPast(tx)
	all := f.Members
	for i := range all {
		f.Members = all[i : i+1]
		best := earliest{until: now.Add(lookAhead)}
		if err := past.search(f, now, now, &best); err != nil {
			return err
		}
		if !best.found {
			best.at = best.until
		}
		if err := tx.Watch(all[i].Lifter.ID, best.at, now); err != nil {
			return err
		}
	}
	return nil
}
