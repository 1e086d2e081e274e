package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// novice is a lifter who is a novice, with a meet and a plan said yes to.
func (k *talk) novice(who string) {
	k.t.Helper()
	k.ok(k.say(who, "/me set level:novice category:men bodyweight:80 competed:yes nudges:direct"))
	k.ok(k.say(who, `/meet add name:"River Open" date:2027-06-12`))
	k.ok(k.say(who, "/season build"))
}

func TestNovicesPlanWaitsForTheCoach(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.novice("ben")
	k.says(k.press("ben", "Accept plan"), "Waits for your coach", "your coach, cap")
	k.says(k.say("ben", "/block"), "waits for your coach's yes")
	k.says(k.say("ben", "/season"), "Proposed plan, waits for your coach")
	if r := k.ok(k.say("cap", "/club board")); !strings.Contains(fmt.Sprint(r.Message.Fields), "plan waits for its coach") {
		t.Errorf("board %+v", r.Message.Fields)
	}
	posts := k.sleep(1)
	if got := toldTo(posts, "cap"); !strings.Contains(got, "A new plan for ben waits for your yes.") {
		t.Errorf("the captain was told %q", got)
	}
	k.refused(k.say("ana", "/club approve"), "for the captain and for coaches")
	r := k.press("cap", "Look at what waits")
	if len(r.Message.Fields) != 1 || labels(r) != "Approve ben, Decline ben" {
		t.Errorf("%+v, %s", r.Message.Fields, labels(r))
	}
	k.says(k.press("cap", "Approve ben"), "Agreed for ben, who is told.")
	k.says(k.say("ben", "/block"), "week 1")
	if got := toldTo(k.sleep(1), "ben"); !strings.Contains(got, "Your coach says yes to your plan: muscle block to") {
		t.Errorf("ben was told %q", got)
	}
	k.says(k.say("cap", "/club approve"), "No plan waits for you.")
}

func TestCoachDeclinesWithAReason(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	k.ok(k.say("cap", "/club approve"))
	k.says(k.press("cap", "Decline ben"), "What shall I say?")
	k.says(k.press("cap", "Let us talk first"), "Declined for ben, who is told: Let us talk first.")
	k.refused(k.press("cap", "Too much too soon"), "no longer waits")
	k.says(k.press("cap", "Approve ben"), "Not for ben")
	if got := toldTo(k.sleep(1), "ben"); !strings.Contains(got, "does not agree to the new plan for you yet: Let us talk first.") || strings.Contains(got, "goes on") {
		t.Errorf("ben was told %q", got)
	}
	k.refused(k.say("ben", "/season accept"), "no proposed plan")
	k.says(k.say("ben", "/season history"), "Your plan over time")
}

func TestCaptainApprovesAllThatAreUnchanged(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	for _, who := range []string{"ana", "ben", "cleo"} {
		k.novice(who)
		k.ok(k.press(who, "Accept plan"))
	}
	k.ok(k.say("cap", "/club approve"))
	// Ben builds another plan meanwhile: what the captain saw is no longer his.
	k.ok(k.say("ben", `/meet move name:"River Open" date:2027-06-26`))
	k.ok(k.say("ben", "/season build"))
	k.says(k.press("cap", "Approve all 3 unchanged"), "Agreed for ana and cleo. They are told.", "Not for ben")
	k.says(k.press("cap", "Approve all 3 unchanged"), "Already done")
	k.says(k.say("ben", "/season"), "not agreed yet")
}

func TestWhoDecidesIsSetByGroup(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.ok(k.say("ana", "/me set level:advanced competed:yes nudges:direct"))
	k.refused(k.say("cap", "/club decide who:coach group:monday"), "nobody is in a group")
	k.ok(k.say("cap", "/club assign lifter:ana group:monday"))
	k.ok(k.say("cap", "/club decide who:both group:monday"))
	k.refused(k.say("ana", "/club decide who:lifter"), "for the captain")
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	k.ok(k.say("ana", "/season build"))
	// Both: the captain's yes alone is not enough, nor is Ana's.
	k.says(k.say("cap", "/season accept lifter:ana"), "The plan waits for ana")
	if got := toldTo(k.sleep(1), "ana"); !strings.Contains(got, "it waits for your yes: /season") {
		t.Errorf("ana was told %q", got)
	}
	k.says(k.say("ana", "/season accept"), "Plan agreed")
	k.ok(k.say("cap", "/club decide who:lifter group:monday"))
	k.ok(k.say("ana", `/meet move name:"River Open" date:2027-07-03`))
	k.says(k.press("ana", "Accept plan"), "Plan agreed")
	k.says(k.say("cap", "/club decide who:usual group:monday"), "Where nothing is set: the coach for new lifters")
}

// Minors and who has a coach of their own: the coach decides, not every captain.
func TestOwnCoachDecides(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.ok(k.say("dan", "/me set nudges:direct"))
	k.ok(k.say("eva", "/me set level:intermediate born:2011-05-05 competed:yes"))
	k.ok(k.say("cap", "/club assign lifter:eva coach:dan"))
	k.ok(k.say("eva", `/meet add name:"River Open" date:2027-06-12`))
	k.ok(k.say("eva", "/season build"))
	k.says(k.press("eva", "Accept plan"), "your coach, dan")
	if got := toldTo(k.sleep(1), "dan"); !strings.Contains(got, "A new plan for eva") {
		t.Errorf("dan was told %q", got)
	}
	k.says(k.say("dan", "/club approve"), "Plans that wait for you")
	k.says(k.press("dan", "Approve eva"), "Agreed for eva")
}

