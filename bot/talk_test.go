package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/store"
	"blockbell/store/storetest"
)

// talk is a conversation with a bot over a real database.
type talk struct {
	t     testing.TB
	store *store.Store
	bot   *Bot
	now   time.Time
	n     int
	last  map[string][]chat.Button // the buttons each person can press, newest first
}

func newTalk(t testing.TB, now string) *talk {
	t.Helper()
	s := storetest.New(t)
	k := &talk{t: t, store: s, bot: New(Config{Store: s, Captains: []string{"cap"}}), last: map[string][]chat.Button{}}
	k.clock(now)
	return k
}

func (k *talk) clock(at string) {
	k.t.Helper()
	now, err := time.Parse(time.RFC3339, at)
	if err != nil {
		k.t.Fatal(err)
	}
	k.now = now
}

func (k *talk) handle(e chat.Event) chat.Reply {
	k.t.Helper()
	r, err := k.bot.Handle(context.Background(), e)
	if err != nil {
		k.t.Fatalf("%s: %v", e.Text, err)
	}
	if len(r.Message.Buttons) > 0 {
		k.last[e.Author.ID] = append(append([]chat.Button{}, r.Message.Buttons...), k.last[e.Author.ID]...)
	}
	return r
}

// event makes the next event of a person.
func (k *talk) event(who string) chat.Event {
	k.n++
	return chat.Event{ID: fmt.Sprint("e", k.n), Kind: chat.Said, At: k.now, Author: chat.Person{ID: who, Name: who},
		Channel: "#training-log", Message: fmt.Sprint("m", k.n)}
}

// say answers what a person wrote.
func (k *talk) say(who, text string) chat.Reply {
	k.t.Helper()
	e := k.event(who)
	e.Text = text
	return k.handle(e)
}

// press presses the newest button of that label that the person was shown.
func (k *talk) press(who, label string) chat.Reply {
	k.t.Helper()
	for _, b := range k.last[who] {
		if b.Label == label {
			return k.pressToken(who, b.Token)
		}
	}
	k.t.Fatalf("%s has no button %q", who, label)
	return chat.Reply{}
}

func (k *talk) pressToken(who, token string) chat.Reply {
	k.t.Helper()
	e := k.event(who)
	e.Kind, e.Button = chat.Pressed, token
	return k.handle(e)
}

// ok fails the test when the reply is an error.
func (k *talk) ok(r chat.Reply) chat.Reply {
	k.t.Helper()
	if r.Kind == chat.Failure {
		k.t.Fatalf("unexpected error: %s", r.Message.Text)
	}
	return r
}

// refused fails the test unless the reply is an error that says all of the words.
func (k *talk) refused(r chat.Reply, words ...string) {
	k.t.Helper()
	if r.Kind != chat.Failure {
		k.t.Fatalf("not refused: %s %s", r.Message.Title, r.Message.Text)
	}
	for _, w := range words {
		if !strings.Contains(r.Message.Text, w) {
			k.t.Errorf("the error %q does not say %q", r.Message.Text, w)
		}
	}
}

// data reads the reply's data into v.
func data[T any](t testing.TB, r chat.Reply) T {
	t.Helper()
	raw, err := json.Marshal(r.Message.Data)
	if err != nil {
		t.Fatal(err)
	}
	var v T
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatalf("%v in %s", err, raw)
	}
	return v
}

// planned is a lifter with an agreed plan to a meet.
func (k *talk) planned(who, date string) {
	k.t.Helper()
	k.ok(k.say(who, "/me set level:intermediate category:men bodyweight:90"))
	k.ok(k.say(who, `/meet add name:"River Open" date:`+date+` kind:main`))
	k.ok(k.say(who, "/season build"))
	k.ok(k.press(who, "Accept plan"))
}
