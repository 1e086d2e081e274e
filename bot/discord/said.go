package discord

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"blockbell/bot/chat"
)

// messageCame takes a message that somebody wrote or changed.
func (a *Adapter) messageCame(kind string, data json.RawMessage) {
	var m message
	if err := json.Unmarshal(data, &m); err != nil {
		a.Log.Error("unreadable message event", "error", err)
		return
	}
	if !a.forUs(m) {
		return
	}
	if kind == "MESSAGE_CREATE" {
		a.messageWritten(m)
	} else if m.Edited != "" { // otherwise the platform added a preview, and nobody changed anything
		a.messageEdited(m)
	}
}

// forUs tells whether a message was written by a person, here or to the bot.
func (a *Adapter) forUs(m message) bool {
	return m.Author != nil && !m.Author.Bot && !m.Author.System && m.WebhookID == "" &&
		(m.Type == messagePlain || m.Type == messageReply) && (m.GuildID == "" || a.isHome(m.GuildID))
}

// messageWritten queues a message. One without words is a picture, or has words
// that the bot may not read; one that only mentions the bot asks for help.
func (a *Adapter) messageWritten(m message) {
	a.authors.keep(m.ID, m.Author.ID)
	text, called := a.words(m.Content)
	if called && text == "" {
		text = "/help"
	}
	if text == "" {
		return
	}
	e := chat.Event{ID: m.ID, Kind: chat.Said, Message: m.ID, Text: text}
	e.At, _ = madeAt(m.ID)
	a.queueMessage(m, e)
}

// messageEdited queues a change. No words mean that they were taken out, but only
// where the bot may read them at all.
func (a *Adapter) messageEdited(m message) {
	a.authors.keep(m.ID, m.Author.ID)
	text, _ := a.words(m.Content)
	if text == "" && !a.Content && m.GuildID != "" {
		return
	}
	e := chat.Event{ID: m.ID + "/edit/" + m.Edited, Kind: chat.Edited, Message: m.ID, Text: text}
	var ok bool
	if e.At, ok = parseTime(m.Edited); !ok {
		e.At, _ = madeAt(m.ID)
	}
	a.queueMessage(m, e)
}

// queueMessage has the bot answer a message in its author's turn.
func (a *Adapter) queueMessage(m message, e chat.Event) {
	ok := a.crew.add(m.Author.ID, func() {
		defer a.guard(e.ID, func() { a.apologiseFor(e, m) })
		ctx, cancel := context.WithTimeout(a.background(), a.Timing.Work)
		defer cancel()
		e.Author = a.person(ctx, *m.Author, m.Member)
		a.handleMessage(ctx, e, m.ChannelID, m.GuildID)
	})
	if !ok {
		a.Log.Error("too many events wait; one was dropped", "event", e.ID)
	}
}

// apologiseFor tells somebody directly that a message was not worked at.
func (a *Adapter) apologiseFor(e chat.Event, m message) {
	if m.GuildID != "" {
		e.Channel = "#" + m.ChannelID // said among others, so that the answer goes another way
	}
	a.answerMessage(e, m.ChannelID, apology(e.ID))
}

// handleMessage asks the bot and has what it says sent.
func (a *Adapter) handleMessage(ctx context.Context, e chat.Event, channel, guild string) {
	var err error
	if e.Channel, err = a.channelName(ctx, channel, guild); err != nil {
		a.Log.Error("a message was left alone: its channel has no name", "event", e.ID, "error", err)
		return
	}
	reply, err := a.Handler.Handle(ctx, e)
	if err != nil {
		a.Log.Error("an event failed", "event", e.ID, "error", err)
	}
	a.answerMessage(e, channel, reply)
}

// messageGone queues the removal of messages, each in its author's turn. The
// platform does not say whose they were.
func (a *Adapter) messageGone(data json.RawMessage) {
	var d deletion
	if json.Unmarshal(data, &d) != nil || d.GuildID != "" && !a.isHome(d.GuildID) {
		return
	}
	ids := d.IDs
	if d.ID != "" {
		ids = slices.Concat(ids, []string{d.ID})
	}
	at := a.Now()
	for _, id := range ids {
		e := chat.Event{ID: id + "/delete", Kind: chat.Deleted, At: at, Message: id}
		person, known := a.authors.find(id)
		if !known && a.AuthorOf == nil {
			continue
		}
		key := person
		if !known {
			key = id
		}
		a.crew.add(key, func() {
			defer a.guard(e.ID, nil)
			ctx, cancel := context.WithTimeout(a.background(), a.Timing.Work)
			defer cancel()
			if !known {
				if person, known = a.AuthorOf(ctx, id); !known {
					return
				}
			}
			e.Author = chat.Person{ID: person}
			a.handleMessage(ctx, e, d.ChannelID, d.GuildID)
		})
	}
}

// words is the text of a message as the bot is to read it. A mention of the bot at
// the start only says whom it is for (called); with nothing behind it, it asks for
// help. In typed commands mentions become names, elsewhere they stay as they are:
// "@8" is an effort, not a person.
func (a *Adapter) words(content string) (text string, called bool) {
	text = strings.TrimSpace(content)
	a.mu.Lock()
	me := a.me
	a.mu.Unlock()
	for _, mention := range []string{"<@" + me + ">", "<@!" + me + ">"} {
		if rest, found := strings.CutPrefix(text, mention); found && me != "" {
			text, called = strings.TrimSpace(strings.TrimLeft(rest, ":, ")), true
		}
	}
	if strings.HasPrefix(text, "/") {
		text = a.plain(text)
	}
	return text, called
}
