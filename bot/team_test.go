package bot

import (
	"bytes"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestTeamMeetIsAddedMovedAndDropped(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	for _, who := range []string{"ana", "ben", "cleo"} {
		k.ok(k.say(who, "/me set level:intermediate competed:yes nudges:direct"))
	}
	k.ok(k.say("cleo", `/meet add name:"River Open" date:2027-06-12`))
	r := k.say("cap", `/meet add name:"River Open" date:2027-06-12 lifters:"ana, ben, cleo"`)
	k.says(r, "On the calendar of ana and ben: River Open", "Already there for cleo.")
	posts := k.sleep(1)
	for _, p := range posts {
		if strings.Contains(p.To.Channel, "#") && strings.Contains(p.Message.Text, "On your calendar") {
			t.Errorf("told in public: %s", p.Message.Text)
		}
	}
	if got := toldTo(posts, "ana"); !strings.Contains(got, "On your calendar: River Open, main meet, Sat 12 June 2027") {
		t.Errorf("ana was told %q", got)
	}
	if got := toldTo(posts, "cleo"); got != "" {
		t.Errorf("cleo was told %q", got)
	}
	k.ok(k.press("ana", "Look"))
	k.says(k.press("ana", "Build my plan"), "Proposed plan")
	k.ok(k.press("ana", "Accept plan"))
	k.says(k.say("cap", `/meet move name:"River Open" date:2027-06-19 lifters:all`), "Moved for ana, ben and cleo")
	k.says(k.press("cap", "Lay out plans for 3 lifters"), "These decide themselves and are told: ana, ben and cleo.")
	k.says(k.say("ana", "/season"), "Your plan", "Another plan waits for a yes")
	k.says(k.press("ana", "Show the new plan"), "not agreed yet", "agreed so far")
	k.says(k.say("ana", "/season accept"), "Plan agreed")
	k.says(k.say("cap", `/meet drop name:"River Open" lifters:all`), "Off the calendar of ana, ben and cleo")
	k.says(k.say("ben", "/meet"), "No meet on the calendar")
	k.refused(k.say("cap", `/meet drop name:"River Open" lifters:all`), "Nobody of them has a meet")
}

func TestTeamNeedsTheRight(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"cap", "ana", "ben", "dan"} {
		k.ok(k.say(who, "/me"))
	}
	k.ok(k.say("cap", "/club assign lifter:ana coach:dan group:monday"))
	for text, want := range map[string]string{
		`/meet add name:X date:2027-06-12 lifters:"ana, ben"`:              "ben is for the captain",
		`/meet add name:X date:2027-06-12 lifters:all`:                     "for the captain",
		`/meet add name:X date:2027-06-12 lifters:"ana, bem"`:              `called "bem"`,
		`/meet add name:X date:2027-06-12 lifters:","`:                     "names nobody",
		`/meet add name:X date:2027-06-12 lifters:ana group:monday`:        "not clear whom",
		`/meet add name:X date:2027-06-12 group:tuesday`:                   "nobody is in a group",
		`/meet add name:X date:2021-06-12 lifters:ana`:                     "is past",
		`/meet move name:X date:2027-06-12 lifters:ana`:                    "Nobody of them",
		`/meet add name:X date:2027-06-12 lifter:ana lifters:"ana"`:        "not clear whom",
		`/meet add name:"X" date:2027-06-12 closes:2027-07-01 lifters:ana`: "after the meet",
	} {
		k.refused(k.say("dan", text), want)
	}
	k.says(k.say("dan", `/meet add name:"Lake Cup" date:2027-06-12 group:monday`), "On the calendar of ana")
	if r := k.ok(k.say("ben", "/meet")); !strings.Contains(r.Message.Text, "No meet") {
		t.Error("ben has the meet too")
	}
}

