package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

// mineShown answers 'Mine' under the club's post: what the post only counted, for
// the eyes of the one who pressed.
func mineShown(t *turn, _ store.Button) (chat.Reply, error) {
	m, err := nudge.Mine(t.tx, t.speaker.ID, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	return private(m), nil
}
