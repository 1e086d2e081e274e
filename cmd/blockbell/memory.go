package main

import (
	"context"
	"encoding/json"
	"math"
	"time"

	"blockbell/bot/terminal"
	"blockbell/store"
)

// memory lets the terminal keep what outlives one run in the bot's own database.
type memory struct {
	store *store.Store
}

var _ terminal.Memory = memory{}

// Clock returns the terminal's stored moment.
func (m memory) Clock(ctx context.Context) (at time.Time, found bool, err error) {
	err = m.store.View(ctx, func(tx *store.Tx) error {
		at, found, err = tx.Clock()
		return err
	})
	return at, found, err
}

// SetClock stores the terminal's moment.
func (m memory) SetClock(ctx context.Context, at time.Time) error {
	return m.store.Update(ctx, func(tx *store.Tx) error { return tx.SetClock(at) })
}

// Add stores a message unless its key is known.
func (m memory) Add(ctx context.Context, r terminal.Record) (id int64, fresh bool, err error) {
	body, err := json.Marshal(r.Body)
	if err != nil {
		return 0, false, err
	}
	err = m.store.Update(ctx, func(tx *store.Tx) error {
		id, fresh, err = tx.AddTerminalMessage(store.TerminalMessage{
			Key: r.Key, At: r.At, Kind: r.Kind, To: r.To, Private: r.Private, Body: body,
		})
		return err
	})
	return id, fresh, err
}

// ByKey looks a message up.
func (m memory) ByKey(ctx context.Context, key string) (r terminal.Record, found bool, err error) {
	err = m.store.View(ctx, func(tx *store.Tx) error {
		row, ok, err := tx.TerminalMessageByKey(key)
		if err != nil || !ok {
			return err
		}
		found = true
		r, err = record(row)
		return err
	})
	return r, found, err
}

// Newest returns all messages, newest first.
func (m memory) Newest(ctx context.Context) (all []terminal.Record, err error) {
	err = m.store.View(ctx, func(tx *store.Tx) error {
		rows, err := tx.TerminalMessages(math.MaxInt32)
		if err != nil {
			return err
		}
		for _, row := range rows {
			r, err := record(row)
			if err != nil {
				return err
			}
			all = append(all, r)
		}
		return nil
	})
	return all, err
}

// Press notes a press.
func (m memory) Press(ctx context.Context, message int64, token, person string, at time.Time) (first bool, err error) {
	err = m.store.Update(ctx, func(tx *store.Tx) error {
		first, err = tx.PressTerminal(message, token, person, at)
		return err
	})
	return first, err
}

// NextEvent counts up over all runs.
func (m memory) NextEvent(ctx context.Context) (n int64, err error) {
	err = m.store.Update(ctx, func(tx *store.Tx) error {
		n, err = tx.NextTerminalEvent()
		return err
	})
	return n, err
}

func record(row store.TerminalMessage) (terminal.Record, error) {
	r := terminal.Record{ID: row.ID, Key: row.Key, At: row.At, Kind: row.Kind, To: row.To, Private: row.Private}
	return r, json.Unmarshal(row.Body, &r.Body)
}
