package main

import (
	"context"
	"time"

	"blockbell/bot/nudge"
	"blockbell/store"
)

// Times after which what is no longer needed goes.
const (
	eventsKept    = 30 * 24 * time.Hour // ids of events: nothing older is delivered again
	buttonsKept   = 24 * time.Hour      // buttons after they expired
	takeoversKept = 7 * 24 * time.Hour  // what came to a member at joining, so that it can be taken back
	dataKept      = 30 * 24 * time.Hour // everything, after the bot was removed from its server; a member's, after they left
)

// upkeep forgets what is no longer needed, and the whole club once the bot has
// been out of its server for dataKept. Whether it is out, only a connection tells.
func (w *workspace) upkeep(ctx context.Context, now time.Time) error {
	out := w.adapter.Connected() && !w.isPresent()
	return w.store.Update(ctx, func(tx *store.Tx) error {
		if err := tx.ForgetEvents(now.Add(-eventsKept)); err != nil {
			return err
		}
		if _, err := tx.ForgetButtons(now.Add(-buttonsKept)); err != nil {
			return err
		}
		if err := tx.ForgetImports(now); err != nil {
			return err
		}
		if err := tx.ForgetCalls(now); err != nil {
			return err
		}
		if n, err := keepPromises(tx, now); err != nil {
			return err
		} else if n > 0 {
			w.log.Info("members who left 30 days ago are erased", "members", n)
		}
		gone, removed, err := tx.Removed()
		if err != nil || !removed || !out || now.Sub(gone) < dataKept {
			return err
		}
		w.log.Warn("the bot has been out of its server for 30 days; its data is erased")
		return tx.EraseClub()
	})
}

// keepPromises does what members were told that time does, and returns how many who
// left were erased.
func keepPromises(tx *store.Tx, now time.Time) (erased int, err error) {
	if err := tx.ForgetTakeovers(now.Add(-takeoversKept)); err != nil {
		return 0, err
	}
	return tx.EraseLeft(now.Add(-dataKept))
}

// keeping is a rehearsal's runner: there the nights pass between two lines, so that it
// keeps those promises itself, once for each day it comes to.
type keeping struct {
	*nudge.Runner
	day time.Time // seen to; zero: none yet
}

// Run keeps the promises of the day, then posts what is due.
func (k *keeping) Run(ctx context.Context, now time.Time) error {
	if day := now.UTC().Truncate(24 * time.Hour); !day.Equal(k.day) {
		err := k.Store.Update(ctx, func(tx *store.Tx) error {
			_, err := keepPromises(tx, now)
			return err
		})
		if err != nil {
			return err
		}
		k.day = day
	}
	return k.Runner.Run(ctx, now)
}

func (w *workspace) isPresent() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.present
}

func (w *workspace) setPresent(is bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.present = is
}

// home is the server that was named, and where none was the one that the data
// belongs to: a bot that is let into another club must not show it this one's.
func (w *workspace) home(ctx context.Context) (home string, err error) {
	if w.named != "" {
		return w.named, nil
	}
	err = w.store.View(ctx, func(tx *store.Tx) (err error) {
		home, err = tx.Home()
		return err
	})
	return home, err
}

// arrived hears that the bot is in its server: a removal is forgotten, and what
// became due meanwhile is said now rather than at the next full minute.
func (w *workspace) arrived(ctx context.Context, server string) {
	w.setPresent(true)
	err := w.store.Update(ctx, func(tx *store.Tx) error {
		if err := tx.SaveHome(server); err != nil {
			return err
		}
		return tx.ClearRemoved()
	})
	if err != nil {
		w.log.Error("that the bot is in its server could not be noted", "error", err)
	} else {
		w.log.Info("the bot is in its server", "server", server)
	}
	w.nudged()
}

// removed marks the data: it goes after dataKept unless the bot comes back. Where
// another server was named than the one the data belongs to, that one tells
// nothing of it, and nothing is marked.
func (w *workspace) removed(ctx context.Context, at time.Time) {
	w.setPresent(false)
	err := w.store.Update(ctx, func(tx *store.Tx) error {
		home, err := tx.Home()
		if err != nil || home == "" || w.named != "" && w.named != home {
			return err
		}
		w.log.Warn("the bot is not in its server; its data goes after 30 days unless it is let in again")
		return tx.MarkRemoved(at)
	})
	if err != nil {
		w.log.Error("the removal could not be noted", "error", err)
	}
}
