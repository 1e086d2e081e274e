package bot

import (
	"context"

	"blockbell/bot/chat"
)

// posterFunc is a poster that always succeeds and tells what it posted.
type posterFunc func(chat.Post)

func (f posterFunc) Post(_ context.Context, p chat.Post) (chat.Ref, error) {
	f(p)
	return chat.Ref(p.Key), nil
}

func (posterFunc) Find(context.Context, chat.Post) (chat.Ref, bool, error) { return "", false, nil }
