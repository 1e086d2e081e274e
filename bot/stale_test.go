package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// waiting is a lifter whose first plan was proposed and waits for a yes; it returns the
// button that accepts it.
func (k *talk) waiting(who string) string {
	k.t.Helper()
	k.ok(k.say(who, "/me set level:intermediate category:men bodyweight:90 class:93 squat:180 bench:120 deadlift:220 competed:yes nudges:direct"))
	k.ok(k.say(who, `/meet add name:"River Open" date:2027-05-08`))
	return k.ok(k.say(who, "/season build")).Message.Buttons[0].Token
}

// agreedBlocks are the blocks of the plan that runs; none where only a proposal waits.
func (k *talk) agreedBlocks(who string) []planner.Block {
	k.t.Helper()
	r := k.ok(k.say(who, "/season history"))
	for _, f := range r.Message.Fields {
		if strings.Contains(f.Name, "runs now") {
			return data[seasonAnswer](k.t, k.ok(k.say(who, "/season"))).Blocks
		}
	}
	return nil
}

// Whatever a plan was computed from and that changes before the yes, the proposal as it
// was shown is never the one that is agreed.
func TestProposalIsNeverAcceptedUnchangedAfterAChange(t *testing.T) {
	for name, change := range map[string][]string{
		"time away":       {"ana /season away from:2027-02-01 to:2027-02-21"},
		"cap":             {"ana /season cap kind:strength weeks:3"},
		"cap of the club": {"cap /club cap kind:strength weeks:3"},
		"pin":             {"ana /season pin kind:strength weeks:8"},
		"moved meet":      {`ana /meet move name:"River Open" date:2027-05-29`},
		"another meet":    {`ana /meet add name:"Gym Cup" date:2027-04-03 kind:tune-up`},
		"class":           {"ana /me set class:83 bodyweight:83"},
		"level":           {"ana /me set level:advanced"},
		"lift off":        {"ana /season rest lift:squat until:2027-03-01"},
		"gym closed":      {"cap /club away from:2027-02-01 to:2027-02-21"},
		"two changes":     {"ana /season away from:2027-02-01 to:2027-02-21", "ana /season cap kind:strength weeks:4"},
	} {
		t.Run(name, func(t *testing.T) {
			k := newTalk(t, "2027-01-04T09:00:00Z")
			k.ok(k.say("cap", "/me"))
			old := k.waiting("ana")
			proposed := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
			for _, line := range change {
				who, text, _ := strings.Cut(line, " ")
				k.ok(k.say(who, text))
			}
			r := k.ok(k.pressToken("ana", old))
			if !strings.Contains(r.Message.Text, "Something changed since") && r.Message.Title != "Plan agreed" {
				t.Fatalf("pressed: %s %s", r.Message.Title, r.Message.Text)
			}
			if r.Message.Title != "Plan agreed" {
				if k.agreedBlocks("ana") != nil {
					t.Fatal("something was agreed to")
				}
				k.says(k.press("ana", "Accept plan"), "Plan agreed")
			}
			// What runs now is what would be built from scratch with all that was told.
			k.says(k.say("ana", "/season build"), "stays as it is", "It still fits best")
			now := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
			if r.Message.Title == "Plan agreed" && !sameBlocks(now.Blocks, proposed.Blocks) {
				t.Errorf("agreed at once, but to other blocks than those shown")
			}
		})
	}
}

// A change that alters no day needs no second look: the yes holds.
func TestYesHoldsWhereNothingToLookAtChanged(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	old := k.waiting("ana")
	k.says(k.say("ana", "/season away from:2027-02-01 to:2027-02-03"), "stays as it is and waits for a yes")
	k.ok(k.say("ana", "/bodyweight 90.1"))
	k.says(k.pressToken("ana", old), "here is the new one") // laid out again, the same days
	k.says(k.say("ana", "/season accept"), "Plan agreed")
}

