package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"sync"
	"time"

	"blockbell/bot"
	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// workspace joins bot, store and platform.
type workspace struct {
	store   *store.Store
	now     func() time.Time
	log     *slog.Logger
	named   string        // the server named at the start; empty: the one the data belongs to
	kick    chan struct{} // something may be waiting in the outbox
	adapter *discord.Adapter

	posting sync.Mutex // the runner is not made to run beside itself
	runner  *nudge.Runner
	weekly  func(*store.Tx) ([]nudge.Weekly, error) // what the club posts by itself
	readLog func(*store.Tx, planner.LifterID, time.Time) error

	mu      sync.Mutex
	present bool // the bot found itself in its server, and was not thrown out since
}

// longestRetry bounds the wait while the platform cannot be asked at the start.
const longestRetry = time.Minute

// connect makes the adapter and says on out where the bot can be let in and what
// it can read. It waits for a platform that is down; where the context ends
// meanwhile, there is neither an adapter nor an error.
func (w *workspace) connect(ctx context.Context, c discord.Config, out io.Writer) (*discord.Adapter, error) {
	app, err := w.application(ctx, c)
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	fmt.Fprintf(out, "%s. Let it into a server: %s\n", app.Name, discord.InviteURL(app.ID))
	if !app.Content {
		fmt.Fprintln(out, "The message-content intent is off: log lines are read in direct messages and where they mention the bot; commands work everywhere. Switch it on in the developer portal, page Bot, and start again.")
	}
	talk := bot.New(bot.Config{Store: w.store, Log: w.log, Hidden: w.readers})
	w.weekly, w.readLog = talk.Weekly, talk.ReadLog
	c.Content = app.Content
	c.Handler, c.Suggester = kicking{talk, w.nudged}, talk
	c.CaptainRole, c.AuthorOf, c.SignIns = w.captainRole, w.authorOf, signIns{w.store}
	c.Present, c.Removed = w.arrived, w.removed
	if c.Missed, err = w.missed(ctx); err != nil {
		return nil, err
	}
	return discord.New(c)
}

// application asks who the bot is, again and again while that may help.
func (w *workspace) application(ctx context.Context, c discord.Config) (discord.Application, error) {
	probe, err := discord.New(c)
	if err != nil {
		return discord.Application{}, err
	}
	defer probe.Close()
	for wait := time.Second; ; wait = min(2*wait, longestRetry) {
		app, err := probe.Application(ctx)
		var later *chat.RetryError
		switch {
		case ctx.Err() != nil:
			return app, nil
		case errors.As(err, &later):
			pause := max(wait, later.After)
			w.log.Warn("the platform does not answer", "error", later.Cause, "again in", pause)
			pauseFor(ctx, pause)
		case err != nil:
			return app, fmt.Errorf("%w\nblockbell check says more", err)
		default:
			return app, nil
		}
	}
}

// pauseFor waits, but not longer than the context lasts.
func pauseFor(ctx context.Context, d time.Duration) {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
	case <-ctx.Done():
	}
}

// kicking lets the outbox be looked at after every press: an announcement that
// was just confirmed need not wait for the next minute.
type kicking struct {
	chat.Handler
	kick func()
}

// Handle answers the event.
func (k kicking) Handle(ctx context.Context, e chat.Event) (chat.Reply, error) {
	reply, err := k.Handler.Handle(ctx, e)
	if e.Kind == chat.Pressed {
		k.kick()
	}
	return reply, err
}

// nudged has the outbox looked at soon.
func (w *workspace) nudged() {
	select {
	case w.kick <- struct{}{}:
	default: // it is going to be looked at anyway
	}
}

// postWhenKicked runs the posting when something may have been queued.
func (w *workspace) postWhenKicked(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-w.kick:
			if err := w.post(ctx, w.now()); err == nil {
				w.log.Debug("what is due was looked at")
			} else if ctx.Err() == nil {
				w.log.Error("posting failed", "error", err)
			}
		}
	}
}

// post says what is due, unless nothing could be posted now.
func (w *workspace) post(ctx context.Context, now time.Time) error {
	if !w.adapter.Connected() {
		return nil
	}
	w.posting.Lock()
	defer w.posting.Unlock()
	return w.runner.Run(ctx, now)
}

func (w *workspace) captainRole(ctx context.Context) (role string, err error) {
	err = w.store.Glance(ctx, func(tx *store.Tx) error {
		club, err := tx.Club()
		role = club.CaptainRole
		return err
	})
	return role, err
}

// readers tells which ordinary members can read a channel. Before the bot is in its
// server nobody can say, so nothing that must stay hidden is posted.
func (w *workspace) readers(channel string) string {
	if w.adapter == nil {
		return "nobody knows whom yet: the server has not been heard of"
	}
	return w.adapter.Readers(channel)
}

func (w *workspace) authorOf(ctx context.Context, message string) (person string, known bool) {
	err := w.store.View(ctx, func(tx *store.Tx) (err error) {
		person, known, err = tx.AuthorOfMessage(message)
		return err
	})
	if err != nil {
		w.log.Error("the author of a message could not be looked up", "error", err)
	}
	return person, known
}

// missed tells the adapter which messages may have been written while nobody
// listened. What the process before this one heard last is looked up now: later,
// events of this one stand before it.
func (w *workspace) missed(ctx context.Context) (func(context.Context) (string, time.Time, error), error) {
	_, before, err := w.lastHeard(ctx)
	var once sync.Once
	return func(ctx context.Context) (channel string, since time.Time, err error) {
		channel, since, err = w.lastHeard(ctx)
		once.Do(func() { since = before })
		return channel, since, err
	}, err
}

func (w *workspace) lastHeard(ctx context.Context) (channel string, at time.Time, err error) {
	err = w.store.View(ctx, func(tx *store.Tx) error {
		club, err := tx.Club()
		if err != nil {
			return err
		}
		channel = club.LogChannel
		at, err = w.lastAt(tx)
		return err
	})
	return channel, at, err
}

// lastAt is the moment of the newest event. Commands that only read leave none, so
// a club that only asked for as long as events are kept has heard the bot all the same.
func (w *workspace) lastAt(tx *store.Tx) (time.Time, error) {
	at, heard, err := tx.LastEvent()
	if err != nil || heard {
		return at, err
	}
	members, err := tx.Lifters()
	if len(members) == 0 {
		return time.Time{}, err
	}
	return w.now().Add(-eventsKept), err
}

// signIns keeps the adapter's sign-ins in the database.
type signIns struct{ store *store.Store }

// Load returns what was saved last.
func (s signIns) Load(ctx context.Context) (at []time.Time, err error) {
	err = s.store.View(ctx, func(tx *store.Tx) error {
		at, err = tx.SignIns()
		return err
	})
	return at, err
}

// Save keeps the sign-ins.
func (s signIns) Save(ctx context.Context, at []time.Time) error {
	return s.store.Update(ctx, func(tx *store.Tx) error { return tx.SaveSignIns(at) })
}
