package discord

import (
	"context"
	"errors"
	"sync/atomic"
	"time"

	"blockbell/bot/chat"
)

// answerLife is how long the answer to a message may wait for its turn at a rate
// limit. What would come later than that, nobody connects with the message any more.
const answerLife = 10 * time.Minute

// answering sends what the bot says to messages: marks and lines. Nobody waits for
// them within seconds, and their routes have narrow limits, so they stand in a
// line of their own and keep no hand of the crew from commands and buttons. What is
// said in one channel, or to one person directly, goes out in order.
type answering struct {
	crew *crew
	lost atomic.Int64 // answers given up since the start
}

func newAnswering(hands int) *answering { return &answering{crew: newCrew(hands)} }

// answerMessage queues the answer to a message. One that cannot be queued, or cannot
// be sent in time, is counted and logged.
func (a *Adapter) answerMessage(e chat.Event, channel string, r chat.Reply) {
	if r.Kind == chat.Silent {
		return
	}
	line := channel
	if r.Kind != chat.React && (r.Message.Private || r.Kind == chat.Failure) {
		line = e.Author.ID
	}
	queued := a.answers.crew.add(line, func() {
		defer a.guard(e.ID, nil)
		ctx, cancel := context.WithTimeout(a.background(), answerLife)
		defer cancel()
		a.undelivered(e, patiently(ctx, func() error { return a.replyTo(ctx, e, channel, r) }))
	})
	if !queued {
		a.undelivered(e, errors.New("too many answers wait"))
	}
}

// patiently repeats what a rate limit stands in the way of. Nothing was done then,
// so nothing is done twice.
func patiently(ctx context.Context, send func() error) error {
	for {
		err := ctx.Err()
		if err == nil {
			err = send()
		}
		wait, limited := limitedFor(err)
		if !limited || ctx.Err() != nil {
			return err
		}
		sleep(ctx, wait)
	}
}

// undelivered counts and logs an answer that did not go out. After the end of the
// work only the count is logged, once.
func (a *Adapter) undelivered(e chat.Event, err error) {
	if err == nil {
		return
	}
	lost := a.answers.lost.Add(1)
	if a.background().Err() == nil {
		a.Log.Error("an answer was not delivered", "event", e.ID, "error", err, "so far", lost)
	}
}