func TestOpenAbsenceHoldsAFirstPlanBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	old := k.waiting("ana")
	k.says(k.say("ana", "/season away"), "Your plan waits until you are back: /season back.")
	k.says(k.pressToken("ana", old), "Something changed since that plan was proposed: the times away.", "waits until you are back")
	k.says(k.say("ana", "/season"), "waits until you are back")
	k.sleep(20)
	r := k.say("ana", "/season back")
	k.says(r, "Good to have you back")
	if got := data[seasonAnswer](t, r); len(got.Blocks) == 0 || got.Blocks[0].Start != planner.NewDate(2027, 1, 24) {
		t.Errorf("back on 24 January: %+v", got.Blocks)
	}
	k.says(k.press("ana", "Accept plan"), "Plan agreed")
}

// Somebody else's change: the lifter is told that the proposal is another one now.
func TestLifterIsToldThatTheirProposalChanged(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.waiting("ana")
	k.ok(k.say("cap", "/season away from:2027-02-01 to:2027-02-21 lifter:ana"))
	if got := toldTo(k.sleep(1), "ana"); !strings.Contains(got, "proposed to you was withdrawn, since these changed: the times away") {
		t.Errorf("ana was told %q", got)
	}
}

// The coach's yes is to what the lifter said yes to, and to nothing else.
func TestCoachApprovesOnlyWhatTheLifterSaw(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	for _, who := range []string{"ana", "ben"} {
		k.novice(who)
		k.ok(k.press(who, "Accept plan"))
	}
	k.ok(k.say("cap", "/club approve"))
	k.ok(k.say("cap", "/club cap kind:hypertrophy weeks:4"))
	k.says(k.press("cap", "Approve ana"), "Not for ana")
	if k.agreedBlocks("ana") != nil {
		t.Error("a plan was agreed that ana had not seen")
	}
	k.says(k.say("cap", "/club approve"), "Something changed since for ben", "asked once more")
	if got := toldTo(k.sleep(1), "ben"); !strings.Contains(got, "was withdrawn, since these changed: how long a block may be") {
		t.Errorf("ben was told %q", got)
	}
	k.says(k.say("ben", "/season"), "Proposed plan, not agreed yet")
	k.says(k.press("ben", "Accept plan"), "Waits for your coach")
	k.ok(k.say("cap", "/club approve"))
	k.says(k.press("cap", "Approve ben"), "Agreed for ben")
	for _, b := range k.agreedBlocks("ben") {
		if b.Kind == planner.Hypertrophy && b.Weeks > 4 {
			t.Errorf("agreed %+v over the cap", b)
		}
	}
}

// Buttons that move a boundary, or take another split, are for the plan they stood under.
func TestButtonsOfAnotherPlanShowTheNewOne(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	why := k.ok(k.say("ana", "/season why"))
	other := k.ok(k.say("ana", "/season compare"))
	k.ok(k.say("ana", `/meet move name:"River Open" date:2027-06-05`))
	k.ok(k.press("ana", "Accept plan"))
	before := k.versions("ana")
	for _, r := range []struct {
		name  string
		reply chat.Reply
	}{{"why", why}, {"compare", other}} {
		if len(r.reply.Message.Buttons) == 0 {
			t.Fatalf("%s has no buttons", r.name)
		}
		k.says(k.pressToken("ana", r.reply.Message.Buttons[0].Token), "Something changed since")
	}
	if k.versions("ana") != before {
		t.Error("a plan was made from a button that no longer fits")
	}
	k.refused(k.say("ana", "/season unpin all"), "Nothing is fixed")
}

// The digests hold still while only days go by, and none of them holds a bodyweight.
func TestBasisHoldsStillOverDays(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.waiting("ana")
	k.sleep(5)
	k.says(k.say("ana", "/season accept"), "Plan agreed")
	if n := k.versions("ana"); n != 1 {
		t.Errorf("%d versions after a yes five days later", n)
	}
	a := fmt.Sprint(profileBasis(planner.Lifter{Level: planner.Novice, Bodyweight: 81234}, planner.NewDate(2027, 1, 4), blocks.Rules{}))
	if strings.Contains(a, "81234") || strings.Contains(a, "81.2") {
		t.Errorf("the bodyweight stands in %s", a)
	}
}
