package chat

import (
	"context"
	"time"
)

// EventKind says what somebody did.
type EventKind string

// What can happen in a conversation.
const (
	Said    EventKind = "said"    // wrote a message
	Edited  EventKind = "edited"  // changed a message written before
	Deleted EventKind = "deleted" // removed a message
	Asked   EventKind = "asked"   // used a structured command
	Pressed EventKind = "pressed" // pressed a button
	Sent    EventKind = "sent"    // sent a filled form: Button is its token, Options its fields
)

// Person is somebody in the conversation. ID is stable; Name is what others see.
type Person struct {
	ID      string
	Name    string
	Captain bool // the surroundings say this person may run the club
}

// Option is one named argument of a command.
type Option struct {
	Name  string
	Value string
}

// Event is one thing that happened. It carries the moment it happened: nothing
// behind it asks the clock.
type Event struct {
	ID      string // unique for ever; a second delivery carries the same one
	Kind    EventKind
	At      time.Time
	Author  Person
	Channel string   // "#training-log"; empty in a direct conversation
	Message string   // identity of the message said, edited or deleted
	Text    string   // Said, Edited: what was written; a leading slash is a typed command
	Command []string // Asked: the command and its subcommand
	Options []Option // Asked: its arguments
	Button  string   // Pressed: the token of the button
	Files   []File   // Asked, Said: what was attached, in the order of the options that name it
	// Progress shows how far long work has come, in the place where the answer
	// will stand; nil where that cannot be shown. It never waits, and what it is
	// given may be passed over when it comes too often.
	Progress func(Message)
}

// Handler answers events. A returned error is the operator's affair (the store
// failed, the context ended); what the person should read is in the Reply.
type Handler interface {
	Handle(ctx context.Context, e Event) (Reply, error)
}
