package nudge

import (
	"context"
	"log/slog"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// Runner says what is due, each thing once. It keeps nothing in memory: all it
// knows is in the store, so a new Runner goes on where the last one stopped. It is
// not meant to run twice at a time over one store.
type Runner struct {
	Store  *store.Store
	Poster chat.Poster
	Log    *slog.Logger // nil: nothing is logged
	// Weekly lists the posts that the club has each week; nil: none.
	Weekly func(*store.Tx) ([]Weekly, error)
	// Read reads a lifter's log anew and keeps what it says; nil: nothing is read. It
	// must leave no lift of the lifter unread.
	Read func(tx *store.Tx, lifter planner.LifterID, now time.Time) error
}

// rounds bounds how often one run comes back to what it has just brought up itself.
const rounds = 8

// Run does everything that is due at now: it writes to the ledger what is to be
// said or skipped, together with the posts that carry it, and then delivers the
// outbox. What a delivery brings up, such as the count in the club's post of a
// lifter who takes no direct messages, is said by the same run. A post that fails is
// logged, tried again later and keeps no other from going out; the error is the
// store's or the context's. When the context ends, a post that was under way is
// settled by a later run.
func (r *Runner) Run(ctx context.Context, now time.Time) error {
	now = now.UTC()
	if err := r.read(ctx, now); err != nil {
		return err
	}
	for range rounds {
		if more, err := r.round(ctx, now); err != nil || !more {
			return err
		}
	}
	return nil
}

// round looks, says and delivers once, and tells whether it did anything that may
// have brought up more.
func (r *Runner) round(ctx context.Context, now time.Time) (more bool, err error) {
	if err := r.look(ctx, now); err != nil {
		return false, err
	}
	said, err := r.say(ctx, now)
	if err != nil {
		return false, err
	}
	if err := r.sayWeekly(ctx, now); err != nil {
		return false, err
	}
	delivered, err := r.deliver(ctx, now)
	return said || delivered, err
}

// say writes what is due at now, and tells whether that was anything. Most minutes
// nobody's look has come, and the write is spared.
func (r *Runner) say(ctx context.Context, now time.Time) (some bool, err error) {
	var ripe []planner.LifterID
	err = r.Store.View(ctx, func(tx *store.Tx) (err error) { ripe, err = tx.Ripe(now); return err })
	if err != nil || len(ripe) == 0 {
		return false, err
	}
	err = r.Store.Update(ctx, func(tx *store.Tx) error {
		ripe, err := tx.Ripe(now) // again inside the write, since events may have come between
		if err != nil {
			return err
		}
		f, err := loadOnly(tx, ripe)
		if err != nil {
			return err
		}
		p, err := planFor(tx, f, now)
		if err != nil {
			return err
		}
		if err := p.write(tx, now); err != nil {
			return err
		}
		some = len(p.drafts)+len(p.skips) > 0
		return lookAgain(tx, f, now)
	})
	return some, err
}

// plan is what one run writes.
type plan struct {
	channel string
	drafts  []draft
	skips   []skip
}

// skip is a nudge that will not be said, and why.
type skip struct {
	fact   store.Fact
	nudge  Nudge
	reason string
}

// planFor judges everything open at now about the members in the facts and gathers
// what is to be said.
func planFor(tx *store.Tx, f Facts, now time.Time) (plan, error) {
	return newPast(tx).plan(f, now)
}

// plan is planFor with what is known of before.
func (past *past) plan(f Facts, now time.Time) (plan, error) {
	open, err := past.agenda(f, now.Add(-horizon), now)
	if err != nil {
		return plan{}, err
	}
	p := plan{channel: f.Channel}
	var slots []slot // in the order in which their first nudge fell due
	filled := map[string][]Nudge{}
	for _, n := range open {
		v, err := past.judge(&f, n, now)
		switch {
		case err != nil:
			return plan{}, err
		case v.skip != "":
			p.skips = append(p.skips, skip{n.fact(), n, v.skip})
		case v.say:
			if filled[v.slot.key] == nil {
				slots = append(slots, v.slot)
			}
			if v.slot.person != "" {
				n.Place = Directly
			}
			if n.Asks, err = past.asks(n); err != nil {
				return plan{}, err
			}
			if err := fill(past.tx, &n); err != nil {
				return plan{}, err
			}
			filled[v.slot.key] = append(filled[v.slot.key], n)
		}
	}
	for _, s := range slots {
		d, err := f.gather(s, filled[s.key])
		if err != nil {
			return plan{}, err
		}
		p.drafts = append(p.drafts, d)
	}
	return p, nil
}

// write puts the plan into the ledger and the outbox.
func (p plan) write(tx *store.Tx, now time.Time) error {
	for _, s := range p.skips {
		if err := tx.SkipFacts([]store.Fact{s.fact}, s.reason, now); err != nil {
			return err
		}
		if err := s.nudge.tellCoaches(tx, now); err != nil {
			return err
		}
	}
	for _, d := range p.drafts {
		post, facts, err := d.rows(p.channel, now)
		if err != nil {
			return err
		}
		fresh, err := tx.QueuePost(post, facts, now)
		if err != nil {
			return err
		}
		if !fresh {
			continue
		}
		for _, b := range d.buttons {
			if err := tx.AddButton(b); err != nil {
				return err
			}
		}
		for i := range d.nudges {
			if err := d.nudges[i].tellCoaches(tx, now); err != nil {
				return err
			}
		}
	}
	return nil
}

// log returns the logger, a silent one where none was given.
func (r *Runner) log() *slog.Logger {
	if r.Log == nil {
		return slog.New(slog.DiscardHandler)
	}
	return r.Log
}
