package bot

import (
	"context"
	"errors"

	"blockbell/bot/chat"
	"blockbell/store"
)

// readOnly answers a command that only reads from what was committed last: nobody waits for the
// one place to write, and nothing has to reach the disk before the answer goes out.
// done is false for every other event, and where it turned out that something must
// be written after all, as for a newcomer; the event then takes the usual way from
// its start, and nothing of the attempt is left.
//
// Only structured commands come here. A typed one is a message, which the platform
// shows again to a bot that was away, so its ID must be remembered.
func (b *Bot) readOnly(ctx context.Context, e chat.Event) (reply chat.Reply, done bool, err error) {
	if e.Kind != chat.Asked || !b.table.reads(e.Command) {
		return chat.Reply{}, false, nil
	}
	err = b.store.Glance(ctx, func(tx *store.Tx) error {
		t, err := b.newTurn(tx, e)
		if err != nil {
			return err
		}
		reply, err = t.route()
		return err
	})
	if errors.Is(err, store.ErrWriteInView) {
		return chat.Reply{}, false, nil
	}
	return reply, true, err
}

// reads tells whether the words name a command that only reads.
func (cs table) reads(words []string) bool {
	c, _, err := cs.find(words)
	return err == nil && c.Reads
}
