package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestLifterSeesNobodyElsesNumbers(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.planned("ben", "2027-05-15")
	for _, ask := range []string{"/block lifter:ana", "/season lifter:@ana", "/me lifter:ana", "/log lifter:ana", "/meet lifter:ana",
		"/season build lifter:ana", "/me set lifter:ana level:elite", "/nudges lifter:ana"} {
		r := k.say("ben", ask)
		k.refused(r, "captain")
		if strings.Contains(r.Message.Text, "River") {
			t.Errorf("%s told something: %s", ask, r.Message.Text)
		}
	}
	k.refused(k.say("ben", "/block lifter:nobody"), "captain") // nor who is in the club
	k.refused(k.say("ben", "/club board"), "captain")
	k.refused(k.say("ben", "/club announce text:hello"), "captain")
	k.refused(k.say("ben", "/club settings hour:09:00"), "captain")
	k.ok(k.say("cap", "/block lifter:ana"))
	k.refused(k.say("cap", "/block lifter:anna"), "Did you mean ana")
	k.ok(k.say("ben", "/block lifter:ben"))
}

func TestEveryAnswerAboutAPersonIsPrivate(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	for _, ask := range []string{"/block", "/season", "/season build", "/me", "/meet", "/log", "/nudges", "/blok", "/me set bodyweight:900"} {
		if r := k.say("ana", ask); !r.Message.Private {
			t.Errorf("%s was answered in public", ask)
		}
	}
	if r := k.ok(k.say("ana", "/block aloud:yes")); r.Message.Private {
		t.Error("asked aloud, answered in private")
	}
	if r := k.ok(k.say("cap", "/block lifter:ana aloud:yes")); !r.Message.Private {
		t.Error("a captain made a lifter's answer public")
	}
}

func TestButtonsObeyTheirOwnerAndWorkOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-04-24`))
	built := k.ok(k.say("ana", "/season build"))
	accept := built.Message.Buttons[0]
	k.refused(k.pressToken("ben", accept.Token), "somebody else")
	k.ok(k.pressToken("ana", accept.Token))
	if r := k.ok(k.pressToken("ana", accept.Token)); r.Message.Text != "Already done." {
		t.Errorf("second press: %s", r.Message.Text)
	}
	k.refused(k.pressToken("ana", "no-such-token"), "no longer know")
	late := k.ok(k.say("ana", `/meet move name:"River Open" date:2027-05-01`)).Message.Buttons[0]
	k.clock("2027-01-12T09:00:01Z")
	k.refused(k.pressToken("ana", late.Token), "can no longer be pressed")
}

func TestAnEventIsAnsweredOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	e := k.event("ana")
	e.Text = `/meet add name:"River Open" date:2027-04-24`
	if r := k.ok(k.handle(e)); r.Kind != chat.Answer {
		t.Fatalf("first delivery: %+v", r)
	}
	if r := k.handle(e); r.Kind != chat.Silent {
		t.Errorf("second delivery was answered: %+v", r)
	}
	if got := data[struct{ Meets []any }](t, k.ok(k.say("ana", "/meet"))); len(got.Meets) != 1 {
		t.Errorf("%d meets", len(got.Meets))
	}
}

func TestMistypedCommandsAreSuggested(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for ask, want := range map[string]string{
		"/blok":                            "Did you mean /block",
		"/seasn build":                     "Did you mean /season",
		"/season biuld":                    "Did you mean /season build",
		"/meet add nme:x date:2027-05-01":  "Did you mean name",
		"/me set level:intermidiate":       "Did you mean intermediate",
		"/help sesaon":                     "Did you mean /help season",
		"/":                                "/help",
		"/meet add date:2027-05-01":        "needs name",
		"/meet add name:x date:2027-02-30": "30 February 2027",
	} {
		k.refused(k.say("ana", ask), want)
	}
}

func TestAnUnclosedQuoteIsShownWhereItBegins(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.refused(k.say("ana", `/meet add name:"River Open date:2027-05-01`), "Character 16")
}
