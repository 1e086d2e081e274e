package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// writes says something and returns the identity of the message.
func (k *talk) writes(who, text string) (message string, r chat.Reply) {
	k.t.Helper()
	e := k.event(who)
	e.Text = text
	return e.Message, k.handle(e)
}

func (k *talk) edits(who, message, text string) chat.Reply {
	k.t.Helper()
	e := k.event(who)
	e.Kind, e.Message, e.Text = chat.Edited, message, text
	return k.handle(e)
}

func (k *talk) deletes(who, message string) chat.Reply {
	k.t.Helper()
	e := k.event(who)
	e.Kind, e.Message = chat.Deleted, message
	return k.handle(e)
}

func TestEditsBetweenTalkAndSets(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	m, r := k.writes("ana", "good session")
	if r.Kind != chat.Silent {
		t.Fatalf("talk was answered: %s", r.Message.Text)
	}
	if r := k.edits("ana", m, "good session, squat 140x5"); r.Kind != chat.React || k.weights("ana") != "140" {
		t.Errorf("talk to set: %s, %s", r.Kind, k.weights("ana"))
	}
	if r := k.edits("ana", m, "good session, squat 142.5x5"); r.Kind != chat.React || k.weights("ana") != "142.5" {
		t.Errorf("set to set: %s, %s", r.Kind, k.weights("ana"))
	}
	if r := k.edits("ana", m, "good session"); !strings.Contains(r.Message.Text, "are removed") || k.weights("ana") != "" {
		t.Errorf("set to talk: %s, %s", r.Message.Text, k.weights("ana"))
	}
	if r := k.edits("ana", m, "great session"); r.Kind != chat.Silent {
		t.Errorf("talk to talk: %s", r.Message.Text)
	}
}

func TestEditAfterACorrection(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	m, _ := k.writes("ana", "squat 140x5")
	k.ok(k.say("ana", "/log fix 1 weight:150"))
	if r := k.edits("ana", m, "squat 140x5 (felt good)"); r.Kind != chat.Silent || k.weights("ana") != "150" {
		t.Errorf("words beside the set were changed: %s, %s", r.Kind, k.weights("ana"))
	}
	k.edits("ana", m, "squat 145x5")
	if got := k.weights("ana"); got != "145" {
		t.Errorf("the set was changed: %s", got)
	}
}

func TestDeletionAfterUndoAndCorrection(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	first, _ := k.writes("ana", "squat 130x5")
	second, _ := k.writes("ana", "squat 140x5")
	k.ok(k.say("ana", "undo"))
	if r := k.deletes("ana", second); r.Kind != chat.Silent || k.weights("ana") != "130" {
		t.Errorf("%s, %s", r.Kind, k.weights("ana"))
	}
	k.ok(k.say("ana", "/log fix 1 weight:135"))
	if r := k.deletes("ana", first); r.Kind != chat.Silent || k.weights("ana") != "" {
		t.Errorf("%s, %s", r.Kind, k.weights("ana"))
	}
	if r := k.deletes("ana", first); r.Kind != chat.Silent {
		t.Errorf("removed twice: %s", r.Message.Text)
	}
	if r := k.edits("ana", second, "squat 141x5"); r.Kind != chat.React || k.weights("ana") != "141" {
		t.Errorf("edited after the undo: %s, %s", r.Kind, k.weights("ana"))
	}
}

// Buttons under a message that was changed or removed since would bring back what
// it no longer says.
func TestAnswersToAChangedMessageAreGone(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	m, r := k.writes("ana", "140x5")
	if len(r.Message.Buttons) == 0 {
		t.Fatalf("nothing was asked: %s", r.Message.Text)
	}
	k.edits("ana", m, "squat 142.5x5")
	k.refused(k.pressToken("ana", r.Message.Buttons[0].Token), "no longer know")
	m, r = k.writes("ana", "bench 90x5x3")
	k.deletes("ana", m)
	k.refused(k.pressToken("ana", r.Message.Buttons[0].Token), "no longer know")
	if got := k.weights("ana"); got != "142.5" {
		t.Errorf("logged: %s", got)
	}
}

func TestNobodyEditsTheSetsOfOthers(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	m, _ := k.writes("ana", "squat 140x5")
	k.deletes("ben", m)
	if got := k.weights("ana"); got != "140" {
		t.Errorf("removed by somebody else: %q", got)
	}
}
