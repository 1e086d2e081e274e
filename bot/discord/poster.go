package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base32"
	"errors"
	"net/http"
	"strings"
	"time"

	"blockbell/bot/chat"
)

const (
	// nonceLength is the most the platform takes.
	nonceLength = 25
	// footerLength characters of the hash tell a channel's posts apart: 60 bits.
	footerLength = 12
	// lookBack reaches a little before a post was due, for clocks that differ.
	lookBack = 5 * time.Minute
	// nonceSure is how long the platform surely remembers a nonce ("the past few
	// minutes" in its reference). A post that has been due for longer may have been
	// made by an earlier try that the nonce no longer tells of.
	nonceSure = time.Minute
	// page is how many messages are read at once, the most the platform gives.
	page = 100
)

// keyHash is a short name for a key, safe to show: nobody learns the key from it.
func keyHash(key string) string {
	sum := sha256.Sum256([]byte(key))
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:nonceLength]
}

// keyMark is what stands in the footer of a post.
func keyMark(key string) string { return "#" + keyHash(key)[:footerLength] }

// Post sends an unasked message. The key goes along as a nonce, which makes the
// platform return the earlier message for some minutes, and in the footer, by which
// Find knows the message later. A post that has been due for more than a minute is
// looked for first. Errors: *chat.UnreachableError where trying again is useless,
// *chat.RetryError where it helps.
func (a *Adapter) Post(ctx context.Context, p chat.Post) (chat.Ref, error) {
	if a.Now().Sub(p.At) > nonceSure {
		ref, found, err := a.Find(ctx, p)
		var closed *chat.UnreachableError
		if found || err != nil && !errors.As(err, &closed) { // who may not read may still post
			return ref, err
		}
	}
	channel, err := a.target(ctx, p.To)
	if err != nil {
		return "", a.posting(p.To, err)
	}
	id, err := a.post(ctx, channel, p.Message, postOptions{nonce: keyHash(p.Key), key: keyMark(p.Key)})
	if err != nil {
		return "", a.posting(p.To, err)
	}
	return refOf(channel, id), nil
}

// Find looks for the post among the bot's own messages since it became due.
func (a *Adapter) Find(ctx context.Context, p chat.Post) (chat.Ref, bool, error) {
	channel, err := a.target(ctx, p.To)
	if err != nil {
		return "", false, a.posting(p.To, err)
	}
	me, err := a.id(ctx)
	if err != nil {
		return "", false, a.posting(p.To, err)
	}
	mark, after := keyMark(p.Key), idAt(p.At.Add(-lookBack))
	for {
		var found []message
		if _, err := a.rest.do(ctx, request{
			method: "GET", path: "/channels/" + channel + "/messages?limit=100&after=" + after, again: true,
		}, &found); err != nil {
			return "", false, a.posting(p.To, err)
		}
		for _, m := range found {
			if m.Author != nil && m.Author.ID == me && m.marked(mark) {
				return refOf(channel, m.ID), true, nil
			}
			if later(m.ID, after) {
				after = m.ID
			}
		}
		if len(found) < page {
			return "", false, nil
		}
	}
}

// marked tells whether the key stands in the footer of one of the embeds.
func (m message) marked(mark string) bool {
	for _, e := range m.Embeds {
		if e.Footer.Text == mark {
			return true
		}
	}
	return false
}

// later tells whether an id is the younger one.
func later(id, than string) bool {
	return len(id) > len(than) || len(id) == len(than) && id > than
}

func refOf(channel, message string) chat.Ref { return chat.Ref(channel + "/" + message) }

// posting translates an error for the caller of Post or Find.
func (a *Adapter) posting(to chat.Target, err error) error {
	var none *noChannelError
	if errors.As(err, &none) {
		return &chat.UnreachableError{To: to, Cause: err}
	}
	return postingError(to, err)
}

// target is the channel behind a target.
func (a *Adapter) target(ctx context.Context, to chat.Target) (string, error) {
	switch {
	case to.Person != "":
		return a.directChannel(ctx, to.Person)
	case to.Channel != "":
		return a.channelID(ctx, to.Channel)
	}
	return "", &noChannelError{}
}

// directChannel opens the direct conversation with a person.
func (a *Adapter) directChannel(ctx context.Context, person string) (string, error) {
	person = strings.TrimPrefix(person, "@")
	if id, ok := a.known.direct(person); ok {
		return id, nil
	}
	if !isID(person) {
		return "", &apiError{Code: codeUnknownUser, Text: "that is no person's number"}
	}
	var c channel
	_, err := a.rest.do(ctx, request{
		method: "POST", path: "/users/@me/channels", body: map[string]string{"recipient_id": person}, again: true,
	}, &c)
	var refused *apiError
	if errors.As(err, &refused) && refused.Status == http.StatusBadRequest { // only the person can be wrong there
		refused.Code = codeInvalidRecipient
	}
	if err != nil {
		return "", err
	}
	a.known.keepDirect(person, c.ID)
	return c.ID, nil
}

// postOptions say how a message is posted.
type postOptions struct {
	nonce string // tells one post from another
	key   string // for the footer; empty: none
	under string // the message it answers; empty: none
}

// post sends a message of the bot to a channel and returns its number.
func (a *Adapter) post(ctx context.Context, channel string, m chat.Message, o postOptions) (string, error) {
	b, files := dress(m, o.key)
	return a.send(ctx, channel, b, files, o)
}

func (a *Adapter) send(ctx context.Context, channel string, b body, files []chat.File, o postOptions) (string, error) {
	b.Nonce, b.Enforce = o.nonce, true
	if o.under != "" {
		b.Reference = &reference{Message: o.under}
	}
	var sent message
	_, err := a.rest.do(ctx, request{method: "POST", path: "/channels/" + channel + "/messages", body: b, files: files, again: true}, &sent)
	return sent.ID, err
}