func TestNearlySameMeetIsPointedOut(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"ana", "ben"} {
		k.ok(k.say(who, `/meet add name:"River Open" date:2027-06-12`))
	}
	r := k.say("cleo", `/meet add name:"river open" date:2027-06-13`)
	k.says(r, "2 others of the club have river open on Sat 12 June 2027: check the date.")
	if strings.Contains(r.Message.Text, "ana") || strings.Contains(r.Message.Text, "ben") {
		t.Errorf("others are named: %s", r.Message.Text)
	}
	k.says(k.say("dan", `/meet add name:"River Opne" date:2027-06-12`), "have River Open on that day: is it the same meet?")
	for _, text := range []string{`/meet add name:"River Open" date:2027-06-12`, `/meet add name:"River Open" date:2028-06-12`, `/meet add name:"Lake Cup" date:2027-06-12`} {
		if r := k.ok(k.say("eva", text)); strings.Contains(r.Message.Text, "of the club") {
			t.Errorf("%s: %s", text, r.Message.Text)
		}
	}
}

func TestClubClosesForEverybodyOrAGroup(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.strong("ana", "2027-05-08")
	k.ok(k.say("ben", "/me set nudges:direct"))
	k.refused(k.say("ana", "/club away from:2027-02-01 to:2027-02-20"), "for the captain")
	k.refused(k.say("cap", "/club away from:2027-02-01"), "last day too")
	k.ok(k.say("cap", "/club assign lifter:ana group:monday"))
	k.says(k.say("cap", "/club away from:2027-02-01 to:2027-02-20 group:monday"), "for ana", "told in private")
	k.says(k.press("cap", "Lay out plans for 1 lifter"), "Plans laid out")
	posts := k.sleep(1)
	if got := toldTo(posts, "ana"); !strings.Contains(got, "You are marked as away from Mon 1 February to Sat 20 February (20 days)") {
		t.Errorf("ana was told %q", got)
	}
	if got := toldTo(posts, "ben"); got != "" {
		t.Errorf("ben was told %q", got)
	}
	k.says(k.say("cap", "/club away from:2027-08-01 to:2027-08-14"), "for cap, ana and ben")
}

// A button that was made while somebody coached a lifter does nothing once they do
// not any more.
func TestFormerCoachCannotPressForALifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"cap", "dan"} {
		k.ok(k.say(who, "/me"))
	}
	k.strong("ana", "2027-05-08")
	k.ok(k.say("cap", "/club assign lifter:ana coach:dan"))
	k.ok(k.say("dan", "/season why lifter:ana"))
	k.ok(k.say("dan", "/season away lifter:ana"))
	k.ok(k.say("dan", `/season compare blocks:"H7 S7 P4" lifter:ana`))
	k.ok(k.say("dan", "/season rest lift:squat until:2027-02-01 lifter:ana"))
	k.ok(k.say("cap", "/club assign lifter:ana coach:none"))
	for _, label := range []string{"Back now", "Propose H7 S7 P4", "Put it back", "One week later: strength block from Mon 1 March"} {
		k.refused(k.press("dan", label), "no longer speak for that lifter")
	}
}

// Buttons about a lifter's log and profile ask again as well: who coached when they
// were made, and does no longer, changes nothing with them.
func TestFormerCoachChangesNothingByAnOldButton(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "squat 100x5 @8"))
	k.ok(k.say("ben", "/block"))
	k.ok(k.say("cap", "/club assign lifter:ana coach:ben"))
	var old []chat.Button
	for _, ask := range []string{"/log recent lifter:ana", "/me show lifter:ana"} {
		old = append(old, k.ok(k.say("ben", ask)).Message.Buttons...)
	}
	if len(old) < 4 {
		t.Fatalf("only %d buttons to try", len(old))
	}
	k.ok(k.say("cap", "/club assign lifter:ana coach:none"))
	before := k.ok(k.say("ana", "/mydata export")).Message.Files[0].Bytes
	for _, b := range old {
		k.refused(k.pressToken("ben", b.Token), "no longer speak for that lifter")
	}
	if after := k.ok(k.say("ana", "/mydata export")).Message.Files[0].Bytes; !bytes.Equal(before, after) {
		t.Error("something of the lifter's changed")
	}
}
