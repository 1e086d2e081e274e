package nudge_test

import (
	"context"
	"errors"
	"fmt"

	"blockbell/bot/chat"
)

// board is a platform in memory: it keeps what was posted and fails as told.
type board struct {
	posts []chat.Post
	finds int
	// before fails an attempt before it is accepted, after one that was accepted.
	before, after func(chat.Post) error
	// forgets makes the platform post a known key again, as it does when the
	// window in which it recognises repetitions has passed.
	forgets bool
	find    func(chat.Post) error
}

var _ chat.Poster = (*board)(nil)

func (b *board) Post(_ context.Context, p chat.Post) (chat.Ref, error) {
	if b.before != nil {
		if err := b.before(p); err != nil {
			return "", err
		}
	}
	ref, known := b.ref(p.Key)
	if !known || b.forgets {
		b.posts = append(b.posts, p)
		ref, _ = b.ref(p.Key)
	}
	if b.after != nil {
		if err := b.after(p); err != nil {
			return "", err
		}
	}
	return ref, nil
}

func (b *board) Find(_ context.Context, p chat.Post) (chat.Ref, bool, error) {
	b.finds++
	if b.find != nil {
		if err := b.find(p); err != nil {
			return "", false, err
		}
	}
	ref, known := b.ref(p.Key)
	return ref, known, nil
}

func (b *board) ref(key string) (chat.Ref, bool) {
	for i, p := range b.posts {
		if p.Key == key {
			return chat.Ref(fmt.Sprintf("message-%d", i+1)), true
		}
	}
	return "", false
}

// keys lists the posts in order.
func (b *board) keys() []string {
	var keys []string
	for _, p := range b.posts {
		keys = append(keys, p.Key)
	}
	return keys
}

var errDown = errors.New("the platform is down")

// always fails every attempt, once the first alone.
func always(err error) func(chat.Post) error { return func(chat.Post) error { return err } }

func once(err error) func(chat.Post) error {
	return func(chat.Post) error {
		e := err
		err = nil
		return e
	}
}
