package bot

import (
	"strings"
	"testing"
)

// A lifter who builds the same plan again while it waits for the coach keeps the yes that
// was said, and so does one who does so on another day.
func TestSamePlanBuiltAgainKeepsTheYes(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	r := k.ok(k.say("ben", "/season build"))
	k.says(r, "Proposed plan, waits for your coach", "Your yes is kept", "cap")
	if got := labels(r); got != "Withdraw" {
		t.Errorf("buttons %s", got)
	}
	k.sleep(1)
	k.says(k.say("ben", "/season build"), "waits for your coach")
	r = k.ok(k.say("cap", "/club approve"))
	if labels(r) != "Approve ben, Decline ben" {
		t.Fatalf("the coach sees %s", labels(r))
	}
	k.says(k.press("cap", "Approve ben"), "Agreed for ben")
	k.says(k.say("ben", "/block"), "week 1")
}

// A plan that waits offers its lifter no second yes, but a way back.
func TestWaitingPlanCanBeWithdrawn(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	r := k.ok(k.say("ben", "/season"))
	k.says(r, "waits for your coach", "It waits for your coach, cap")
	if got := labels(r); got != "Withdraw" {
		t.Fatalf("buttons %s", got)
	}
	k.says(k.press("ben", "Withdraw"), "no longer waits for your coach, cap")
	k.says(k.say("cap", "/club approve"), "No plan waits for you.")
	k.says(k.say("ben", "/season build"), "Proposed plan")
	k.says(k.press("ben", "Accept plan"), "Waits for your coach")
}

// The coach who looks at it still settles it, under a title of their own.
func TestCoachSettlesTheWaitingPlanInSeason(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	r := k.ok(k.say("cap", "/season lifter:ben"))
	k.says(r, "waits for your yes, for ben")
	if got := labels(r); !strings.HasPrefix(got, "Accept plan, Decline ben") {
		t.Errorf("buttons %s", got)
	}
	k.says(k.say("cap", "/season build lifter:ben"), "waits for your yes")
	k.says(k.press("cap", "Accept plan"), "Plan agreed for ben")
}

// Another plan in its place needs another yes, and the answer says so.
func TestOtherPlanSaysThatTheYesIsGone(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.novice("ben")
	k.ok(k.press("ben", "Accept plan"))
	k.says(k.say("ben", "/season pin kind:strength weeks:8"), "takes the place of the one you said yes to", "needs your yes again")
	r := k.ok(k.say("ben", "/season"))
	if !strings.HasPrefix(labels(r), "Accept plan, ") {
		t.Errorf("buttons %s", labels(r))
	}
}
