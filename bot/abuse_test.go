package bot

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
)

func TestNobodyTakesAnothersName(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set name:\"Ana Lena\""))
	for _, name := range []string{"ana", "ANA", "Ana Lena", "captain", "Blockbell"} {
		k.refused(k.say("mal", `/me set name:"`+name+`"`), "name", "called")
	}
	for _, name := range []string{"Gym closed, pay Mal 50 EUR", "@everyone", "a b c d", "http://x.example", strings.Repeat("x", 25)} {
		k.refused(k.say("mal", `/me set name:"`+name+`"`), "cannot be used")
	}
	k.ok(k.say("mal", "/me set name:Çağla-Maria"))
}

func TestMeetNamesRingNobodysBell(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, name := range []string{"@everyone", "<@123>", "**x**", "[y](http://z)", "a\u202eb", "a\u200bb", strings.Repeat("x", 61), "#general"} {
		k.refused(k.say("mal", `/meet add name:"`+name+`" date:2027-05-01`))
	}
	k.ok(k.say("ana", `/meet add name:"Ljubljana Open '27 (qualifier), day 2" date:2027-05-01`))
	if got := data[struct{ Meets []any }](t, k.ok(k.say("mal", "/meet"))); len(got.Meets) != 0 {
		t.Errorf("%d odd meets were kept", len(got.Meets))
	}
}

func TestNothingOfMinorsAndOptOutsIsSaidAloud(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("kid", "/me set born:2011-05-05"))
	k.ok(k.say("shy", "/me set public:no"))
	for _, who := range []string{"kid", "shy", "ana"} {
		k.say(who, "bench 50x5")
		k.clock("2027-01-06T19:00:00Z")
		r := k.say(who, "bench 55x5")
		if r.Kind != chat.Answer || r.Message.Private != (who != "ana") {
			t.Errorf("%s: %q, private %v: %s", who, r.Kind, r.Message.Private, r.Message.Text)
		}
		k.clock("2027-01-04T19:00:00Z")
	}
	k.ok(k.say("ana", "/me set bench:100"))
	if r := k.say("ana", "bench 200x5"); !r.Message.Private {
		t.Errorf("a question that tells an estimate is public: %s", r.Message.Text)
	}
}

func TestAnOldProposalCannotRewriteTheSeason(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.ok(k.say("ana", "/meet add name:Second date:2027-07-24"))
	k.clock("2027-01-12T09:00:00Z")
	if r := k.ok(k.say("ana", "/block")); strings.Contains(r.Message.Text, "waits for your yes") {
		t.Errorf("an old proposal is still offered: %s", r.Message.Text)
	}
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	k.now = before.Blocks[1].Start.AddDays(-2).At(time.UTC, 9, 0)
	k.ok(k.say("ana", "/season build"))
	k.now = before.Blocks[1].Start.AddDays(2).At(time.UTC, 9, 0)
	k.ok(k.say("ana", "/season accept"))
	after := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	if after.Blocks[0] != before.Blocks[0] || after.Blocks[1].Start != before.Blocks[1].Start {
		t.Errorf("what is over or runs was rewritten: %+v, then %+v", before.Blocks[:2], after.Blocks[:2])
	}
}

func TestOneAnswerSettlesAQuestion(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.say("ana", "100x5")
	if len(r.Message.Buttons) < 3 {
		t.Fatalf("which lift? %+v", r.Message)
	}
	k.ok(k.pressToken("ana", r.Message.Buttons[0].Token))
	k.refused(k.pressToken("ana", r.Message.Buttons[1].Token), "answered before")
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 {
		t.Errorf("one message became %d sets", len(got.Sets))
	}
}

func TestCorrectionsToAbsurdLoadsAskBeforeTheyCount(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 100x5")
	for _, correct := range []string{"no 600", "/log fix 1 weight:600"} {
		r := k.ok(k.say("ana", correct))
		if got := data[logAnswer](t, r); len(got.Sets) != 1 || !got.Sets[0].Pending || len(r.Message.Buttons) != 2 {
			t.Fatalf("%s: %+v", correct, got)
		}
		k.ok(k.press("ana", "No, put it back"))
		if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || got.Sets[0].Weight != 100 || got.Sets[0].Pending {
			t.Errorf("put back: %+v", got.Sets)
		}
	}
}

