package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// Sets without a lift, a minute after another one.
func TestSetWithoutALiftGoesOnWithTheLast(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "paused squat 100x5")
	k.clock("2027-01-04T19:01:00Z")
	r := k.ok(k.say("ana", "105x5"))
	if got := k.logOf("ana"); got != "paused squat 100 kg x 5, paused squat 105 kg x 5" || !strings.Contains(r.Message.Text, "like the set before") {
		t.Fatalf("%s: %s", got, r.Message.Text)
	}
	k.ok(k.press("ana", "No, bench"))
	if got := k.logOf("ana"); got != "paused squat 100 kg x 5, bench 105 kg x 5" {
		t.Errorf("put right: %s", got)
	}
	k.ok(k.say("ana", "107.5x5"))
	k.ok(k.press("ana", "No, take it out"))
	if got := k.logOf("ana"); got != "paused squat 100 kg x 5, bench 105 kg x 5" {
		t.Errorf("taken out: %s", got)
	}
}

func TestSetWithoutALiftIsAskedAboutWhereItCouldBeAnother(t *testing.T) {
	for _, c := range []struct{ before, at, text, first string }{
		{"bench 60x5", "2027-01-04T19:01:00Z", "140x5", "bench"},            // far in weight
		{"deadlift 140x5", "2027-01-04T19:30:00Z", "140x5", "deadlift"},     // half an hour later
		{"squat 140x5", "2027-01-04T23:30:00Z", "140x5", "squat"},           // hours later: nothing is offered first
		{"yesterday squat 140x5", "2027-01-04T19:01:00Z", "145x5", "squat"}, // of another day
		{"row 60x8", "2027-01-04T19:01:00Z", "60 8", "row"},                 // itself not clear
	} {
		k := newTalk(t, "2027-01-04T19:00:00Z")
		k.say("ana", c.before)
		had := k.logOf("ana")
		k.clock(c.at)
		r := k.say("ana", c.text)
		if k.logOf("ana") != had || len(r.Message.Buttons) < 3 || r.Message.Buttons[0].Label != c.first {
			t.Errorf("%q then %q: %s, %+v", c.before, c.text, k.logOf("ana"), r.Message.Buttons)
		}
	}
}

// What a correction without a weight makes of a set, what is said, and that a tap puts
// it back.
func TestCorrectionsWithoutAWeight(t *testing.T) {
	for _, c := range []struct{ set, text, want string }{
		{"squat 100x5 @8", "it was @9", "squat 100 kg x 5, 1 left"},
		{"squat 100x5", "no 4 reps", "squat 100 kg x 4"},
		{"squat 100x5", "that was a double", "squat 100 kg x 2"},
		{"squat 100x5", "make that 3 sets", "squat 3 sets of 5 at 100 kg"},
		{"squat 100x5", "make that three sets", "squat 3 sets of 5 at 100 kg"},
		{"squat 100x5", "no, 3x4 @9", "squat 3 sets of 4 at 100 kg, 1 left"},
		{"squat 100x5", "only got 4", "squat 100 kg x 4"},
		{"squat 100x5", "felt like a 9", "squat 100 kg x 5, 1 left"},
		{"squat 100x1", "missed it", "squat 100 kg, missed"},
		{"squat 100x5", "I meant paused squat", "paused squat 100 kg x 5"},
		{"squat 225x5", "that was lb", "squat 102.06 kg x 5"},
		{"squat 100x5", "it was 102.5", "squat 102.5 kg x 5"},
		{"squat 90x3, 100x5", "it was @9", "squat 90 kg x 3, squat 100 kg x 5, 1 left"},
	} {
		k := newTalk(t, "2027-01-04T19:00:00Z")
		k.say("ana", c.set)
		before := k.logOf("ana")
		r := k.ok(k.say("ana", c.text))
		if got := k.logOf("ana"); got != c.want || !strings.Contains(r.Message.Text, "Was ") || !strings.Contains(r.Message.Text, ", now ") {
			t.Errorf("%q, %q: %s (%s)", c.set, c.text, got, r.Message.Text)
		}
		k.ok(k.press("ana", "Put it back"))
		if got := k.logOf("ana"); got != before {
			t.Errorf("%q, %q, put back: %s", c.set, c.text, got)
		}
	}
}

