package discord

import (
	"context"
	"errors"
	"net/url"

	"blockbell/bot/chat"
)

// replyTo answers a message. Public answers stand under it; private ones go to
// the person directly.
func (a *Adapter) replyTo(ctx context.Context, e chat.Event, channel string, r chat.Reply) error {
	m := r.Message
	switch r.Kind {
	case chat.Silent:
		return nil
	case chat.React:
		err := a.react(ctx, channel, e.Message, r.Reaction)
		switch {
		case err == nil:
			a.allowed(channel, toReact)
			return nil
		case coded(err, codeUnknownMessage, codeUnknownChannel): // what it stood under is gone, and so is the reason
			return nil
		case r.Reaction == "", !coded(err, codeMissingPermission, codeMissingAccess, codeReactionBlocked):
			return err
		}
		a.tellOnce(channel, toReact, e.Channel, err)
		m = chat.Message{Text: joined(r.Reaction, m.Text)} // a line instead of a mark
	}
	private := (m.Private || r.Kind == chat.Failure) && e.Channel != ""
	if private {
		return a.replyPrivately(ctx, e, channel, m)
	}
	_, err := a.post(ctx, channel, m, postOptions{nonce: keyHash("reply/" + e.ID), under: e.Message})
	switch {
	case err == nil:
		a.allowed(channel, toWrite)
	case e.Channel != "" && coded(err, codeUnknownChannel): // deleted meanwhile; the person still asked
		return a.replyDirectly(ctx, e, m)
	case e.Channel != "" && coded(err, codeMissingAccess, codeMissingPermission, codeArchived):
		a.tellOnce(channel, toWrite, e.Channel, err)
		return a.replyDirectly(ctx, e, m)
	}
	return err
}

// replyDirectly sends an answer to the person.
func (a *Adapter) replyDirectly(ctx context.Context, e chat.Event, m chat.Message) error {
	direct, err := a.directChannel(ctx, e.Author.ID)
	if err != nil {
		return err
	}
	_, err = a.post(ctx, direct, m, postOptions{nonce: keyHash("reply/" + e.ID)})
	return err
}

// What the bot may lack the right to in a channel.
const (
	toWrite = "write"
	toReact = "react"
)

// tellOnce logs that the bot lacks a right in a channel: the first time only, since
// every message there would repeat it, and again once it had the right meanwhile.
func (a *Adapter) tellOnce(channel, what, name string, err error) {
	a.mu.Lock()
	told := a.told[channel+what]
	a.told[channel+what] = true
	a.mu.Unlock()
	if !told {
		a.Log.Error("the bot lacks a right; blockbell check says which", "channel", name, "to", what, "error", err)
	}
}

// allowed notes that the bot has a right in a channel.
func (a *Adapter) allowed(channel, what string) {
	a.mu.Lock()
	defer a.mu.Unlock()
	delete(a.told, channel+what)
}

// codeReactionBlocked: the person blocked the bot.
const codeReactionBlocked = 90001

func (a *Adapter) react(ctx context.Context, channel, message, mark string) error {
	_, err := a.rest.do(ctx, request{
		method: "PUT", again: true,
		path: "/channels/" + channel + "/messages/" + message + "/reactions/" + url.PathEscape(mark) + "/@me",
	}, nil)
	return err
}

// replyPrivately sends an answer to the person, or offers it in the channel behind
// a button that shows it to that person only.
func (a *Adapter) replyPrivately(ctx context.Context, e chat.Event, channel string, m chat.Message) error {
	err := a.replyDirectly(ctx, e, m)
	var closed *chat.UnreachableError
	if !errors.As(postingError(chat.Target{Person: e.Author.ID}, err), &closed) {
		return err
	}
	m.Private = true
	id, _ := customID(idHeld, a.held.keep(e.Author.ID, m, a.Now()))
	offer, _ := dress(chat.Message{Text: "I have an answer for you, and you take no direct messages from me. Only you will see it here."}, "")
	offer.Components = &[]any{row{Type: 1, Components: []button{newButton("Show me", id, true)}}}
	_, err = a.send(ctx, channel, offer, nil, postOptions{nonce: keyHash("offer/" + e.ID), under: e.Message})
	return err
}
