package discord

import "sync"

// How many events and authors are remembered. Second deliveries come within
// seconds to minutes; people remove messages they wrote lately.
const (
	recentSize  = 4096
	authorsSize = 20_000
)

// recent remembers the last interactions, so that a second delivery does not even
// begin to be answered. The bot's own memory of events decides after a restart.
type recent struct {
	mu   sync.Mutex
	seen map[string]bool
	ring []string
	next int
}

func newRecent() *recent {
	return &recent{seen: map[string]bool{}, ring: make([]string, recentSize)}
}

// fresh notes an id; false when it is known.
func (r *recent) fresh(id string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.seen[id] {
		return false
	}
	delete(r.seen, r.ring[r.next])
	r.ring[r.next], r.seen[id] = id, true
	r.next = (r.next + 1) % len(r.ring)
	return true
}

// authors remembers who wrote the last messages: numbers only.
type authors struct {
	mu   sync.Mutex
	of   map[string]string
	ring []string
	next int
}

func newAuthors() *authors {
	return &authors{of: map[string]string{}, ring: make([]string, authorsSize)}
}

func (a *authors) keep(message, person string) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if _, known := a.of[message]; known {
		return
	}
	delete(a.of, a.ring[a.next])
	a.ring[a.next], a.of[message] = message, person
	a.next = (a.next + 1) % len(a.ring)
}

func (a *authors) find(message string) (string, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	person, ok := a.of[message]
	return person, ok
}