// Without a set of the last ten minutes such words are about anything, and answered
// only where they cannot be talk.
func TestCorrectionsOutOfTheirTime(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 100x5")
	k.clock("2027-01-04T19:11:00Z")
	for _, text := range []string{"that was a double", "it was @9", "missed it", "only got 4", "it was 100"} {
		if r := k.say("ana", text); r.Kind != chat.Silent {
			t.Errorf("%q: %s", text, r.Message.Text)
		}
	}
	for _, text := range []string{"no 4 reps", "make that 3 sets", "I meant 150"} {
		k.refused(k.say("ana", text), "no set in the last ten minutes")
	}
	if got := k.logOf("ana"); got != "squat 100 kg x 5" {
		t.Errorf("%s", got)
	}
	k.refused(k.say("ben", "no 4 reps"), "no set")
}

func TestWhichOfSeveralSetsWasMissedIsNotGuessed(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 3x5 100")
	k.refused(k.say("ana", "missed it"), "which of the 3 sets")
	if got := k.logOf("ana"); got != "squat 3 sets of 5 at 100 kg" {
		t.Errorf("%s", got)
	}
}

func TestUndoOfACorrectedSetOffersBothForms(t *testing.T) {
	for label, want := range map[string]string{"Put it back": "squat 100 kg x 4", "Put back squat 100 kg x 5": "squat 100 kg x 5"} {
		k := newTalk(t, "2027-01-04T19:00:00Z")
		k.say("ana", "squat 100x5")
		k.ok(k.say("ana", "no 4 reps"))
		k.ok(k.say("ana", "undo"))
		if got := k.logOf("ana"); got != "" {
			t.Fatalf("undone: %s", got)
		}
		k.ok(k.press("ana", label))
		if got := k.logOf("ana"); got != want {
			t.Errorf("%s: %s", label, got)
		}
	}
}

// A button from before another correction would bring back what nobody sees any more.
func TestPutItBackAfterAnotherCorrection(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 100x5")
	first := k.ok(k.say("ana", "no 4 reps")).Message.Buttons[0]
	k.ok(k.say("ana", "no 3 reps"))
	k.refused(k.pressToken("ana", first.Token), "changed since")
	if got := k.logOf("ana"); got != "squat 100 kg x 3" {
		t.Errorf("%s", got)
	}
}

func TestRecordIsToldOnceHoweverOftenCorrected(t *testing.T) {
	k := newTalk(t, "2027-01-03T19:00:00Z")
	k.say("ana", "squat 100x5")
	k.clock("2027-01-04T19:00:00Z")
	if r := k.say("ana", "squat 105x5"); !strings.Contains(r.Message.Text, "Your best squat") {
		t.Fatalf("%s", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "it was @9")); strings.Contains(r.Message.Text, "best") {
		t.Errorf("told again: %s", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "no 110")); !strings.Contains(r.Message.Text, "110 kg; it was 100 kg") {
		t.Errorf("a better one: %s", r.Message.Text)
	}
}

// The same set once more without its lift is a second set; the same message twice is
// one that was sent twice.
func TestSameSetWithoutItsLiftIsASecondOne(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 100x5")
	k.clock("2027-01-04T19:01:00Z")
	k.ok(k.say("ana", "100x5"))
	if got := k.logOf("ana"); got != "squat 100 kg x 5, squat 100 kg x 5" {
		t.Errorf("%s", got)
	}
	if r := k.ok(k.say("ana", "100x5")); !strings.Contains(r.Message.Text, "count it once") {
		t.Errorf("sent twice: %s", r.Message.Text)
	}
}
