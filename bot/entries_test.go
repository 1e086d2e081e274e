package bot

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// seated adds lifters who have not joined, each with an entry for River Open that
// closes on 26 January 2027, and tells the captain of them three weeks before.
func (k *talk) seated(names ...string) {
	k.t.Helper()
	rows := "name, meet, date"
	for _, n := range names {
		rows += "; " + n + ", River Open, 2027-02-12"
	}
	k.ok(k.say("cap", `/club import table:"`+rows+`"`))
	k.ok(k.press("cap", fmt.Sprintf("Add %d lifter", len(names))+map[bool]string{true: "s"}[len(names) > 1]))
	for _, n := range names {
		k.ok(k.say("cap", fmt.Sprintf("/meet papers lifter:%q closes:2027-01-26", n)))
	}
}

// told lets the captain be told what is due at a moment, and returns the words.
func (k *talk) told(at string) string {
	k.t.Helper()
	k.clock(at)
	for _, p := range k.due() {
		if p.To.Person == "cap" {
			k.last["cap"] = append(slices.Clone(p.Message.Buttons), k.last["cap"]...)
			return p.Message.Text
		}
	}
	k.t.Fatal("the captain is told nothing")
	return ""
}

// isEntered tells what the papers of somebody's next meet say of the entry.
func (k *talk) isEntered(name string) bool {
	k.t.Helper()
	return strings.Contains(shown(k.ok(k.say("cap", fmt.Sprintf("/meet papers lifter:%q", name)))), "Entry\nIn.")
}

// The captain reads of three entries beside their own: each tap says one of them.
func TestOneTapEntersOneLifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.ok(k.say("cap", `/meet add name:"River Open" date:2027-02-12 closes:2027-01-26`))
	k.seated("Ana K", "Ben L", "Cleo M")
	k.told("2027-01-05T08:00:00Z")
	for _, want := range []string{"I have entered", "Ana K is entered", "All 4 are entered"} {
		if !slices.ContainsFunc(k.last["cap"], func(b chat.Button) bool { return b.Label == want }) {
			t.Errorf("no button %q", want)
		}
	}
	k.shows(k.ok(k.press("cap", "Ben L is entered")), "Entered: River Open (Ben L). I stop asking.")
	if !k.isEntered("Ben L") || k.isEntered("Ana K") || k.isEntered("Cleo M") || k.meet(k.lifter("cap").ID).Entered {
		t.Error("one tap entered others too, or nobody")
	}
	k.shows(k.ok(k.press("cap", "I have entered")), "Entered: River Open. I stop")
	if k.isEntered("Ana K") {
		t.Error("the captain's own entry entered Ana too")
	}
	k.ok(k.press("cap", "All 4 are entered"))
	if !k.isEntered("Ana K") || !k.isEntered("Cleo M") {
		t.Error("not all are entered")
	}
}

// Twenty entries on one day are one sentence and one button, and the message says how
// to tell of a single one.
func TestManyEntriesAreOneSentence(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	var names []string
	for i := range 20 {
		names = append(names, "Ana "+string(rune('A'+i)))
	}
	k.seated(names...)
	text := k.told("2027-01-05T08:00:00Z")
	for _, want := range []string{"Ana A, Ana B, Ana C, ", "and 8 more, who have not joined yet: The entry for River Open closes in 21 days", "lifter: and entered:yes tells of one"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q:\n%s", want, text)
		}
	}
	if n := strings.Count(text, "closes in 21 days"); n != 1 {
		t.Errorf("it says so %d times", n)
	}
	if text := k.ok(k.press("cap", "All 20 are entered")).Message.Text; !strings.HasSuffix(text, "and 8 more. I stop asking.") {
		t.Errorf("answered %q", text)
	}
	if !k.isEntered("Ana T") {
		t.Error("not entered")
	}
}

// Whoever has no account can do nothing for the club.
func TestNobodyWithoutAnAccountIsCaptain(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.seated("Ana K")
	k.refused(k.say("cap", `/club captain member:"Ana K"`), "Ana K has not joined yet")
	k.refused(k.say("cap", `/meet papers lifter:"Ana K" handler:"Ana K"`), "somebody else")
}

// Nothing is told to who has not joined, and no answer says that it were.
func TestAnswersDoNotClaimToTellWhoIsNotThere(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", `/club import table:"name, level, squat, bench, deadlift, meet, date; Ana K, intermediate, 120, 70, 145, River Open, 2027-06-12; Ben L, intermediate, 120, 70, 145, River Open, 2027-06-12"`))
	k.ok(k.press("cap", "Add 2 lifters"))
	k.ok(k.press("cap", "Lay out plans for 2 lifters"))
	k.ok(k.press("cap", "Look at them"))
	if r := k.ok(k.press("cap", "Approve all 2 unchanged")); r.Message.Text != "Agreed for Ana K and Ben L." {
		t.Errorf("answered %q", r.Message.Text)
	}
	k.shows(k.ok(k.say("cap", `/nudges lifter:"Ana K"`)), "has not joined yet: I tell them nothing")
}

