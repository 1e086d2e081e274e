package discord

import (
	"context"
	"sync"
)

// pendingLimit bounds the events that wait. A club never comes near it; a flood
// beyond it is refused rather than kept in memory.
const pendingLimit = 10_000

// crew does jobs with a bounded number of hands. Jobs of one key are done one
// after another in the order they came; jobs of different keys run at once.
type crew struct {
	hands int

	mu      sync.Mutex
	queues  map[string][]func() // a key is there while it has a job, also one under way
	ready   []string            // keys whose next job may begin
	busy    int                 // hands at work
	pending int                 // jobs not yet finished
	idle    chan struct{}       // closed when pending falls to 0; nil when nobody waits
}

func newCrew(hands int) *crew {
	return &crew{hands: hands, queues: map[string][]func(){}}
}

// add queues a job; false when too many wait.
func (c *crew) add(key string, job func()) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.pending >= pendingLimit {
		return false
	}
	c.pending++
	queue, active := c.queues[key]
	c.queues[key] = append(queue, job)
	if active {
		return true
	}
	c.ready = append(c.ready, key)
	if c.busy < c.hands {
		c.busy++
		go c.work()
	}
	return true
}

// work does jobs until none may begin.
func (c *crew) work() {
	for {
		key, job := c.next()
		if job == nil {
			return
		}
		job()
		c.finished(key)
	}
}

func (c *crew) next() (string, func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.ready) == 0 {
		c.busy--
		return "", nil
	}
	key := c.ready[0]
	c.ready = c.ready[1:]
	return key, c.queues[key][0]
}

func (c *crew) finished(key string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if rest := c.queues[key][1:]; len(rest) > 0 {
		c.queues[key] = rest
		c.ready = append(c.ready, key)
	} else {
		delete(c.queues, key)
	}
	c.pending--
	if c.pending == 0 && c.idle != nil {
		close(c.idle)
		c.idle = nil
	}
}

// wait returns when no job is left, or with the context's error.
func (c *crew) wait(ctx context.Context) error {
	c.mu.Lock()
	if c.pending == 0 {
		c.mu.Unlock()
		return nil
	}
	if c.idle == nil {
		c.idle = make(chan struct{})
	}
	idle := c.idle
	c.mu.Unlock()
	select {
	case <-idle:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
