package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// weights are those of the sets on the first page of /log recent.
func (k *talk) weights(who string) string {
	k.t.Helper()
	var out []string
	for _, s := range data[logAnswer](k.t, k.ok(k.say(who, "/log"))).Sets {
		out = append(out, fmt.Sprint(s.Weight))
	}
	return strings.Join(out, " ")
}

func TestRecentSetsArePagedWithButtons(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	for i := range 23 {
		k.say("ana", fmt.Sprintf("squat %dx5", 100+i))
	}
	r := k.ok(k.say("ana", "/log"))
	if len(r.Message.Buttons) != 21 || r.Message.Buttons[0].Label != "Fix 1" || r.Message.Buttons[5].Label != "Drop 1" || r.Message.Buttons[20].Label != "Older" {
		t.Fatalf("%d buttons: %+v", len(r.Message.Buttons), r.Message.Buttons)
	}
	r = k.ok(k.press("ana", "Older"))
	if r.Kind != chat.Update || !strings.Contains(r.Message.Text, "11. ") || !strings.Contains(r.Message.Text, "squat 112 kg x 5") || len(r.Message.Buttons) != 22 {
		t.Errorf("%s\n%s", r.Kind, r.Message.Text)
	}
	r = k.ok(k.press("ana", "Older"))
	if !strings.Contains(r.Message.Text, "23. ") || strings.Contains(r.Message.Text, "24. ") {
		t.Errorf("%s", r.Message.Text)
	}
	r = k.ok(k.press("ana", "Drop 23"))
	if !strings.Contains(r.Message.Text, "Removed squat 100 kg x 5") || strings.Contains(r.Message.Text, "23. ") {
		t.Errorf("%s", r.Message.Text)
	}
	k.ok(k.press("ana", "Put it back"))
	if n := k.logged("ana"); n != 23 {
		t.Errorf("%d sets", n)
	}
	k.ok(k.say("ana", "/log drop 15"))
	k.refused(k.say("ana", "/log drop 23"), "22 logged sets", "23")
	k.refused(k.say("ana", "/log drop 501"), "1 to 500")
}

func TestFixFormChangesWhatWasChangedInIt(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 405lb x 5 @8")
	k.ok(k.say("ana", "/log"))
	r := k.ok(k.press("ana", "Fix 1"))
	if r.Form == nil || len(r.Form.Fields) != 5 || !strings.Contains(r.Message.Text, "/log fix 1") {
		t.Fatalf("%+v %s", r.Form, r.Message.Text)
	}
	send := func(changes map[string]string) chat.Reply {
		e := k.event("ana")
		e.Kind, e.Button = chat.Sent, r.Form.Token
		for _, f := range r.Form.Fields {
			v := f.Value
			if c, ok := changes[f.Name]; ok {
				v = c
			}
			e.Options = append(e.Options, chat.Option{Name: f.Name, Value: v})
		}
		return k.handle(e)
	}
	k.refused(send(map[string]string{"reps": "five"}), "reps", "five")
	k.ok(send(map[string]string{"lift": "paused squat", "reps": "4"}))
	got := data[logAnswer](t, k.ok(k.say("ana", "/log"))).Sets[0]
	if got.Reps != 4 || got.Variant == nil || *got.Variant != "paused" || fmt.Sprint(got.Weight) != "183.705" || got.RIR == nil || *got.RIR != 2 {
		t.Errorf("%+v", got)
	}
	if r := k.ok(send(map[string]string{"reps": "5"})); !strings.Contains(r.Message.Text, "now") {
		t.Errorf("sent again with another value: %s", r.Message.Text)
	}
	k.ok(k.say("ana", "/log drop 1"))
	if r := k.ok(send(nil)); !strings.Contains(r.Message.Text, "gone already") {
		t.Errorf("%s", r.Message.Text)
	}
}

