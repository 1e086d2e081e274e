package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestCaptainsAreAppointedAndDismissed(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/block"))
	k.refused(k.say("ana", "/club board"), "captain")
	k.refused(k.say("ana", "/club captain member:ana"), "captain")
	if text := k.ok(k.say("cap", "/club captain member:ana")).Message.Text; !strings.Contains(text, "is a captain now") {
		t.Errorf("said %q", text)
	}
	k.ok(k.say("ana", "/club board"))
	k.ok(k.say("ana", "/club board")) // still, on the next word
	// Cap is a captain because the workspace says so, and that cannot be taken away
	// here.
	k.refused(k.say("ana", "/club captain member:cap appoint:no"), "was not appointed here")
	k.ok(k.say("cap", "/club captain member:ana appoint:no"))
	k.refused(k.say("ana", "/club board"), "captain")
	if text := k.ok(k.say("cap", "/club history")).Message.Text; !strings.Contains(text, "appointed as captain for ana") || !strings.Contains(text, "dismissed as captain for ana") {
		t.Errorf("the history says %q", text)
	}
}

// Who loses the right or the role in the workspace is no captain any more from the
// next word in it on; a direct conversation shows no roles and changes nothing.
func TestCaptainByRightLosesItWithTheRight(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	as := func(captain bool, channel, text string) chat.Reply {
		e := k.event("mia")
		e.Author.Captain, e.Channel, e.Text = captain, channel, text
		return k.handle(e)
	}
	k.ok(as(true, "#training-log", "/club board"))
	k.ok(as(false, "", "/club board"))
	k.refused(as(false, "#training-log", "/club board"), "captain")
	k.refused(as(false, "", "/club board"), "captain")
	k.ok(as(true, "#training-log", "/club board"))
	k.ok(k.say("cap", "/club captain member:mia"))
	k.ok(as(false, "#training-log", "/club board"))
}

func TestClubIsNeverWithoutACaptain(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.refused(k.say("cap", "/club captain member:cap appoint:no"), "only captain")
	k.refused(k.say("cap", "/club captain member:nobody"), "nobody")
}
