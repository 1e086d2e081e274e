package nudge

import (
	"context"
	"time"

	"blockbell/store"
)

// firstLook is the length of the first stretch of time that Next searches.
const firstLook = 7 * 24 * time.Hour

// Next returns the earliest instant in (after, until] at which Run would do
// something: say or skip a nudge, or try a post of the outbox again. It is false
// where there is none. What could already be done at after is done at the next
// full minute, as a run each minute would. The answer holds as long as nothing
// else changes the store.
func (r *Runner) Next(ctx context.Context, after, until time.Time) (at time.Time, ok bool, err error) {
	after, until = after.UTC(), until.UTC()
	err = r.Store.View(ctx, func(tx *store.Tx) error {
		at, ok, err = r.next(tx, after, until)
		return err
	})
	return at, ok, err
}

func (r *Runner) next(tx *store.Tx, after, until time.Time) (time.Time, bool, error) {
	tick := after.Truncate(time.Minute).Add(time.Minute)
	best := earliest{until: until}
	post, waiting, err := tx.NextPost()
	if err != nil {
		return time.Time{}, false, err
	}
	if waiting && post.After(after) {
		best.offer(post)
	} else if waiting {
		best.offer(tick)
	}
	if err := r.nextWeekly(tx, after, tick, &best); err != nil {
		return time.Time{}, false, err
	}
	if err := r.nextRead(tx, tick, &best); err != nil {
		return time.Time{}, false, err
	}
	// Those about whom nothing changed since the last run have their look kept.
	look, ok, err := tx.NextLook()
	if err != nil {
		return time.Time{}, false, err
	}
	if ok && look.After(after) {
		best.offer(look)
	} else if ok {
		best.offer(tick)
	}
	changed, err := tx.Unwatched(after, everybody)
	if err != nil {
		return time.Time{}, false, err
	}
	f, err := loadOnly(tx, changed)
	if err != nil {
		return time.Time{}, false, err
	}
	err = newPast(tx).search(f, after, tick, &best)
	return best.at, best.found, err
}

// search offers the first instant at which something is to be done about the
// members in the facts, looking further and further ahead.
func (p *past) search(f Facts, after, tick time.Time, best *earliest) error {
	if len(f.Members) == 0 {
		return nil
	}
	for look := firstLook; ; look *= 2 {
		end := after.Add(look)
		if end.After(best.until) {
			end = best.until
		}
		if err := p.firstAct(f, after, tick, end, best); err != nil {
			return err
		}
		if best.found && !best.at.After(end) || end.Equal(best.until) {
			return nil
		}
	}
}

// firstAct offers the instants at which nudges due up to end are acted on.
func (p *past) firstAct(f Facts, after, tick, end time.Time, best *earliest) error {
	open, err := p.agenda(f, after.Add(-horizon), end)
	if err != nil {
		return err
	}
	for _, n := range open {
		if n.Due.After(after) {
			best.offer(n.Due)
			continue
		}
		v, err := p.judge(&f, n, tick)
		if err != nil {
			return err
		}
		if v.wait.IsZero() {
			best.offer(tick)
		} else {
			best.offer(v.wait)
		}
	}
	return nil
}

// earliest keeps the earliest of the instants offered that is not after until.
type earliest struct {
	until, at time.Time
	found     bool
}

func (e *earliest) offer(at time.Time) {
	if at.After(e.until) || e.found && !at.Before(e.at) {
		return
	}
	e.at, e.found = at, true
}
