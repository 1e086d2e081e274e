package store

import (
	"time"

	"blockbell/store/internal/column"
)

// SignIns returns when the bot signed in on its platform, oldest first, as far
// as SaveSignIns kept it.
func (t *Tx) SignIns() ([]time.Time, error) {
	rows, err := t.q.SignIns(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, func(i column.Instant) time.Time { return i.Time }), nil
}

// SaveSignIns replaces what SignIns returns.
func (t *Tx) SaveSignIns(at []time.Time) error {
	if err := t.q.ForgetSignIns(t.ctx); err != nil {
		return err
	}
	for _, moment := range at {
		if err := t.q.AddSignIn(t.ctx, column.At(moment)); err != nil {
			return err
		}
	}
	return nil
}

// AuthorOfMessage returns the handle of the lifter whose sets came with a
// message; false where no set did.
func (t *Tx) AuthorOfMessage(message string) (string, bool, error) {
	handle, err := t.q.AuthorOfMessage(t.ctx, message)
	if absent(err) {
		return "", false, nil
	}
	return handle, err == nil, err
}

// MarkRemoved notes since when the bot is no longer in its workspace. A mark that
// stands is left as it is.
func (t *Tx) MarkRemoved(at time.Time) error { return t.q.MarkRemoved(t.ctx, column.At(at)) }

// ClearRemoved takes the mark away: the bot is back.
func (t *Tx) ClearRemoved() error { return t.q.ClearRemoved(t.ctx) }

// Removed returns since when the bot is no longer in its workspace; false while
// it is.
func (t *Tx) Removed() (time.Time, bool, error) {
	at, err := t.q.Removed(t.ctx)
	if absent(err) {
		return time.Time{}, false, nil
	}
	return at.Time, err == nil, err
}

// SaveHome notes the number of the server that the data belongs to; the empty one
// forgets it.
func (t *Tx) SaveHome(server string) error {
	if server == "" {
		return t.q.ForgetHome(t.ctx)
	}
	return t.q.SaveHome(t.ctx, server)
}

// Home returns the number of the server that the data belongs to; empty where it
// belongs to none yet.
func (t *Tx) Home() (string, error) {
	server, err := t.q.Home(t.ctx)
	if absent(err) {
		return "", nil
	}
	return server, err
}

// LastEvent returns the moment of the newest event that was worked at; false where
// there was none within the memory of events.
func (t *Tx) LastEvent() (time.Time, bool, error) {
	at, err := t.q.LastEvent(t.ctx)
	if absent(err) {
		return time.Time{}, false, nil
	}
	return at.Time, err == nil, err
}
