package terminal

import (
	"context"
	"time"
)

// Kinds of record that are not also a chat.ReplyKind.
const (
	kindPost   = "post"   // unasked, in a channel
	kindDirect = "direct" // unasked, to one person
	kindSaid   = "said"   // a person's own message; only its identity is kept
)

// Button is what the terminal keeps of a button.
type Button struct {
	Label   string    `json:"label"`
	Token   string    `json:"token"`
	Owner   string    `json:"owner,omitempty"`
	For     []string  `json:"for,omitempty"`
	Expires time.Time `json:"expires,omitzero"`
}

// Body is the part of a record that is kept as JSON. Neither what people wrote
// nor what they were told is kept, only what later lines need.
type Body struct {
	Channel string   `json:"channel,omitempty"`
	Message string   `json:"message,omitempty"` // said: the message's identity
	Removed bool     `json:"removed,omitempty"` // said: the message is gone
	Buttons []Button `json:"buttons,omitempty"`
	Files   []string `json:"files,omitempty"`
	Facts   []string `json:"nudge,omitempty"` // ledger keys that a post settles
	Root    int64    `json:"root,omitempty"`  // edit: the record it replaces
	By      string   `json:"by,omitempty"`    // edit: who pressed
	Token   string   `json:"token,omitempty"` // edit: what was pressed
}

// Record is one message that the terminal remembers.
type Record struct {
	ID      int64
	Key     string // unique for ever
	At      time.Time
	Kind    string
	To      string // "@ana" or "#channel"
	Private bool
	Body    Body
}

// root is the record that a chain of edits began with.
func (r Record) root() int64 {
	if r.Body.Root != 0 {
		return r.Body.Root
	}
	return r.ID
}

// Memory is what outlives one run of the terminal. Every method is one
// transaction that is on disk when it returns.
type Memory interface {
	// Clock returns the stored moment; false when none was ever set.
	Clock(ctx context.Context) (time.Time, bool, error)
	// SetClock stores the moment.
	SetClock(ctx context.Context, at time.Time) error
	// Add stores r unless its key is known; it returns the record's ID either
	// way, and whether it is new.
	Add(ctx context.Context, r Record) (id int64, fresh bool, err error)
	// ByKey looks a record up.
	ByKey(ctx context.Context, key string) (Record, bool, error)
	// Newest returns all records, newest first.
	Newest(ctx context.Context) ([]Record, error)
	// Press notes that person pressed the button; first is false when that was
	// noted before.
	Press(ctx context.Context, record int64, token, person string, at time.Time) (first bool, err error)
	// NextEvent counts up, over all runs.
	NextEvent(ctx context.Context) (int64, error)
}
