package bot

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// Gains count from today, in every answer alike: two days before the meet nothing is
// promised any more, and maxima told before the running block are no measure of today.
func TestGainsCountFromToday(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate squat:160 bench:110 deadlift:190 competed:yes"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-26`))
	k.says(k.say("ana", "/season build"), "kg on your total", "Reckoned from a total of 460 kg")
	k.ok(k.press("ana", "Accept plan"))
	told := func(ask string) string {
		t.Helper()
		for _, line := range strings.Split(k.ok(k.say("ana", ask)).Message.Text, "\n") {
			if strings.HasPrefix(line, "What it should bring") || strings.HasPrefix(line, "No real change") {
				return line
			}
		}
		return ""
	}
	show := told("/season")
	if !strings.Contains(show, "kg on your total") {
		t.Errorf("on the day of the plan: %q", show)
	}
	for _, days := range []int{16, 50, 18, 72, 15} {
		k.sleep(days)
		show, again, why := told("/season"), told("/season build"), told("/season why")
		if show == "" || show != why || again != show || strings.Contains(show, " kg") {
			t.Errorf("%d days on: /season %q, build %q, why %q", days, show, again, why)
		}
		k.says(k.say("ana", "/season"), "I tell it in kilos")
	}
	if !strings.HasPrefix(told("/season"), "No real change") {
		t.Errorf("two days before the meet: %q", told("/season"))
	}
}

// A proposal that waits since an earlier day is told alike where it is shown and where
// it is explained.
func TestGainsOfAWaitingProposal(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate squat:160 bench:110 deadlift:190 competed:yes"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-26`))
	k.ok(k.say("ana", "/season build"))
	for _, days := range []int{1, 2, 3, 4, 5} {
		k.sleep(1)
		for _, ask := range []string{"/season", "/season why"} {
			if text := k.ok(k.say("ana", ask)).Message.Text; !strings.Contains(text, "What it should bring: +") {
				t.Errorf("%d days on, %s: %s", days, ask, text)
			}
		}
	}
}

// One more week is the lifter's to take; from the thirteenth week of muscle on the
// answer says what a longer block is worth.
func TestOneMoreWeekOfALongBlock(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate squat:160 bench:110 deadlift:190 competed:yes nudges:direct"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-26`))
	k.ok(k.say("ana", "/season build"))
	k.ok(k.press("ana", "Accept plan"))
	k.sleep(planner.NewDate(2027, 1, 4).DaysUntil(planner.NewDate(2027, 3, 28)) - 1)
	k.says(k.press("ana", "Not yet, one more week"), "That makes 13 weeks; beyond 12 the same work brings less each week")
}

// Who has not told of a meet is planned for as before a first one; the proposal says how
// to put that right, as it makes peaking short.
func TestProposalAsksForEarlierMeets(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:elite"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-26`))
	const ask = "Not your first meet? /me set competed:yes"
	k.says(k.say("ana", "/season build"), "Your first meet: practise it", ask)
	k.ok(k.say("ana", "/me set competed:yes"))
	if text := k.ok(k.say("ana", "/season build")).Message.Text; strings.Contains(text, ask) || strings.Contains(text, "first meet") {
		t.Errorf("%s", text)
	}
	k.ok(k.say("ben", "/me set level:novice"))
	if text := k.ok(k.say("ben", "/season build")).Message.Text; strings.Contains(text, "first meet") {
		t.Errorf("no meet ahead: %s", text)
	}
}
