package bot

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
)

func TestScheduledAnnouncementIsPostedOnceAtItsTime(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club settings zone:Europe/Lisbon"))
	k.ok(k.say("cap", `/club announce text:"Gym closes early" at:"2027-07-01 18:00"`))
	k.ok(k.press("cap", "Schedule it"))
	k.ok(k.press("cap", "Schedule it")) // done already
	k.clock("2027-07-01T16:59:00Z")
	if got := k.due(); len(got) != 0 {
		t.Fatalf("posted before its time: %+v", got)
	}
	k.clock("2027-07-01T17:00:00Z") // summer time
	if got := k.due(); len(got) != 1 || got[0].Message.Text != "Gym closes early" || !got[0].At.Equal(k.now) {
		t.Fatalf("%+v", got)
	}
	if got := k.due(); len(got) != 0 {
		t.Errorf("posted again: %+v", got)
	}
}

func TestScheduledAnnouncementCanBeTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", `/club announce text:"Gym closes early" at:"2027-01-05 18:00"`))
	k.ok(k.press("cap", "Schedule it"))
	r := k.ok(k.say("cap", "/club announced"))
	if len(r.Message.Fields) != 1 || !strings.Contains(r.Message.Fields[0].Value, "Gym closes early") {
		t.Errorf("the list is %+v", r.Message)
	}
	k.refused(k.say("ana", "/club announced"), "captain")
	k.ok(k.press("cap", "Take back 1"))
	k.clock("2027-01-05T18:30:00Z")
	if got := k.due(); len(got) != 0 {
		t.Errorf("posted all the same: %+v", got)
	}
	if r := k.ok(k.say("cap", "/club announced")); len(r.Message.Fields) != 0 {
		t.Errorf("the list is %+v", r.Message)
	}
}

// send fills the form in that a press opened.
func (k *talk) send(who string, form *chat.Form, name, value string) chat.Reply {
	k.t.Helper()
	if form == nil {
		k.t.Fatal("there is no form")
	}
	e := k.event(who)
	e.Kind, e.Button, e.Options = chat.Sent, form.Token, []chat.Option{{Name: name, Value: value}}
	return k.handle(e)
}

func TestPreviewIsEditedAndScheduledByForms(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", `/club announce text:"Gym closes erly"`))
	form := k.ok(k.press("cap", "Edit")).Form
	if form.Fields[0].Value != "Gym closes erly" || !form.Fields[0].Long {
		t.Errorf("the form is %+v", form)
	}
	r := k.ok(k.send("cap", form, "text", "Gym closes early @everyone\nBring cake"))
	if !strings.Contains(r.Message.Text, "early") || strings.Contains(r.Message.Text, "@everyone") {
		t.Errorf("the preview is %q", r.Message.Text)
	}
	form = k.ok(k.press("cap", "Schedule")).Form
	k.refused(k.send("cap", form, "at", "2026-01-01 10:00"), "past")
	k.refused(k.send("cap", form, "at", "whenever"), "at:")
	k.ok(k.send("cap", form, "at", "18:30"))
	k.ok(k.press("cap", "Schedule it"))
	k.clock("2027-01-04T18:30:00Z")
	if got := k.due(); len(got) != 1 || !strings.HasSuffix(got[0].Message.Text, "early @everyone\nBring cake") && !strings.Contains(got[0].Message.Text, "Bring cake") {
		t.Errorf("%+v", got)
	}
}

// A captain learns that a channel takes no posts any more, as long as they wait and when
// they were given up.
func TestChannelThatTakesNoPostsIsTold(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", `/club announce text:"Gym closes early"`))
	k.ok(k.press("cap", "Post it"))
	if text := k.ok(k.say("cap", "/club settings")).Message.Text; strings.Contains(text, "could not") {
		t.Errorf("before anything failed: %q", text)
	}
	r := nudge.Runner{Store: k.store, Poster: gone{}}
	for range 60 {
		if err := r.Run(t.Context(), k.now); err != nil {
			t.Fatal(err)
		}
		for _, ask := range []string{"/club settings", "/club announced"} {
			if text := k.ok(k.say("cap", ask)).Message.Text; !strings.Contains(text, "1 post to #announcements could not be made lately") {
				t.Fatalf("%s at %s says %q", ask, k.now, text)
			}
		}
		k.now = k.now.Add(time.Hour)
	}
	k.now = k.now.AddDate(0, 0, 20)
	if text := k.ok(k.say("cap", "/club settings")).Message.Text; strings.Contains(text, "could not") {
		t.Errorf("three weeks later: %q", text)
	}
}

// gone is a workspace whose channel was deleted.
type gone struct{}

func (gone) Post(_ context.Context, p chat.Post) (chat.Ref, error) {
	return "", &chat.UnreachableError{To: p.To, Cause: errors.New("no such channel")}
}

func (gone) Find(context.Context, chat.Post) (chat.Ref, bool, error) { return "", false, nil }
