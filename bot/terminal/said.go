package terminal

import (
	"context"
	"strings"

	"blockbell/bot/chat"
)

// remember keeps the identity of a message, so that a later line can edit or
// delete it. Commands are not messages.
func (t *Terminal) remember(ctx context.Context, e chat.Event) error {
	if strings.HasPrefix(e.Text, "/") {
		return nil
	}
	_, _, err := t.Memory.Add(ctx, saidRecord(e))
	return err
}

// forget notes that the message of e is gone.
func (t *Terminal) forget(ctx context.Context, e chat.Event) error {
	r := saidRecord(e)
	r.Body.Removed = true
	_, _, err := t.Memory.Add(ctx, r)
	return err
}

// saidRecord is addressed to its author: whoever erases what concerns a person
// finds it there.
func saidRecord(e chat.Event) Record {
	return Record{
		Key: "said/" + e.ID, At: e.At, Kind: kindSaid, To: "@" + e.Author.ID, Private: true,
		Body: Body{Channel: e.Channel, Message: e.Message},
	}
}

// lastMessage returns the newest message of a person in a channel that was not
// deleted.
func (t *Terminal) lastMessage(ctx context.Context, author, channel string) (string, bool, error) {
	all, err := t.Memory.Newest(ctx)
	removed := map[string]bool{}
	for _, r := range all {
		switch {
		case r.Kind != kindSaid || r.To != "@"+author || r.Body.Channel != channel:
		case r.Body.Removed:
			removed[r.Body.Message] = true
		case !removed[r.Body.Message]:
			return r.Body.Message, true, nil
		}
	}
	return "", false, err
}
