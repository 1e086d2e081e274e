package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"time"

	"blockbell/bot"
	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/schedule"
	"blockbell/store"
)

// Times after which what is no longer needed goes.
const (
	eventsKept  = 30 * 24 * time.Hour // ids of events: nothing older is delivered again
	buttonsKept = 24 * time.Hour      // buttons after they expired
	dataKept    = 30 * 24 * time.Hour // everything, after the bot was removed from its server
)

// workspace joins bot, store and platform.
type workspace struct {
	store *store.Store
	now   func() time.Time
	log   *slog.Logger
	kick  chan struct{} // something may be waiting in the outbox
}

// connect makes the adapter and says on out where the bot can be let in and what
// it can read.
func (w *workspace) connect(ctx context.Context, c discord.Config, out io.Writer) (*discord.Adapter, error) {
	probe, err := discord.New(c)
	if err != nil {
		return nil, err
	}
	app, err := probe.Application(ctx)
	probe.Close()
	if err != nil {
		return nil, fmt.Errorf("the platform does not answer for this token: %w; blockbell check says more", err)
	}
	fmt.Fprintf(out, "%s. Let it into a server: %s\n", app.Name, discord.InviteURL(app.ID))
	if !app.Content {
		fmt.Fprintln(out, "The message-content intent is off: log lines are read in direct messages and where they mention the bot; commands work everywhere. Switch it on in the developer portal, page Bot.")
	}
	talk := bot.New(bot.Config{Store: w.store, Log: w.log})
	c.Content = app.Content
	c.Handler, c.Suggester = kicking{talk, w.kick}, talk
	c.CaptainRole, c.AuthorOf, c.Removed, c.SignIns = w.captainRole, w.authorOf, w.removed, signIns{w.store}
	return discord.New(c)
}

// kicking lets the outbox be looked at after every press: an announcement that
// was just confirmed need not wait for the next minute.
type kicking struct {
	chat.Handler
	kick chan<- struct{}
}

// Handle answers the event.
func (k kicking) Handle(ctx context.Context, e chat.Event) (chat.Reply, error) {
	reply, err := k.Handler.Handle(ctx, e)
	if e.Kind == chat.Pressed {
		select {
		case k.kick <- struct{}{}:
		default: // it is going to be looked at anyway
		}
	}
	return reply, err
}

// postWhenKicked runs the posting when a press may have queued something.
func (w *workspace) postWhenKicked(ctx context.Context, run func(context.Context, time.Time) error) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-w.kick:
			if err := run(ctx, w.now()); err != nil && ctx.Err() == nil {
				w.log.Error("posting failed", "error", err)
			}
		}
	}
}

// whileConnected leaves out the minutes in which nothing could be posted.
func (w *workspace) whileConnected(a *discord.Adapter, task schedule.Task) schedule.Task {
	return func(ctx context.Context, now time.Time) error {
		if !a.Connected() {
			return nil
		}
		return task(ctx, now)
	}
}

// upkeep forgets what is no longer needed, and everything once the bot has been
// out of its server for dataKept.
func (w *workspace) upkeep(ctx context.Context, now time.Time) error {
	return w.store.Update(ctx, func(tx *store.Tx) error {
		if err := tx.ForgetEvents(now.Add(-eventsKept)); err != nil {
			return err
		}
		if _, err := tx.ForgetButtons(now.Add(-buttonsKept)); err != nil {
			return err
		}
		gone, removed, err := tx.Removed()
		if err != nil || !removed || now.Sub(gone) < dataKept {
			return err
		}
		return eraseAll(tx)
	})
}

// eraseAll deletes every member with all that is kept about them.
func eraseAll(tx *store.Tx) error {
	all, err := tx.Lifters()
	if err != nil {
		return err
	}
	for _, l := range all {
		if err := tx.EraseLifter(l.ID); err != nil {
			return err
		}
	}
	return nil
}

func (w *workspace) captainRole(ctx context.Context) (role string, err error) {
	err = w.store.View(ctx, func(tx *store.Tx) error {
		club, err := tx.Club()
		role = club.CaptainRole
		return err
	})
	return role, err
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

// removed marks the data: it goes after dataKept unless the bot comes back.
func (w *workspace) removed(ctx context.Context, at time.Time) {
	w.log.Warn("the bot was removed from its server; its data goes in 30 days unless it is let in again")
	if err := w.store.Update(ctx, func(tx *store.Tx) error { return tx.MarkRemoved(at) }); err != nil {
		w.log.Error("the removal could not be noted", "error", err)
	}
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

// Save keeps the sign-ins, and with them that the bot is in its place again.
func (s signIns) Save(ctx context.Context, at []time.Time) error {
	return s.store.Update(ctx, func(tx *store.Tx) error { return tx.SaveSignIns(at) })
}
