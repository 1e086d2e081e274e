package terminal

import (
	"context"
	"errors"
	"strconv"

	"blockbell/bot/chat"
)

// Poster puts unasked messages on the screen, each key once: the key is stored
// first, and only then is the message printed.
type Poster struct {
	Memory Memory
	Screen *Screen
}

var _ chat.Poster = (*Poster)(nil)

// Post stores and prints p. A key that was posted before returns the earlier
// identity and prints nothing.
func (p *Poster) Post(ctx context.Context, post chat.Post) (chat.Ref, error) {
	if ref, found, err := p.Find(ctx, post); err != nil || found {
		return ref, err
	}
	r := Record{Key: postKey(post), At: post.At.UTC(), Kind: kindPost, To: post.To.Channel}
	if post.To.Person != "" {
		r.Kind, r.To, r.Private = kindDirect, "@"+post.To.Person, true
	}
	if r.To == "" {
		return "", &chat.UnreachableError{To: post.To, Cause: errors.New("neither a channel nor a person")}
	}
	files, err := p.Screen.save(post.Message.Files)
	if err != nil {
		return "", err
	}
	r.Body = Body{Channel: post.To.Channel, Buttons: keep(post.Message.Buttons), Files: files, Facts: post.Facts}
	id, fresh, err := p.Memory.Add(ctx, r)
	if err != nil || !fresh {
		return ref(id), err
	}
	p.Screen.show(output{record: r, message: post.Message})
	return ref(id), nil
}

// Find looks for an earlier message with the key of post.
func (p *Poster) Find(ctx context.Context, post chat.Post) (chat.Ref, bool, error) {
	r, found, err := p.Memory.ByKey(ctx, postKey(post))
	if err != nil || !found {
		return "", false, err
	}
	return ref(r.ID), true, nil
}

// postKey keeps posts apart from the answers, whose keys are made here.
func postKey(post chat.Post) string { return "post/" + post.Key }

func ref(id int64) chat.Ref { return chat.Ref(strconv.FormatInt(id, 10)) }

func keep(buttons []chat.Button) []Button {
	var kept []Button
	for _, b := range buttons {
		kept = append(kept, Button{Label: b.Label, Token: b.Token, Owner: b.Owner, For: b.For, Expires: b.Expires})
	}
	return kept
}
