package bot

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

func TestWhoLeftIsToldNothingAndComesBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/nudges where direct"))
	k.refused(k.say("ana", "/club left lifter:cap"), "captain")
	k.refused(k.say("cap", "/club left"), "lifter:")
	r := k.ok(k.say("cap", "/club left lifter:ana"))
	if !strings.Contains(r.Message.Text, "3 February 2027") {
		t.Errorf("it says %q", r.Message.Text)
	}
	board := k.ok(k.say("cap", "/club board")).Message
	if all := strings.Join(fieldTexts(board), " ") + board.Text; !strings.Contains(all, "has left") {
		t.Errorf("the board says %s", all)
	}
	before := k.now
	for day := range 60 {
		k.now = before.AddDate(0, 0, day)
		if got := k.due(); len(got) != 0 {
			t.Fatalf("told %+v on day %d", got[0], day)
		}
	}
	k.now = before
	k.ok(k.say("ana", "/block"))
	err := k.store.View(t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle("ana")
		if l.Nudges != "direct" {
			t.Errorf("she is back with %q", l.Nudges)
		}
		if _, left, _ := tx.Left(l.ID); left {
			t.Error("she still counts as gone")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestUnreachableMembersStandInTheDigest(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me"))
	err := k.store.Update(t.Context(), func(tx *store.Tx) error {
		p, err := nudge.Announcement("x", "", chat.Message{Text: "x"}, k.now)
		if err != nil {
			return err
		}
		p.Person = "ana"
		if _, err := tx.QueuePost(p, nil, k.now); err != nil {
			return err
		}
		return tx.BuryPost("x", nudge.ReasonUnreachable, k.now)
	})
	if err != nil {
		t.Fatal(err)
	}
	m := k.ok(k.say("cap", "/club digest")).Message
	if all := fieldTexts(m); !slices.Contains(all, "ana") || !strings.Contains(strings.Join(all, " "), "/club left") {
		t.Errorf("the digest says %q", all)
	}
	k.now = k.now.Add(20 * 24 * time.Hour)
	if all := fieldTexts(k.ok(k.say("cap", "/club digest")).Message); slices.Contains(all, "ana") {
		t.Errorf("still there after three weeks: %q", all)
	}
}

func TestClassesAreComparedWithTheClubs(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club settings unit:lb"))
	k.refused(k.say("cap", `/club classes table:"63 69"`), "whose class")
	k.refused(k.say("ana", `/club classes table:"women 63"`), "captain")
	k.ok(k.say("cap", `/club classes table:"women 63 69 84 84+; men 83 93 120 120+" name:"the 2027 book" since:2027-01-01`))
	r := k.ok(k.say("ana", "/me set category:women unit:kg bodyweight:66.1"))
	if !strings.Contains(r.Message.Text, "class:69") || !strings.Contains(r.Message.Text, "decides") {
		t.Errorf("it says %q", r.Message.Text)
	}
	r = k.ok(k.say("ana", "/me set class:67.5"))
	if !strings.Contains(r.Message.Text, "67.5 is not among") || !strings.Contains(r.Message.Text, "decides") {
		t.Errorf("it says %q", r.Message.Text)
	}
	if r = k.ok(k.say("ana", "/me set class:69")); strings.Contains(r.Message.Text, "among") {
		t.Errorf("it says %q", r.Message.Text)
	}
	r = k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12 class:70`))
	if !strings.Contains(r.Message.Text, "70 is not among") {
		t.Errorf("it says %q", r.Message.Text)
	}
	if r = k.ok(k.say("ben", "/me set squat:405")); !strings.Contains(strings.Join(fieldTexts(r.Message), " "), "lb") {
		t.Errorf("a new lifter does not begin in lb: %+v", r.Message.Fields)
	}
	k.ok(k.say("cap", "/club classes table:none"))
	if r = k.ok(k.say("ana", "/me set class:67.5")); strings.Contains(r.Message.Text, "among") {
		t.Errorf("it says %q", r.Message.Text)
	}
}

// Who has left is in no list of those who are here, decides nothing, and nothing of
// theirs waits for anybody; the board names them last and does not count them.
func TestWhoLeftIsInNoList(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.planned("ben", "2027-06-12")
	for _, who := range []string{"ana", "ben", "cleo", "dora"} {
		k.ok(k.say(who, "/me"))
		k.ok(k.say("cap", "/club assign lifter:"+who+" group:monday"))
	}
	k.ok(k.say("cap", "/club assign lifter:dora coach:ana"))
	k.ok(k.say("cap", "/club assign lifter:cleo coach:cap"))
	k.ok(k.say("cap", "/club decide who:coach"))
	k.ok(k.say("cleo", `/meet add name:"River Open" date:2027-06-12 kind:main`))
	k.ok(k.say("cleo", "/me set level:novice"))
	k.ok(k.say("cleo", "/season build"))
	k.ok(k.press("cleo", "Accept plan"))
	for _, who := range []string{"ana", "cleo"} {
		k.ok(k.say("cap", "/club left lifter:"+who))
	}
	for _, ask := range []string{"/club today", "/club groups", "/club approve", "/club digest", `/club away from:2027-02-01 to:2027-02-07`,
		`/meet add name:"Lake Cup" date:2027-07-10 group:monday`, "/club announce"} {
		r := k.say("cap", ask)
		all := strings.Join(fieldTexts(r.Message), " ") + r.Message.Text
		if strings.Contains(all, "ana") || strings.Contains(all, "cleo") {
			t.Errorf("%s lists who has left: %q", ask, all)
		}
	}
	if text := k.ok(k.say("cap", "/club groups")).Message.Fields; !strings.Contains(text[len(text)-1].Value, "2 lifters: ben, dora") {
		t.Errorf("the groups are %+v", text)
	}
	names, _ := boardNames(k, "/club board sort:name")
	if got := strings.Join(names, " "); got != "ben cap dora ana cleo" {
		t.Errorf("the board lists %s", got)
	}
	k.refused(k.say("cap", "/club assign lifter:ben coach:ana"), "has left")
	k.refused(k.say("cap", "/club captain member:ana"), "has left")
	// Dora's coach is gone, so her plan waits for the captain.
	k.ok(k.say("dora", `/meet add name:"River Open" date:2027-06-12 kind:main`))
	k.ok(k.say("dora", "/me set level:novice"))
	k.ok(k.say("dora", "/season build"))
	if text := k.ok(k.press("dora", "Accept plan")).Message.Text; !strings.Contains(text, "your coach, cap") {
		t.Errorf("she is told %q", text)
	}
	k.now = k.now.Add(48 * time.Hour)
	for _, p := range k.due() {
		if p.To.Person == "ana" || p.To.Person == "cleo" {
			t.Errorf("told %+v", p)
		}
	}
}

// Nothing is told to or about somebody who has left, up to and over their meet.
func TestWhoLeftBeforeAMeetIsToldNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-02-20")
	k.ok(k.say("ana", "/me set nudges:direct"))
	k.clock("2027-01-25T09:00:00Z")
	k.due()
	k.ok(k.say("cap", `/meet move name:"River Open" date:2027-02-21 lifter:ana`))
	k.ok(k.say("cap", "/club left lifter:ana"))
	for range 40 {
		k.now = k.now.AddDate(0, 0, 1)
		if got := k.due(); len(got) != 0 {
			t.Fatalf("told %+v on %s", got[0], k.now)
		}
	}
}