// What a captain changes for a lifter is told to the lifter, also what they are told.
func TestNudgesChangedByOthersAreTold(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.ok(k.say("ana", "/me set nudges:ask"))
	k.shows(k.ok(k.say("cap", "/nudges where channel lifter:ana")), "For ana: ")
	k.ok(k.say("cap", "/nudges off silence lifter:ana"))
	k.ok(k.say("cap", "/nudges on silence lifter:ana"))
	k.ok(k.say("cap", "/nudges hour 07:30 lifter:ana"))
	k.ok(k.say("cap", "/nudges quiet sun lifter:ana"))
	k.ok(k.say("cap", "/nudges snooze 7 lifter:ana"))
	k.ok(k.say("cap", "/bodyweight 62 lifter:ana"))
	if got := k.notesTo("ana"); len(got) != 7 {
		t.Errorf("told: %v", got)
	}
	k.ok(k.say("ana", "/nudges where direct"))
	k.ok(k.say("ana", "/bodyweight 62"))
	if got := k.notesTo("ana"); len(got) != 7 {
		t.Errorf("told of what she did herself: %v", got)
	}
}

// That a captain erased somebody stands in the history, without the name.
func TestErasingAPlaceholderIsWrittenDown(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.seated("Ana K")
	k.ok(k.say("cap", `/club placeholders "Ana K" erase:yes`))
	k.ok(k.press("cap", "Erase Ana K"))
	r := k.ok(k.say("cap", "/club history"))
	k.shows(r, "erased a lifter who had not joined")
	k.silentOn(r, "Ana K")
}

// Rows that cannot be read are told in the order of the table, and each column once.
func TestRowsLeftOutAreTold(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	r := k.ok(k.say("cap", `/club import table:"name, squat; @everyone, 100; Ana K, heavy"`))
	k.shows(r, "Row 2, name: \"", "Row 3, column 2 (squat)")
	if text := r.Message.Text; strings.Index(text, "Row 2") > strings.Index(text, "Row 3") {
		t.Errorf("out of order:\n%s", text)
	}
}

