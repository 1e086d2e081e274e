package bot

import (
	"context"
	"sync"
)

// queue runs one person's events one after another, in the order in which they
// arrived, while different people are served side by side.
type queue struct {
	mu   sync.Mutex
	tail map[string]chan struct{} // closed when the person's last event is done
}

func newQueue() *queue { return &queue{tail: map[string]chan struct{}{}} }

// do runs f after all earlier work of the same person. It returns the context's
// error, without running f, when the context ends first.
func (q *queue) do(ctx context.Context, who string, f func()) error {
	before, mine := q.enter(who)
	if before != nil {
		select {
		case <-before:
		case <-ctx.Done():
			// Later events of this person must still wait for the earlier ones.
			go func() { <-before; q.leave(who, mine) }()
			return ctx.Err()
		}
	}
	defer q.leave(who, mine)
	f()
	return nil
}

func (q *queue) enter(who string) (before, mine chan struct{}) {
	q.mu.Lock()
	defer q.mu.Unlock()
	before, mine = q.tail[who], make(chan struct{})
	q.tail[who] = mine
	return before, mine
}

func (q *queue) leave(who string, mine chan struct{}) {
	q.mu.Lock()
	defer q.mu.Unlock()
	close(mine)
	if q.tail[who] == mine {
		delete(q.tail, who)
	}
}