func TestButtonsOfRecentSetsAreTheirOwners(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5")
	r := k.ok(k.say("ana", "/log"))
	k.refused(k.pressToken("ben", r.Message.Buttons[1].Token), "somebody else")
	// The captain's page is about the lifter, and what the captain does is noted.
	k.ok(k.say("cap", "/log lifter:ana"))
	k.ok(k.press("cap", "Drop 1"))
	if n := k.logged("ana"); n != 0 {
		t.Errorf("%d sets", n)
	}
}

func TestMessageSentTwiceIsLoggedOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5 @8")
	k.clock("2027-01-04T19:01:50Z")
	r := k.say("ana", "squat 140x5 @8")
	if r.Kind != chat.Answer || !r.Message.Private || !strings.Contains(r.Message.Text, "from 1 minute ago") {
		t.Fatalf("%s %s", r.Kind, r.Message.Text)
	}
	if got := k.weights("ana"); got != "140" {
		t.Errorf("logged: %s", got)
	}
	k.ok(k.press("ana", "I did it twice"))
	if got := k.weights("ana"); got != "140 140" {
		t.Errorf("done twice: %s", got)
	}
	k.say("ben", "squat 140x5 @8") // somebody else
	k.say("ana", "squat 140x5 @9") // another effort
	k.clock("2027-01-04T19:04:00Z")
	k.say("ana", "squat 140x5 @9") // after a rest
	if got := k.weights("ana") + "/" + k.weights("ben"); got != "140 140 140 140/140" {
		t.Errorf("logged: %s", got)
	}
}

func TestSessionSentTwiceIsLoggedOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	const session = "squat 140x5x3\nbench 100x5"
	k.say("ana", session)
	k.clock("2027-01-04T19:14:00Z")
	k.say("ana", session)
	if got := k.weights("ana"); got != "100 140" {
		t.Errorf("logged: %s", got)
	}
	k.clock("2027-01-04T19:30:00Z")
	k.say("ana", session)
	if got := k.weights("ana"); got != "100 140 100 140" {
		t.Errorf("a quarter of an hour later: %s", got)
	}
}

func TestUndoneMessageCanBeSentAgain(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5")
	k.ok(k.say("ana", "undo"))
	if r := k.say("ana", "squat 140x5"); r.Kind != chat.React || k.weights("ana") != "140" {
		t.Errorf("%s, %s", r.Kind, k.weights("ana"))
	}
}

func TestOddLoadsOfTheCommandAskToo(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/me set squat:140 bench:90"))
	r := k.ok(k.say("ana", "/log set lift:squat weight:240 reps:5"))
	if got := data[logAnswer](t, r); len(got.Sets) != 1 || !got.Sets[0].Pending || len(r.Message.Buttons) != 2 {
		t.Fatalf("%+v %+v", got, r.Message.Buttons)
	}
	k.ok(k.press("ana", "No"))
	if got := k.weights("ana"); got != "" {
		t.Errorf("kept: %s", got)
	}
	k.ok(k.say("ana", "/log set lift:squat weight:240 reps:5"))
	k.ok(k.press("ana", "Yes, 240 kg"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || got.Sets[0].Pending {
		t.Errorf("%+v", got.Sets)
	}
	// The same load on another lift is another question.
	k.ok(k.say("ana", "/log drop 1"))
	k.say("ana", "squat 140x5")
	if r := k.ok(k.say("ana", "/log fix 1 lift:bench")); !strings.Contains(r.Message.Text, "far from") {
		t.Errorf("%s", r.Message.Text)
	}
}

// A day of another year is named with it.
func TestRecentSetsNameOtherYears(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "2026-12-30 squat 100x5"))
	k.ok(k.say("ana", "squat 102.5x5"))
	if r := k.ok(k.say("ana", "/log")); !strings.Contains(r.Message.Text, "Wed 30 December 2026: squat 100") || !strings.Contains(r.Message.Text, "Mon 4 January: squat") {
		t.Errorf("%s", r.Message.Text)
	}
}
