package nudge

import (
	"context"
	"encoding/json"
	"errors"
	"time"

	"blockbell/bot/chat"
	"blockbell/store"
)

const (
	// patience is how long one attempt to post may take.
	patience = 30 * time.Second
	// lease is how long a claimed post belongs to the run that claimed it. It must
	// exceed patience, so that an attempt under way is never repeated beside it.
	lease = 2 * time.Minute
	// shortestWait keeps a platform that asks for no wait at all from being asked
	// again within the same run.
	shortestWait = time.Second
	// longestWait bounds the growing wait after errors that name none.
	longestWait = time.Hour
)

// deliver posts what the outbox holds and is due, and tells whether it tried
// anything. Posts are claimed one by one, so that a crash leaves at most one in doubt.
func (r *Runner) deliver(ctx context.Context, now time.Time) (some bool, err error) {
	for {
		_, claimable, err := r.nextPost(ctx, now)
		if err != nil || !claimable {
			return some, err
		}
		var claimed []store.OutPost
		err = r.Store.Update(ctx, func(tx *store.Tx) (err error) {
			claimed, err = tx.ClaimPosts(now, lease, 1)
			return err
		})
		if err != nil || len(claimed) == 0 {
			return some, err
		}
		some = true
		if err := r.settle(ctx, claimed[0], now); err != nil {
			return some, err
		}
	}
}

// nextPost tells whether a post can be claimed at now, without writing.
func (r *Runner) nextPost(ctx context.Context, now time.Time) (at time.Time, claimable bool, err error) {
	err = r.Store.View(ctx, func(tx *store.Tx) error {
		at, claimable, err = tx.NextPost()
		return err
	})
	return at, claimable && !at.After(now), err
}

// settle posts one claimed post and writes down how it went.
func (r *Runner) settle(ctx context.Context, p store.OutPost, now time.Time) error {
	var body frozen
	if err := json.Unmarshal(p.Body, &body); err != nil {
		r.log().Error("nudge: unreadable post", "post", p.Key, "err", err)
		return r.update(ctx, func(tx *store.Tx) error { return tx.BuryPost(p.Key, "the post cannot be read", now) })
	}
	out := chat.Post{
		Key: p.Key, Facts: p.Facts, To: chat.Target{Channel: p.Channel, Person: p.Person},
		Message: body.Message, At: body.At,
	}
	ref, err := r.post(ctx, out, p.Attempts, now.Before(body.Until))
	if ctx.Err() != nil && err != nil {
		return ctx.Err() // in doubt; the lease runs out and a later run looks for it
	}
	if err != nil && !errors.Is(err, errOver) {
		r.log().Warn("nudge: not posted", "post", p.Key, "attempt", p.Attempts, "err", err)
	}
	return r.update(ctx, func(tx *store.Tx) error { return record(tx, p, ref, err, now) })
}

// errOver says that a post's day ended before it could be posted.
var errOver = errors.New("the day of the post is over")

// post makes one attempt. From the second on, the earlier ones may have gone
// through unnoticed, so the message is looked for first. timely is false when the
// post is no longer worth making.
func (r *Runner) post(ctx context.Context, p chat.Post, attempt int, timely bool) (chat.Ref, error) {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	if attempt > 1 {
		if ref, found, err := r.Poster.Find(ctx, p); err != nil || found {
			return ref, err
		}
	}
	if !timely {
		return "", errOver
	}
	return r.Poster.Post(ctx, p)
}

// record writes down how an attempt went.
func record(tx *store.Tx, p store.OutPost, ref chat.Ref, err error, now time.Time) error {
	var retry *chat.RetryError
	var unreachable *chat.UnreachableError
	switch {
	case err == nil:
		return tx.ConfirmPost(p.Key, string(ref), now)
	case errors.Is(err, errOver):
		return tx.BuryPost(p.Key, ReasonUndelivered, now)
	case errors.As(err, &unreachable) && p.Person != "":
		return tx.BuryPost(p.Key, ReasonUnreachable, now)
	case errors.As(err, &retry):
		return tx.DelayPost(p.Key, now.Add(max(retry.After, shortestWait)), err.Error())
	}
	return tx.DelayPost(p.Key, now.Add(backOff(p.Attempts)), err.Error())
}

// backOff is the wait after an error that names none: a lease, doubled with each
// attempt, at most an hour. An unreachable channel is such an error too: somebody
// may give the right back before the day is over.
func backOff(attempts int) time.Duration {
	wait := lease
	for ; attempts > 1 && wait < longestWait; attempts-- {
		wait *= 2
	}
	return min(wait, longestWait)
}

// update writes although the context may just have ended: what was posted must be
// written down.
func (r *Runner) update(ctx context.Context, do func(*store.Tx) error) error {
	return r.Store.Update(context.WithoutCancel(ctx), do)
}
