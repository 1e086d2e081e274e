package terminal

import (
	"context"
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
)

// speak turns a said, edited or deleted message into an event.
func (t *Terminal) speak(ctx context.Context, number int, now time.Time, l line) error {
	text, files, err := t.attached(l.text)
	if err != nil {
		t.complain(ctx, number, strings.ToLower(l.person), err.Error())
		return nil
	}
	id, err := t.Memory.NextEvent(ctx)
	if err != nil {
		return err
	}
	e := chat.Event{
		ID: fmt.Sprintf("terminal/%d", id), Kind: chat.Said, At: now,
		Author: t.person(l.person), Channel: l.channel, Text: text, Files: files,
	}
	e.Message = e.ID
	if l.verb == say {
		if err := t.remember(ctx, e); err != nil {
			return err
		}
		_, err = t.deliver(ctx, number, e, nil)
		return err
	}
	return t.change(ctx, number, e, l)
}

// change delivers the edit or the removal of the person's newest message. A
// removal is noted last: a run killed in between can remove it again.
func (t *Terminal) change(ctx context.Context, number int, e chat.Event, l line) error {
	message, found, err := t.lastMessage(ctx, e.Author.ID, e.Channel)
	if err != nil {
		return err
	}
	if !found {
		t.complain(ctx, number, e.Author.ID, fmt.Sprintf("@%s has written no message in %s that is still there", l.person, l.channel))
		return nil
	}
	e.Kind, e.Message = chat.Edited, message
	if l.verb == remove {
		e.Kind = chat.Deleted
	}
	if _, err := t.deliver(ctx, number, e, nil); err != nil || l.verb == edit {
		return err
	}
	return t.forget(ctx, e)
}

// deliver hands e to the bot and prints the answer; answered is false when the
// bot stays silent. pressed is the record whose button was pressed, nil for
// other events.
func (t *Terminal) deliver(ctx context.Context, number int, e chat.Event, pressed *Record) (answered bool, err error) {
	e.Progress = t.progress(e)
	reply, failed := t.handle(ctx, e)
	t.kept = t.kept || failed == nil && reply.Kind != chat.Failure
	if reply.Kind == chat.Silent {
		return false, failed
	}
	if failed != nil { // the reply has words and a reference for the person
		t.Log.Error("an event failed", "reference", e.ID, "line", number, "error", failed)
	}
	if failed != nil || reply.Unknown {
		t.complaints++
	}
	files, err := t.Screen.save(reply.Message.Files)
	if err != nil {
		return true, err
	}
	r := answerRecord(e, reply, pressed)
	r.Body.Files = files
	if err := t.keepAnswer(ctx, r, pressed); err != nil {
		return true, err
	}
	o := output{record: r, reaction: reply.Reaction, message: reply.Message}
	if reply.Kind == chat.Failure {
		o.line = number
	}
	t.Screen.show(o)
	return true, nil
}

// keepAnswer stores what a later press may need: an answer with buttons, or one
// that takes the buttons of another away. An answer that erased the message it
// replaces leaves no trace of its own.
func (t *Terminal) keepAnswer(ctx context.Context, r Record, pressed *Record) error {
	replaces := r.Body.Root != 0
	if replaces {
		var err error
		if _, replaces, err = t.Memory.ByKey(ctx, pressed.Key); err != nil {
			return err
		}
	}
	if len(r.Body.Buttons) == 0 && !replaces {
		return nil
	}
	_, _, err := t.Memory.Add(ctx, r)
	return err
}

// handle asks the bot; a panic becomes an error, so that the next line goes on.
func (t *Terminal) handle(ctx context.Context, e chat.Event) (reply chat.Reply, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			reply, err = chat.Reply{}, fmt.Errorf("panic: %v\n%s", cause, debug.Stack())
		}
	}()
	return t.Handler.Handle(ctx, e)
}

// answerRecord is what is kept of a reply. An update takes the place of the
// record whose button was pressed.
func answerRecord(e chat.Event, reply chat.Reply, pressed *Record) Record {
	r := Record{
		Key: "answer/" + e.ID, At: e.At, Kind: string(reply.Kind),
		To: "@" + e.Author.ID, Private: reply.Message.Private,
		Body: Body{Channel: e.Channel, Buttons: keep(reply.Message.Buttons)},
	}
	if pressed != nil && reply.Kind == chat.Update {
		r.To, r.Private = pressed.To, pressed.Private
		r.Body.Root, r.Body.By, r.Body.Token = pressed.root(), e.Author.ID, e.Button
	}
	return r
}

// person makes the author of an event out of a typed name.
func (t *Terminal) person(name string) chat.Person {
	id := strings.ToLower(name)
	return chat.Person{ID: id, Name: name, Captain: slices.Contains(t.Captains, id)}
}
