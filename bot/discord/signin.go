package discord

import (
	"context"
	"errors"
	"sync"
	"time"
)

// The platform allows 1,000 sign-ins (IDENTIFY) in 24 hours, then ends all
// sessions and takes the token away. Source: its gateway documentation. A healthy
// bot needs a few a day, so a bot that used a quarter of them is broken, and the
// rest is left for whoever repairs it.
const (
	signInWindow = 24 * time.Hour
	signInLimit  = 250
)

// SignIns keeps, across restarts, when the bot signed in.
type SignIns interface {
	// Load returns what Save was given last; nothing when it never was.
	Load(ctx context.Context) ([]time.Time, error)
	Save(ctx context.Context, at []time.Time) error
}

// errSignIns says that the budget of sign-ins is used up.
var errSignIns = errors.New("the bot signed in too often today")

// spendSignIn notes a sign-in at now, or returns errSignIns and notes nothing. A
// budget that cannot be read or written is an error too: signing in unnoticed in
// a loop of restarts would cost the token.
func spendSignIn(ctx context.Context, kept SignIns, now time.Time) error {
	all, err := kept.Load(ctx)
	if err != nil {
		return err
	}
	var recent []time.Time
	for _, at := range all {
		if age := now.Sub(at); age < signInWindow && age > -signInWindow {
			recent = append(recent, at)
		}
	}
	if len(recent) >= signInLimit {
		return errSignIns
	}
	return kept.Save(ctx, append(recent, now))
}

// memorySignIns forgets with the process.
type memorySignIns struct {
	mu sync.Mutex
	at []time.Time
}

// Load returns what was saved last.
func (m *memorySignIns) Load(context.Context) ([]time.Time, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.at, nil
}

// Save keeps it for this process.
func (m *memorySignIns) Save(_ context.Context, at []time.Time) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.at = at
	return nil
}