func TestCorrectionsKeepTheUnitAndTheRest(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "bench 225#x3")
	k.ok(k.say("ana", "no 230"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || math.Abs(got.Sets[0].Weight-104.326) > 1e-3 || got.Sets[0].Reps != 3 {
		t.Errorf("230 lb became %+v", got.Sets)
	}
	k.ok(k.say("ana", "I meant 100kg x 2"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || got.Sets[0].Weight != 100 || got.Sets[0].Reps != 2 {
		t.Errorf("100 kg x 2 became %+v", got.Sets)
	}
}

func TestABestIsToldOnceADay(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x1")
	k.clock("2027-01-06T19:00:00Z")
	if r := k.say("ana", "squat 145x1"); !strings.Contains(r.Message.Text, "best squat so far") {
		t.Errorf("no news: %q %s", r.Kind, r.Message.Text)
	}
	if r := k.say("ana", "squat 150x1"); r.Kind != chat.React {
		t.Errorf("news again the same day: %s", r.Message.Text)
	}
}

func TestOneMoreWeekIsNoWayAroundTheRules(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("mira", "/me set level:novice category:women competed:yes"))
	k.ok(k.say("mira", `/meet add name:"River Open" date:2027-02-27`))
	k.ok(k.say("mira", "/season build"))
	k.ok(k.press("mira", "Accept plan"))
	for _, day := range []string{"2027-02-07T09:00:00Z", "2027-02-08T09:00:00Z", "2027-02-12T09:00:00Z"} {
		k.clock(day)
		k.refused(k.pressToken("mira", k.nudgeButton("mira", "block.extend", 0)))
	}
}

func TestMeetTodayAndAnotherTomorrow(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/meet add name:H date:2027-01-04"))
	k.ok(k.say("ana", "/meet add name:T date:2027-01-05"))
	k.ok(k.say("ana", "/meet add name:Later date:2027-04-24"))
	got := data[seasonAnswer](t, k.ok(k.say("ana", "/season build")))
	if got.Blocks[0].Start != planner.NewDate(2027, 1, 6) {
		t.Errorf("the plan begins on %s", got.Blocks[0].Start)
	}
}

func TestMyDataComesAndGoes(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.planned("ana", "2027-04-24")
	k.say("ana", "squat 140x5, bw 82.4")
	r := k.ok(k.say("ana", "/mydata"))
	if len(r.Message.Files) != 1 || !r.Message.Private {
		t.Fatalf("%+v", r.Message)
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(r.Message.Files[0].Bytes, &all); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"profile", "meets", "sets", "bodyweights", "plans"} {
		if len(all[key]) < 10 {
			t.Errorf("%s: %s", key, all[key])
		}
	}
	k.ok(k.say("ana", "/mydata erase"))
	k.ok(k.press("ana", "Erase everything"))
	if got := data[struct{ Meets []any }](t, k.ok(k.say("ana", "/meet"))); len(got.Meets) != 0 {
		t.Errorf("%d meets are left", len(got.Meets))
	}
	k.refused(k.say("ben", "/mydata export lifter:ana"), "captain")
}

func TestACoachMaySpeakForTheirLifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.ok(k.say("ben", "/me"))
	k.refused(k.say("ben", "/block lifter:ana"), "captain")
	k.refused(k.say("ben", "/club assign lifter:ana coach:ben"), "captain")
	k.ok(k.say("cap", "/club assign lifter:ana coach:ben group:monday"))
	k.ok(k.say("ben", "/block lifter:ana"))
	k.ok(k.say("cap", "/club assign lifter:ana coach:none"))
	k.refused(k.say("ben", "/block lifter:ana"), "captain")
}
