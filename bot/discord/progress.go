package discord

import (
	"context"
	"sync"
	"time"

	"blockbell/bot/chat"
)

// progressPause is the shortest time between two signs of progress: each one is a
// request, and the platform counts them.
const progressPause = time.Second

// way is how far the work of an exchange has come, as it was shown last.
type way struct {
	mu   sync.Mutex
	busy bool          // one is being sent
	next *chat.Message // came meanwhile, and late enough
	last time.Time
}

// progress shows how far the work has come where the answer will stand. It is sent
// beside the work, at most one a second by the adapter's clock; others are passed
// over.
func (x *exchange) progress(m chat.Message) {
	now := x.a.Now()
	x.way.mu.Lock()
	defer x.way.mu.Unlock()
	if !x.way.last.IsZero() && now.Sub(x.way.last) < progressPause {
		return
	}
	x.way.last, x.way.next = now, &m
	if x.way.busy {
		return
	}
	x.way.busy = true
	x.a.beside("showing progress", func(context.Context) {
		for m := x.way.take(); m != nil; m = x.way.take() {
			x.showWay(*m)
		}
	})
}

// take returns what is to be shown next, nil where nothing is.
func (w *way) take() *chat.Message {
	w.mu.Lock()
	defer w.mu.Unlock()
	m := w.next
	w.next, w.busy = nil, m != nil
	return m
}

// showWay changes the message whose button was pressed, or the one that was
// promised. What others must not see is not shown where they would.
func (x *exchange) showWay(m chat.Message) {
	b, _ := dress(m, "")
	x.mu.Lock()
	defer x.mu.Unlock()
	hidden := x.pressed() && m.Private && x.public()
	switch {
	case hidden:
	case x.stage == stageNew && x.pressed():
		if x.open(callback{Type: callbackUpdate, Data: b.whole()}, nil) == nil {
			x.stage = stageQuiet
		}
	case x.stage == stageQuiet && x.pressed(), x.stage == stageDeferred:
		x.failed(x.edit(b, nil))
	}
}
