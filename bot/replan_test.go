package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/planner"
)

// A change that leaves the blocks as they are asks nobody: the calendar of the
// agreed plan is brought up to date, and the history says what came in.
func TestHarmlessMeetChangesOnlyTheCalendar(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	r := k.say("ana", `/meet add name:"Gym Cup" date:2027-04-03 kind:tune-up`)
	k.says(r, "On the calendar: Gym Cup", "Your plan stays as it is")
	if labels(r) != "" {
		t.Errorf("asked about nothing: %s", labels(r))
	}
	now := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	if !sameBlocks(now.Blocks, before) || len(now.Meets) != 2 {
		t.Errorf("blocks %v, meets %v", now.Blocks, now.Meets)
	}
	h := k.ok(k.say("ana", "/season history"))
	if len(h.Message.Fields) != 2 || !strings.Contains(h.Message.Fields[0].Value, "New: Gym Cup, Sat 3 April.") || !strings.Contains(h.Message.Fields[0].Value, "The same blocks.") {
		t.Errorf("history %+v", h.Message.Fields)
	}
	k.refused(k.say("ana", "/season accept"), "no proposed plan")
}

func TestProposalSaysWhyAndWhatStayingCosts(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	k.sleep(7)
	r := k.say("ana", `/meet move name:"River Open" date:2027-05-29`)
	k.says(r, "Moved from Sat 8 May", "new: ", "21 days later", "does not peak for River Open on Sat 29 May")
	n := k.versions("ana")
	k.says(k.press("ana", "Keep my plan"), "nothing changes")
	k.refused(k.say("ana", "/season accept"), "no proposed plan")
	// Nothing has changed since: the same is not proposed again by another change.
	k.says(k.say("ana", "/season away from:today to:tomorrow"), "turned down before")
	if k.versions("ana") != n {
		t.Errorf("%d versions, then %d", n, k.versions("ana"))
	}
}

// A level or class that changes the plan only a little is not worth a word.
func TestProfileBearsOnThePlanOnlyWhereItMatters(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-07-10")
	r := k.ok(k.say("ana", "/me set class:93"))
	n := k.versions("ana")
	if n != 1 {
		t.Errorf("%d versions after a change of class", n)
	}
	if strings.Contains(labels(r), "Show the new plan") {
		t.Errorf("buttons %s", labels(r))
	}
	r = k.ok(k.say("ana", "/me set level:novice"))
	k.says(r, "Saved", "another plan would fit better")
	if k.versions("ana") != n {
		t.Error("a proposal was made before anybody asked for it")
	}
	k.says(k.press("ana", "Show the new plan"), "Proposed plan", "no longer keeps the rules")
}

func TestEasyWeeksFollowAMainMeet(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-03-06")
	k.sleep(62)
	k.says(k.say("ana", "/block"), "one to two easy weeks come first")
	k.ok(k.say("ana", `/meet add name:"Autumn Open" date:2027-09-04`))
	r := k.ok(k.say("ana", "/season build"))
	got := upcoming(data[seasonAnswer](t, r).Blocks, planner.DateOf(k.now))
	if len(got) < 3 || got[0].Kind != planner.Recovery || got[0].Start != planner.NewDate(2027, 3, 7) || got[0].Weeks > 2 {
		t.Errorf("after the meet: %+v", got)
	}
	// Three weeks later nobody needs easy weeks any more.
	k.sleep(21)
	got = upcoming(data[seasonAnswer](t, k.ok(k.say("ana", "/season build"))).Blocks, planner.DateOf(k.now))
	if got[0].Kind == planner.Recovery {
		t.Errorf("three weeks after the meet: %+v", got)
	}
}

func TestFewerLiftsAreNamedInThePlan(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate competed:yes squat:140 bench:90 deadlift:170"))
	k.ok(k.say("ana", `/meet add name:"Bench Cup" date:2027-05-08 event:bench equipment:single-ply`))
	r := k.say("ana", "/season build")
	k.says(r, "Bench Cup is bench only: no heavy squat or deadlift days; legs stay at upkeep", "Bench Cup is lifted in gear: the blocks allow for it")
	if strings.Contains(r.Message.Text, "on your total") {
		t.Errorf("a bench meet has no total: %s", r.Message.Text)
	}
}

// Days that were pinned were counted back from a main meet; they fall with it.
func TestPinnedDaysFallWithTheirMeet(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	k.ok(k.say("ana", "/season pin kind:peaking start:2027-04-12"))
	k.ok(k.say("ana", "/season pin kind:strength weeks:6"))
	r := k.say("ana", `/meet move name:"River Open" date:2027-06-05`)
	k.says(r, "No longer fixed, as the meet it was counted back from has moved: peaking from the week of Mon 12 April.")
	k.says(k.say("ana", "/season pin"), "1: strength block of 6 weeks")
}

func TestFiftyMeetsDoNotDrownThePlan(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate competed:yes"))
	for i := range 50 {
		k.ok(k.say("ana", fmt.Sprintf(`/meet add name:"Meet %d" date:%s`, i, planner.NewDate(2027, 2, 6).AddDays(14*i))))
	}
	r := k.say("ana", "/season build")
	k.says(r, "Only the next 12 meets are planned; Meet 12", "So do 37 more.", "Why these dates")
	if n := strings.Count(r.Message.Text, "Only the next"); n != 1 {
		t.Errorf("said %d times", n)
	}
}
