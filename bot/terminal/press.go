package terminal

import (
	"context"
	"fmt"
	"hash/fnv"
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
)

// alreadyDone is the whole answer to a press that was made before.
const alreadyDone = "already done"

// press finds the button and delivers the press. A press repeated is delivered
// again with the same event ID: the bot stays silent then, unless a crash had
// swallowed the first one.
func (t *Terminal) press(ctx context.Context, number int, now time.Time, l line) error {
	all, err := t.Memory.Newest(ctx)
	if err != nil {
		return err
	}
	who := t.person(l.person)
	choice := findButton(all, who.ID, l.text, now)
	if choice.record == nil {
		t.complain(ctx, number, who.ID, noButton(l, choice.others))
		return nil
	}
	root := choice.record.root()
	first, err := t.Memory.Press(ctx, root, choice.token, who.ID, now)
	if err != nil {
		return err
	}
	if choice.done {
		t.sayAlreadyDone(now, who.ID)
		return nil
	}
	e := chat.Event{
		ID: pressID(root, choice.token, who.ID), Kind: chat.Pressed, At: now,
		Author: who, Channel: choice.record.Body.Channel, Button: choice.token,
	}
	answered, err := t.deliver(ctx, number, e, choice.record)
	if err == nil && !answered && !first {
		t.sayAlreadyDone(now, who.ID)
	}
	return err
}

// pressID is the same for the same press. The name is only in it as a digest,
// since the IDs of events outlive what is erased about a person.
func pressID(root int64, token, id string) string {
	digest := fnv.New64a()
	digest.Write([]byte(id))
	return fmt.Sprintf("press/%d/%s/%x", root, token, digest.Sum64())
}

func (t *Terminal) sayAlreadyDone(now time.Time, id string) {
	r := Record{At: now, Kind: string(chat.Answer), To: "@" + id, Private: true}
	t.Screen.show(output{record: r, message: chat.Message{Text: alreadyDone}})
}

// choice is what a press leads to.
type choice struct {
	record *Record // nil: no such button
	token  string
	done   bool     // the message changed because this very person pressed it
	others []string // without a record: the labels that can be pressed
}

// findButton looks for the label on the newest message that id can see. A
// message that an edit replaced has no buttons left; one that this person's own
// press replaced answers as done.
func findButton(newestFirst []Record, id, label string, now time.Time) choice {
	var c choice
	latest := map[int64]Record{} // by root: the newest form of each message
	for i, r := range newestFirst {
		newest, replaced := latest[r.root()]
		if !replaced {
			latest[r.root()] = r
		}
		if !visible(r, id) {
			continue
		}
		for _, b := range r.Body.Buttons {
			if !pressable(b, id, now) {
				continue
			}
			mine := replaced && newest.Body.By == id && newest.Body.Token == b.Token
			if strings.EqualFold(b.Label, label) && (!replaced || mine) {
				return choice{record: &newestFirst[i], token: b.Token, done: mine}
			}
			if !replaced && !slices.Contains(c.others, b.Label) {
				c.others = append(c.others, b.Label)
			}
		}
	}
	return c
}

func visible(r Record, id string) bool { return !r.Private || r.To == "@"+id }

func pressable(b Button, id string, now time.Time) bool {
	mine := b.Owner == "" && (len(b.For) == 0 || slices.Contains(b.For, id)) || b.Owner == id
	return mine && (b.Expires.IsZero() || now.Before(b.Expires))
}

func noButton(l line, others []string) string {
	if len(others) == 0 {
		return fmt.Sprintf("there is no button %q, and nothing else @%s can press", l.text, l.person)
	}
	return fmt.Sprintf("there is no button %q; @%s can press: %s", l.text, l.person, strings.Join(others, ", "))
}