// The fortnight says of each thing before a meet what it is, not only when.
func TestFortnightSaysWhatIsToBeDone(t *testing.T) {
	k := newTalk(t, "2027-05-25T09:00:00Z")
	k.ok(k.say("ana", "/me set nudges:direct"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	k.shows(k.ok(k.say("ana", "/nudges")), "River Open in 2 weeks. Write down your openers", "River Open in 1 week. Pack by a list")
}

// A coach who lays out many plans reads one sentence about them the next morning.
func TestManyPlansThatWaitAreOneSentence(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	rows := "name, level, squat, bench, deadlift, meet, date"
	for i := range 20 {
		rows += fmt.Sprintf("; Ana %c, novice, 80, 45, 100, River Open, 2027-06-12", 'A'+i)
	}
	k.ok(k.say("cap", `/club import table:"`+rows+`"`))
	k.ok(k.press("cap", "Add 20 lifters"))
	k.ok(k.press("cap", "Lay out plans for 20 lifters"))
	text := k.told("2027-01-05T08:00:00Z")
	if !strings.HasPrefix(text, "New plans for Ana A, Ana B, ") || !strings.Contains(text, " and 8 more wait for your yes.") || strings.Count(text, "your yes") != 1 {
		t.Errorf("told:\n%s", text)
	}
}

// One tap under a message of several kinds stops them all; each can be kept by one
// more.
func TestOneOfSeveralStoppedKindsIsKept(t *testing.T) {
	k := newTalk(t, "2027-05-20T09:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.ok(k.say("cap", `/meet add name:"River Open" date:2027-06-12 closes:2027-06-05`))
	k.told("2027-05-29T08:00:00Z") // openers, and the entry that closes
	r := k.ok(k.press("cap", "Fewer of these"))
	if len(r.Message.Buttons) < 2 {
		t.Fatalf("no way to keep one: %+v", r.Message)
	}
	k.shows(k.ok(k.press("cap", "Keep entry")), "I tell you again when the entry for your meet closes")
	got := map[string]bool{}
	for _, n := range data[struct {
		Nudges []struct {
			Kind string
			On   bool
		}
	}](t, k.ok(k.say("cap", "/nudges"))).Nudges {
		got[n.Kind] = n.On
	}
	if !got["entry"] || got["openers"] {
		t.Errorf("entry on: %v, openers on: %v", got["entry"], got["openers"])
	}
}

// A new coach sees a lifter's log and decides on plans: both are told.
func TestNewCoachIsToldToBoth(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"ana", "ben"} {
		k.ok(k.say(who, "/me"))
	}
	k.ok(k.say("cap", "/club assign lifter:ana coach:ben"))
	k.ok(k.say("cap", "/club assign lifter:ana group:monday"))
	for _, who := range []string{"ana", "ben"} {
		if got := k.notesTo(who); len(got) != 1 || !strings.Contains(got[0].What, "coach") {
			t.Errorf("%s is told %v", who, got)
		}
	}
	k.ok(k.say("cap", "/club assign lifter:ana coach:none"))
	if got := k.notesTo("ana"); len(got) != 2 || !strings.Contains(got[1].What+got[0].What, "a captain") {
		t.Errorf("ana is told %v", got)
	}
}

// The table may say when the entry closes, and then nobody has to be told it one by one.
func TestTableTellsWhenTheEntryCloses(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	r := k.ok(k.say("cap", `/club import table:"name, meet, date, closes; Ana K, River Open, 2027-06-12, 2027-05-20; Ben L, River Open, 2027-06-12, 2027-07-01"`))
	k.shows(r, "entry closes Thu 20 May", "Row 3, closes: The entry cannot close on 2027-07-01")
	k.ok(k.press("cap", "Add 1 lifter"))
	k.shows(k.ok(k.say("cap", `/meet papers lifter:"Ana K"`)), "closes on Thu 20 May 2027")
}

// Zora told her captain's meet herself as well: what the captain knows of her entry is
// hers after the claim, and goes back with it.
func TestClaimFillsInTheEntryBothHad(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.seated("Zora K", "Ana K")
	k.ok(k.say("cap", `/meet papers lifter:"Zora K" entered:yes qualifying:330 session:2`))
	k.ok(k.say("zora", `/meet add name:"river open" date:2027-02-12`))
	before := shown(k.ok(k.say("zora", "/meet papers")))
	k.ok(k.say("zora", `/me claim name:"Zora K"`))
	k.told("2027-01-05T08:00:00Z")
	k.ok(k.press("cap", "Look"))
	k.ok(k.press("cap", "Yes, zora is Zora K"))
	k.shows(k.ok(k.say("zora", "/meet papers")), "Entry\nIn.", "They ask for 330 kg", "Session 2")
	k.clock("2027-01-04T08:00:00Z") // so that the days left read alike
	k.ok(k.press("cap", "Take it back"))
	if after := shown(k.ok(k.say("zora", "/meet papers"))); after != before {
		t.Errorf("taken back, her papers say\n%s\nwant\n%s", after, before)
	}
	k.shows(k.ok(k.say("cap", `/meet papers lifter:"Zora K"`)), "Entry\nIn.", "They ask for 330 kg", "Session 2")
	k.ok(k.say("zora", `/me claim name:"Ana K"`))
	k.ok(k.say("cap", "/club placeholders"))
	k.ok(k.press("cap", "Yes, zora is Ana K"))
	k.ok(k.say("zora", "/mydata erase"))
	k.ok(k.press("zora", "Erase everything"))
	k.refused(k.press("cap", "Take it back"), "Nobody is there any more")
}

// Where the club wants to be asked, nobody is announced as beginning what still waits.
func TestOnlyWhatBeginsIsAnnounced(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club settings advance:ask"))
	k.planned("ana", "2027-06-12")
	start := data[struct {
		Next struct{ Start planner.Date }
	}](t, k.ok(k.say("ana", "/block"))).Next.Start
	k.clock(start.AddDays(-1).String() + "T09:00:00Z")
	k.refused(k.say("cap", "/club announce"), "Nobody begins")
	k.shows(k.ok(k.say("cap", "/club digest")), "by plan; it waits")
	k.clock(start.String() + "T09:00:00Z")
	k.ok(k.say("ana", "/block"))
	k.ok(k.press("ana", "Begin it"))
	k.shows(k.ok(k.say("cap", "/club announce")), "for ana")
	k.silentOn(k.ok(k.say("cap", "/club digest")), "it waits")
}

// A reason is kept and read by others: no word of anybody's pain in it.
func TestReasonOfAMoveIsNotAboutHealth(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	for _, why := range []string{"her knee hurts", "Ana was ill", "after surgery"} {
		k.refused(k.say("cap", `/club move lifter:ana block:strength reason:"`+why+`"`), "no word about health")
	}
}

// Zora's coach has left the club: her entry is the captain's to hear of, and the
// coach's again once they are back.
func TestEntryOfALeaversLifterIsTheCaptains(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/me set nudges:direct"))
	k.ok(k.say("ben", "/me set nudges:direct"))
	k.ok(k.say("cap", `/club import table:"name, meet, date, closes, coach; Zora K, River Open, 2027-02-12, 2027-01-26, ben"`))
	k.ok(k.press("cap", "Add 1 lifter"))
	k.due()
	k.ok(k.say("cap", "/club left lifter:ben"))
	if text := k.told("2027-01-05T08:00:00Z"); !strings.Contains(text, "For Zora K, who has not joined yet: The entry") {
		t.Errorf("told:\n%s", text)
	}
	k.ok(k.say("cap", "/club left lifter:ben back:yes"))
	k.clock("2027-01-19T08:00:00Z")
	for _, p := range k.due() {
		if strings.Contains(p.Message.Text, "Zora K") && p.To.Person != "ben" {
			t.Errorf("ben is back, and %s is told:\n%s", p.To.Person, p.Message.Text)
		}
	}
}
