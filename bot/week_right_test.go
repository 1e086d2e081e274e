package bot

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

// loading is a lifter on the day of a top set, with a first week done as prescribed.
func loading(t *testing.T) *talk {
	t.Helper()
	k := trained(t)
	for day := range 7 {
		k.now = time.Date(2027, 1, 4+day, 17, 0, 0, 0, time.UTC)
		if d := k.week("ana", "/today"); len(d.Days) > 0 {
			k.ok(k.say("ana", "done"))
		}
	}
	k.now = time.Date(2027, 1, 11, 17, 0, 0, 0, time.UTC)
	k.week("ana", "/week")
	return k
}

// A correction that moves loads says so as the line itself would, and one that takes a
// move back says that too.
func TestCorrectionSaysWhatItMoves(t *testing.T) {
	k := loading(t)
	planned := work(t, k.week("ana", "/week").Days[2], "high-bar squat")
	k.ok(k.say("ana", "squat 90x6 @7.5"))
	k.says(k.say("ana", "no, 90x6 @9.5"), "now squat 90 kg x 6, 0.5 left.", "Squat was harder than planned, so Fri 15 January goes down: high-bar squat ")
	same := "Squat: loads stay as planned after all. Fri 15 January is high-bar squat " + planner.Kilograms(*planned.Weight).Text(planner.KG) + " again."
	k.says(k.press("ana", "Put it back"), same)
	k.says(k.say("ana", "it was @5"), "Squat was easier than planned, so Fri 15 January goes up: high-bar squat ")
	k.says(k.say("ana", "undo"), "Removed ", same)
	k.says(k.press("ana", "Put it back"), "easier than planned, so Fri 15 January goes up")
	k.says(k.say("ana", "/log fix 1 effort:7.5"), same)
}

// A set that is asked about moves loads once it is answered, and the answer says so.
func TestAnsweredQuestionSaysWhatItMoves(t *testing.T) {
	k := loading(t)
	r := k.ok(k.say("ana", "squat 160x1 missed"))
	if len(r.Message.Buttons) == 0 || strings.Contains(r.Message.Text, "than planned") {
		t.Fatalf("not asked: %q", r.Message.Text)
	}
	k.says(k.press("ana", r.Message.Buttons[0].Label), "Squat was harder than planned, so Fri 15 January goes down")
}
