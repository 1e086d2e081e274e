package discord

import (
	"context"
	"errors"
	"sync"
	"time"

	"blockbell/bot/chat"
)

// tokenLife is how long an interaction can be answered; the platform allows 15
// minutes and counts later tries as offences.
const tokenLife = 14 * time.Minute

// The ways of answering an interaction first. Source: interaction callback types.
const (
	callbackMessage     = 4
	callbackDefer       = 5 // a message will come; ours are private ones
	callbackDeferUpdate = 6 // the message with the button will perhaps change
	callbackUpdate      = 7
	callbackSuggest     = 8
	callbackForm        = 9
)

type callback struct {
	Type int `json:"type"`
	Data any `json:"data,omitempty"`
}

// stage is how far the answering of an interaction has come.
type stage int

const (
	stageNew      stage = iota // nothing was sent yet
	stageDeferred              // a message is promised; it shows to the person only
	stageQuiet                 // the press was acknowledged, nothing is promised
	stageDone
	stageLost // the platform takes no answer
)

// exchange is the answering of one interaction. Where the answer takes too long it
// defers by itself, so that the person is told that work is under way.
type exchange struct {
	a      *Adapter
	in     interaction
	first  context.Context // ends when the first answer is too late
	later  context.Context // ends with the interaction's token
	cancel []context.CancelFunc
	timer  *time.Timer

	mu    sync.Mutex // held while something is sent
	stage stage

	way way // how far the work has come, as it was shown last
}

// newExchange starts the time to answer; age is what has passed of it already.
func (a *Adapter) newExchange(in interaction, age time.Duration) *exchange {
	x := &exchange{a: a, in: in}
	work := a.background()
	var cancel context.CancelFunc
	// An event that was long under way still gets a moment: the platform's clock
	// decides in the end whether the answer is late.
	x.first, cancel = context.WithTimeout(work, max(a.Timing.Answer-age, 500*time.Millisecond))
	x.cancel = append(x.cancel, cancel)
	x.later, cancel = context.WithTimeout(work, tokenLife)
	x.cancel = append(x.cancel, cancel)
	x.mu.Lock()
	defer x.mu.Unlock()
	x.timer = time.AfterFunc(max(a.Timing.Defer-age, 0), x.deferNow)
	return x
}

// finish ends the exchange and waits for a deferral that is being sent.
func (x *exchange) finish() {
	x.timer.Stop()
	x.mu.Lock()
	defer x.mu.Unlock()
	x.stage = stageDone
	for _, cancel := range x.cancel {
		cancel()
	}
}

// pressed tells whether the interaction came from a message that can change.
func (x *exchange) pressed() bool { return x.in.Type != interactionCommand && x.in.Message != nil }

// deferNow tells the platform that the answer will come.
func (x *exchange) deferNow() {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.stage != stageNew {
		return
	}
	c, then := callback{Type: callbackDefer, Data: map[string]int{"flags": flagEphemeral}}, stageDeferred
	if x.pressed() {
		c, then = callback{Type: callbackDeferUpdate}, stageQuiet
	}
	if err := x.open(c, nil); err != nil && x.stage == stageLost {
		return
	}
	// Where no answer came, the deferral may have been heard all the same; the
	// answer itself will show.
	x.stage = then
}

// open sends the first answer. The lock is held.
func (x *exchange) open(c callback, files []chat.File) error {
	repeated, err := x.a.rest.do(x.first, request{
		method: "POST", path: "/interactions/" + x.in.ID + "/" + x.in.Token + "/callback",
		body: c, files: files, again: true, try: x.a.Timing.Answer / 2,
	}, nil)
	switch {
	case err == nil, repeated && coded(err, codeAcknowledged): // the first sending was heard
		return nil
	case coded(err, codeUnknownInteraction, codeAcknowledged):
		// Too late, or another process answered a second delivery.
		x.stage = stageLost
		x.a.Log.Warn("an interaction can no longer be answered", "event", x.in.ID, "error", err)
	default:
		x.a.Log.Warn("the first answer to an interaction failed", "event", x.in.ID, "error", err)
	}
	return err
}

// reply sends what the bot says.
func (x *exchange) reply(r chat.Reply) {
	m := r.Message
	switch r.Kind {
	case chat.Silent:
		x.nothing()
		return
	case chat.React:
		m.Private, m.Text = true, joined(r.Reaction, m.Text)
	case chat.Failure:
		m.Private = true
	case chat.Update:
		if x.pressed() && !(m.Private && x.public()) {
			x.update(m)
			return
		}
	}
	if r.Form != nil && x.show(*r.Form) {
		return
	}
	x.say(m)
}

// joined puts a mark before words, where there are any.
func joined(mark, words string) string {
	if mark == "" || words == "" {
		return mark + words
	}
	return mark + " " + words
}

// public tells whether others see the message whose button was pressed.
func (x *exchange) public() bool {
	return x.in.GuildID != "" && x.in.Message.Flags&flagEphemeral == 0
}

// nothing settles an interaction to which the bot says nothing: it was answered
// before, perhaps by a process that ended before the answer went out.
func (x *exchange) nothing() {
	x.mu.Lock()
	stage, pressed := x.stage, x.pressed()
	if stage == stageNew && pressed {
		_ = x.open(callback{Type: callbackDeferUpdate}, nil)
		x.stage = stageDone
	}
	x.mu.Unlock()
	if !pressed {
		x.say(chat.Message{Private: true, Text: "Already done."})
	}
}

// show shows a form; false where it is too late for one or it does not fit.
func (x *exchange) show(f chat.Form) bool {
	s, ok := dressForm(f)
	x.mu.Lock()
	defer x.mu.Unlock()
	if !ok || x.stage != stageNew || x.in.Type == interactionForm {
		return false
	}
	if err := x.open(callback{Type: callbackForm, Data: s}, nil); err != nil && x.stage != stageLost {
		x.a.Log.Error("a form was not shown", "event", x.in.ID, "error", err)
	}
	x.stage = stageDone
	return true
}

// apologise tells the person that something broke, with a reference that also
// stands in the log.
func (x *exchange) apologise() { x.say(apology(x.in.ID).Message) }

// apology is what is said then.
func apology(reference string) chat.Reply {
	return chat.Reply{Kind: chat.Failure, Message: chat.Message{
		Private: true,
		Text:    "Something went wrong on my side. Please try again; if it happens again, tell your captain the reference " + reference + ".",
	}}
}

// failed logs that an answer did not reach the person.
func (x *exchange) failed(err error) {
	if err != nil && !errors.Is(err, context.Canceled) {
		x.a.Log.Error("an answer was not delivered", "event", x.in.ID, "error", err)
	}
}