// Where nobody else runs the club, a novice decides alone; so does a captain.
func TestNobodyToAskMeansTheLifterDecides(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.novice("ben")
	k.says(k.press("ben", "Accept plan"), "Plan agreed")
	k.novice("cap")
	k.says(k.press("cap", "Accept plan"), "Plan agreed")
}

// A captain who agrees to a plan for a lifter: the lifter is told and can go back.
func TestPlanAgreedForALifterCanBeTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	k.ok(k.say("cap", `/meet move name:"River Open" date:2027-07-31 lifter:ana`))
	k.says(k.say("cap", "/season accept lifter:ana"), "Plan agreed for ana")
	if got := toldTo(k.sleep(1), "ana"); !strings.Contains(got, "A plan was agreed for you") || !strings.Contains(got, "Moved from Sat 12 June") {
		t.Errorf("ana was told %q", got)
	}
	k.ok(k.press("ana", "Look"))
	k.says(k.press("ana", "Take back 1"), "Your plan from before runs again")
	if now := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; !sameBlocks(now, before) {
		t.Errorf("now %v", now)
	}
	k.says(k.press("ana", "Take back 2"), "River Open is on Sat 12 June 2027 again")
	k.says(k.say("ana", "/season build"), "stays as it is")
	r := k.ok(k.say("ana", "/season history"))
	if len(r.Message.Fields) != 3 || !strings.Contains(r.Message.Fields[0].Name, "runs now") || !strings.Contains(r.Message.Fields[1].Value, "from Sat 12 June to Sat 31 July") {
		t.Errorf("history %+v", r.Message.Fields)
	}
}

// 'Not yet, one more week' stays the lifter's own decision; the coach who decides is
// told of it.
func TestCoachIsToldOfOneMoreWeek(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	k.ok(k.say("cap", "/season accept lifter:ben"))
	first := data[seasonAnswer](t, k.ok(k.say("ben", "/season"))).Blocks[0]
	k.sleep(planner.NewDate(2027, 1, 4).DaysUntil(first.End) - 1)
	k.says(k.press("ben", "Not yet, one more week"), "One more week")
	if got := toldTo(k.sleep(1), "cap"); !strings.Contains(got, "One more week of muscle block (hypertrophy) for ben, to") {
		t.Errorf("the captain was told %q", got)
	}
}

// Twelve plans that wait are one screen and one tap; what waits behind them is a tap
// away.
func TestTwelvePlansAreOneTap(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club decide who:coach"))
	for i := range 13 {
		k.planned(fmt.Sprintf("lifter%02d", i), "2027-06-12")
	}
	r := k.ok(k.say("cap", "/club approve"))
	if len(r.Message.Fields) != 12 || len(r.Message.Buttons) != chat.MaxButtons {
		t.Errorf("%d plans and %d buttons on a screen", len(r.Message.Fields), len(r.Message.Buttons))
	}
	r = k.ok(k.press("cap", "Approve all 12 unchanged"))
	if len(r.Message.Buttons) != 1 || r.Message.Buttons[0].Label != "Look at the next" {
		t.Errorf("after it: %+v", r.Message.Buttons)
	}
	if r = k.ok(k.pressToken("cap", r.Message.Buttons[0].Token)); len(r.Message.Fields) != 1 || r.Message.Fields[0].Name != "lifter12" {
		t.Errorf("the next is %+v", r.Message.Fields)
	}
	if r = k.ok(k.press("cap", "Approve lifter12")); len(r.Message.Buttons) != 0 {
		t.Errorf("nothing waits, and yet there is %+v", r.Message.Buttons)
	}
}

// A plan that waits for its coach for longer than a week still stands on the board and in
// the digest, and can be approved.
func TestPlanThatWaitsLongIsNotForgotten(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club decide who:coach"))
	k.planned("ana", "2027-06-12")
	k.clock("2027-01-20T09:00:00Z")
	if all := strings.Join(fieldTexts(k.ok(k.say("cap", "/club board")).Message), " "); !strings.Contains(all, "plan waits for its coach") {
		t.Errorf("the board says %q", all)
	}
	if all := strings.Join(fieldTexts(k.ok(k.say("cap", "/club digest")).Message), " "); !strings.Contains(all, "ana: since Mon 4 January") {
		t.Errorf("the digest says %q", all)
	}
}

// What was taken back is told in words.
func TestHistorySaysInWordsWhatWasTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me"))
	k.ok(k.say("cap", "@ana squat 90x5"))
	k.ok(k.undoNote("ana"))
	if text := k.ok(k.say("cap", "/club history")).Message.Text; !strings.Contains(text, "ana took back logged sets") {
		t.Errorf("it says %q", text)
	}
	for does := range undos() {
		if strings.Contains(undone(does), "something done") {
			t.Errorf("%s has no words", does)
		}
	}
}
