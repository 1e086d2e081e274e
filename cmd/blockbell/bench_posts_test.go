package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
	"blockbell/bot/nudge"
	"blockbell/store"
)

// BenchmarkPostFiveHundred posts what 500 lifters and their club are to be told, with
// the real runner, database and adapter, on an emulator that keeps the platform's
// limits on a simulated clock: a second of it passes when the adapter waits for one.
//
//	go test -run '^$' -bench PostFiveHundred -benchtime 3x -benchmem ./cmd/blockbell
func BenchmarkPostFiveHundred(b *testing.B) {
	const direct, club = 480, 20
	var simulated time.Duration
	for b.Loop() {
		b.StopTimer()
		w := newPostOffice(b)
		w.queue(b, direct, club)
		began := w.srv.Now()
		b.StartTimer()
		if err := w.runner.Run(context.Background(), monday); err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		simulated += w.srv.Now().Sub(began)
		if n := w.sent(b); n != direct+club {
			b.Fatalf("%d posts were sent", n)
		}
		if n := w.srv.InvalidRequests(); n != 0 {
			b.Fatalf("%d requests ran into a limit", n)
		}
		w.close()
		b.StartTimer()
	}
	b.ReportMetric(simulated.Seconds()/float64(b.N), "simulated-s/op")
}

// standing is a clock that stands still until somebody waits for it.
type standing struct {
	mu     sync.Mutex
	timers []timer
	srv    *discordtest.Server
}

type timer struct {
	at   time.Time
	open func()
}

func (c *standing) after(d time.Duration, open func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.timers = append(c.timers, timer{c.srv.Now().Add(d), open})
}

// waiting lets so much time pass, and opens what opens meanwhile.
func (c *standing) waiting(d time.Duration) {
	c.srv.Advance(d)
	c.mu.Lock()
	var due []timer
	c.timers = slices.DeleteFunc(c.timers, func(t timer) bool {
		over := !t.at.After(c.srv.Now())
		if over {
			due = append(due, t)
		}
		return over
	})
	c.mu.Unlock()
	for _, t := range due {
		t.open()
	}
}

// postOffice is a runner whose posts go to an emulator with limits.
type postOffice struct {
	srv     *discordtest.Server
	store   *store.Store
	adapter *discord.Adapter
	runner  *nudge.Runner
}

func newPostOffice(b *testing.B) *postOffice {
	srv, err := discordtest.Start(discordtest.Options{Lax: true, Now: func() time.Time { return monday }})
	if err != nil {
		b.Fatal(err)
	}
	srv.LimitGlobally(discordtest.Limit{Calls: 50, Per: time.Second})
	// Five messages in five seconds are what a channel allows; from memory, the
	// platform tells it in headers only.
	srv.LimitRoute("POST", postRoute, discordtest.Limit{Calls: 5, Per: 5 * time.Second})
	clock := &standing{srv: srv}
	s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), fmt.Sprint(time.Now().UnixNano(), ".db")), store.Options{World: store.Platform, Now: monday})
	if err != nil {
		b.Fatal(err)
	}
	a, err := discord.New(discord.Config{API: srv.URL(), Token: srv.Token(), Now: srv.Now,
		Timing: discord.Timing{After: clock.after, Waiting: clock.waiting}})
	if err != nil {
		b.Fatal(err)
	}
	return &postOffice{srv: srv, store: s, adapter: a, runner: &nudge.Runner{Store: s, Poster: a}}
}

func (w *postOffice) close() {
	w.adapter.Close()
	_ = w.store.Close()
	w.srv.Close()
}

// queue puts posts that are due into the outbox.
func (w *postOffice) queue(b *testing.B, direct, club int) {
	err := w.store.Update(context.Background(), func(tx *store.Tx) error {
		for i := range direct + club {
			p, err := nudge.Announcement(fmt.Sprint("post/", i), "#announcements", chat.Message{Text: "Strength begins on Monday."}, monday)
			if err != nil {
				return err
			}
			if i < direct {
				p.Channel, p.Person = "", w.srv.User(fmt.Sprint("lifter", i)).ID
			}
			if _, err := tx.QueuePost(p, nil, monday); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
}

// sent counts the posts that are said to be sent, and that stand where all can read.
func (w *postOffice) sent(b *testing.B) (n int) {
	for i := range 480 {
		n += len(w.srv.User(fmt.Sprint("lifter", i)).Inbox())
	}
	return n + len(w.srv.User("lifter0").Sees("#announcements"))
}
