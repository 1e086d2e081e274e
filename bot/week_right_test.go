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

// The first log of a lift moves the loads away from the max that was told; its answer
// says so, once.
func TestFirstLogSaysWhatItMoves(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.strong("ana", "2027-05-29")
	before := k.week("ana", "/week")
	top := work(t, before.Days[0], "squat")
	r := k.ok(k.say("ana", "squat "+planner.Kilograms(*top.Weight).Number(planner.KG)+"x5 @10"))
	k.says(r, "Your first logged squat counts for more than the max you told, so ", " goes down: ")
	if !r.Message.Private {
		t.Error("an estimate was told in public")
	}
	k.says(k.say("ana", "it was @7"), "That is the first I know of your squat, so ")
	if r := k.ok(k.say("ana", "squat 60x5")); strings.Contains(r.Message.Text, "counts for more") {
		t.Errorf("told twice: %q", r.Message.Text)
	}
}

// A misspelt movement is named under the option it stands in, once.
func TestOverrideNamesItsOption(t *testing.T) {
	k := trained(t)
	k.refused(k.say("ana", `/week override lift:bench instead:"fromt squat"`), `instead: I do not know "fromt squat"`)
	if r := k.say("ana", "/week override lift:squatt leave_out:yes"); strings.Contains(r.Message.Text, "lift: lift:") {
		t.Errorf("%q", r.Message.Text)
	}
}

// Other training days change what is still to come; the days behind stay as they were
// asked for, and none is missed that never was.
func TestOtherDaysLeaveThePastAlone(t *testing.T) {
	k := trained(t)
	k.week("ana", "/week")
	k.now = time.Date(2027, 1, 4, 17, 0, 0, 0, time.UTC)
	k.ok(k.say("ana", "done"))
	before := k.week("ana", "/week")
	k.now = time.Date(2027, 1, 8, 9, 0, 0, 0, time.UTC) // Friday
	k.ok(k.say("ana", `/week days:"mon tue wed thu fri sat"`))
	var was, is []string
	for _, d := range before.Days {
		if d.Date < planner.NewDate(2027, 1, 8) {
			was = append(was, d.Date.String())
		}
	}
	for _, d := range k.week("ana", "/week").Days {
		if d.Date < planner.NewDate(2027, 1, 8) {
			is = append(is, d.Date.String())
		}
	}
	if strings.Join(was, " ") != strings.Join(is, " ") {
		t.Errorf("days behind: %v became %v", was, is)
	}
}
