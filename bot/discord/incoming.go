package discord

import (
	"context"
	"encoding/json"

	"blockbell/bot/chat"
)

// interactionCame begins to answer an interaction: what is too old or came before
// is dropped before any work, and the time to answer runs from here.
func (a *Adapter) interactionCame(data json.RawMessage) {
	var in interaction
	if err := json.Unmarshal(data, &in); err != nil {
		a.Log.Error("unreadable interaction", "error", err)
		return
	}
	who := in.who()
	age := a.skew.age(in.ID)
	switch {
	case who == nil || who.Bot || !a.recent.fresh(in.ID):
		return
	case age > tooOld:
		a.Log.Warn("an interaction came too late to be answered", "event", in.ID, "age", age)
		a.beside("comparing clocks", a.compareClocks)
		return
	}
	if in.Type == interactionAutocomplete {
		a.suggestBeside(in)
		return
	}
	x := a.newExchange(in, age)
	if !a.crew.add(who.ID, func() { a.workAt(x) }) {
		a.Log.Error("too many events wait; one was dropped", "event", in.ID)
		x.finish()
	}
}

// workAt has the bot answer an interaction and sends what it says.
func (a *Adapter) workAt(x *exchange) {
	defer x.finish()
	defer a.guard(x.in.ID, x.apologise)
	ctx, cancel := context.WithTimeout(a.background(), a.Timing.Work)
	defer cancel()
	if x.in.GuildID != "" && !a.isHome(x.in.GuildID) {
		x.say(chat.Message{Private: true, Text: "I work for another server and know nobody here."})
		return
	}
	if m, mine := a.ownButton(x.in); mine {
		x.say(m)
		return
	}
	e := a.eventOf(ctx, x.in)
	e.Progress = x.progress
	files, wrong := a.filesOf(ctx, x.in)
	if wrong != "" {
		x.say(chat.Message{Private: true, Text: wrong})
		return
	}
	e.Files = files
	reply, err := a.Handler.Handle(ctx, e)
	if err != nil {
		a.Log.Error("an event failed", "event", e.ID, "error", err)
		if reply.Kind == chat.Silent {
			x.apologise()
			return
		}
	}
	x.reply(reply)
}

// ownButton answers the buttons that belong to the adapter, and those that no
// version of it knows.
func (a *Adapter) ownButton(in interaction) (chat.Message, bool) {
	if in.Type == interactionCommand {
		return chat.Message{}, false
	}
	kind, token := readID(in.Data.CustomID)
	switch kind {
	case idButton:
		return chat.Message{}, false
	case idHeld:
		return a.held.answer(token, in.who().ID, a.Now()), true
	}
	return chat.Message{Private: true, Text: "I no longer know that button. Please ask again and use the new one."}, true
}
