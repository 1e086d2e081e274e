package chat

import (
	"context"
	"fmt"
	"time"
)

// Target is where an unasked message goes: a channel, or one person directly.
type Target struct {
	Channel string
	Person  string // ID
}

// Post is an unasked message. Key is unique for ever: posting the same key twice
// makes one message. Facts lists the ledger keys this post settles.
type Post struct {
	Key     string
	Facts   []string
	To      Target
	Message Message
	At      time.Time // the moment it became due
}

// Ref identifies a message that was posted.
type Ref string

// Poster puts unasked messages into the world.
type Poster interface {
	// Post sends p and returns the message's identity. A key that was posted
	// before returns the earlier identity and sends nothing.
	Post(ctx context.Context, p Post) (Ref, error)
	// Find looks for a message with p's key that was posted earlier.
	Find(ctx context.Context, p Post) (Ref, bool, error)
}

// RetryError says that posting failed for now and may be tried again after the
// given wait.
type RetryError struct {
	After time.Duration
	Cause error
}

// Error names the cause and the wait.
func (e *RetryError) Error() string { return fmt.Sprintf("try again in %s: %v", e.After, e.Cause) }

// Unwrap returns the cause.
func (e *RetryError) Unwrap() error { return e.Cause }

// UnreachableError says that the target cannot be reached at all, for example a
// person who takes no direct messages; trying again is useless.
type UnreachableError struct {
	To    Target
	Cause error
}

// Error names the target.
func (e *UnreachableError) Error() string {
	return fmt.Sprintf("cannot reach %s%s: %v", e.To.Channel, e.To.Person, e.Cause)
}

// Unwrap returns the cause.
func (e *UnreachableError) Unwrap() error { return e.Cause }
