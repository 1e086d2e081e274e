package nudge

import (
	"context"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// readAtATime is how many lifters' logs one run reads at most: what a large import or
// a new setting makes unread is read over the next minutes, and no minute takes long.
const readAtATime = 10

// read has the logs read about which something changed, so that the rules find what
// they say in the facts. Each is a write of its own, which keeps events from waiting
// for more than one. A log that cannot be read is passed over until it changes, and
// keeps nobody else from being told anything.
func (r *Runner) read(ctx context.Context, now time.Time) error {
	if r.Read == nil {
		return nil
	}
	var unread []planner.LifterID
	err := r.Store.View(ctx, func(tx *store.Tx) (err error) { unread, err = tx.UnreadLifters(readAtATime); return err })
	if err != nil {
		return err
	}
	for _, id := range unread {
		err := r.Store.Update(ctx, func(tx *store.Tx) error { return r.Read(tx, id, now) })
		if err == nil {
			continue
		}
		if ctx.Err() != nil {
			return err
		}
		r.log().Error("nudge: a log cannot be read", "lifter", id, "err", err)
		if err := r.Store.Update(ctx, func(tx *store.Tx) error { return tx.PassOver(id) }); err != nil {
			return err
		}
	}
	return nil
}

// nextRead offers the next full minute where a log waits to be read.
func (r *Runner) nextRead(tx *store.Tx, tick time.Time, best *earliest) error {
	if r.Read == nil {
		return nil
	}
	some, err := tx.SomeUnread()
	if some {
		best.offer(tick)
	}
	return err
}
