package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Clock returns the moment at which the terminal's clock stands, and false while
// it was never set.
func (t *Tx) Clock() (time.Time, bool, error) {
	r, err := t.q.Clock(t.ctx)
	if absent(err) {
		return time.Time{}, false, nil
	}
	if err != nil {
		return time.Time{}, false, err
	}
	return r.Time, !r.IsZero(), nil
}

// SetClock moves the terminal's clock; parts under a millisecond are cut off.
func (t *Tx) SetClock(to time.Time) error { return t.q.SetClock(t.ctx, column.At(to)) }

// NextTerminalEvent counts up by one, from 1, also across processes.
func (t *Tx) NextTerminalEvent() (int64, error) { return t.q.NextTerminalEvent(t.ctx) }

// TerminalMessage is a message the terminal showed.
type TerminalMessage struct {
	ID      int64
	Key     string // unique; empty for messages that nobody posts twice
	At      time.Time
	Kind    string
	To      string
	Private bool
	Body    json.RawMessage
}

// AddTerminalMessage keeps a message and returns its number. Where the key is
// known, nothing is kept, fresh is false and the number is the earlier one's.
func (t *Tx) AddTerminalMessage(m TerminalMessage) (id int64, fresh bool, err error) {
	id, err = t.q.AddTerminalMessage(t.ctx, sqlgen.AddTerminalMessageParams{
		Key: column.Text(m.Key), AtMs: column.At(m.At), Kind: m.Kind, Recipient: m.To, Private: m.Private,
		BodyJson: column.JSON(m.Body),
	})
	if !absent(err) {
		return id, err == nil, err
	}
	r, err := t.q.TerminalMessageByKey(t.ctx, column.Text(m.Key))
	return r.ID, false, err
}

// TerminalMessageByKey finds a message that was posted under a key.
func (t *Tx) TerminalMessageByKey(key string) (TerminalMessage, bool, error) {
	r, err := t.q.TerminalMessageByKey(t.ctx, column.Text(key))
	if absent(err) {
		return TerminalMessage{}, false, nil
	}
	if err != nil {
		return TerminalMessage{}, false, err
	}
	return terminalMessage(r), true, nil
}

// TerminalMessages returns the last messages, newest first.
func (t *Tx) TerminalMessages(limit int) ([]TerminalMessage, error) {
	rows, err := t.q.TerminalMessages(t.ctx, int64(limit))
	if err != nil {
		return nil, err
	}
	return each(rows, terminalMessage), nil
}

// PressTerminal keeps that a person pressed a button and tells whether it was
// the first time. NotFound where the message is unknown.
func (t *Tx) PressTerminal(message int64, token, person string, at time.Time) (bool, error) {
	n, err := t.q.PressTerminal(t.ctx, sqlgen.PressTerminalParams{
		MessageID: message, Token: token, Person: person, AtMs: column.At(at),
	})
	if dangling(err) {
		return false, planner.Errorf(planner.NotFound, "", "there is no message number %d", message)
	}
	return n == 1, err
}

func terminalMessage(r sqlgen.TerminalMessage) TerminalMessage {
	return TerminalMessage{
		ID: r.ID, Key: string(r.Key), At: r.AtMs.Time, Kind: r.Kind, To: r.Recipient, Private: r.Private,
		Body: r.BodyJson.Raw(),
	}
}
