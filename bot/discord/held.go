package discord

import (
	"crypto/rand"
	"sync"
	"time"

	"blockbell/bot/chat"
)

// How long a private answer that could not be delivered waits for its owner, and
// how many of them are kept.
const (
	heldFor  = time.Hour
	heldMost = 200
)

// held keeps such answers in memory, and nowhere else: they are somebody's numbers.
type held struct {
	mu    sync.Mutex
	kept  map[string]heldAnswer
	order []string
}

type heldAnswer struct {
	owner   string
	message chat.Message
	until   time.Time
}

func newHeld() *held { return &held{kept: map[string]heldAnswer{}} }

// keep stores an answer and returns the token that leads back to it.
func (h *held) keep(owner string, m chat.Message, now time.Time) string {
	token := rand.Text()
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.order) >= heldMost {
		delete(h.kept, h.order[0])
		h.order = h.order[1:]
	}
	h.kept[token] = heldAnswer{owner, m, now.Add(heldFor)}
	h.order = append(h.order, token)
	return token
}

// answer is what the button shows to the person who pressed it.
func (h *held) answer(token, person string, now time.Time) chat.Message {
	h.mu.Lock()
	defer h.mu.Unlock()
	kept, ok := h.kept[token]
	switch {
	case !ok || now.After(kept.until):
		return chat.Message{Private: true, Text: "That answer is no longer kept. Please ask again; answers to / commands are private."}
	case kept.owner != person:
		return chat.Message{Private: true, Text: "That answer is for somebody else."}
	}
	return kept.message
}
