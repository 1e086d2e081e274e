package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

type recordAnswer struct {
	Records []struct {
		Kind, Lift, Gear string
		Variant          *string
		Reps             int
		Weight           float64 `json:"weight_kg"`
		Was              float64 `json:"was_kg"`
	}
}

// silent fails the test where an answer tells of a record.
func (k *talk) silent(r chat.Reply) {
	k.t.Helper()
	if strings.Contains(r.Message.Text, "so far") || len(data[recordAnswer](k.t, r).Records) > 0 {
		k.t.Errorf("tells of a record: %s", r.Message.Text)
	}
}

func TestRecordsOfEveryKind(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.silent(k.say("ana", "squat 140x5 @8"))
	k.silent(k.say("ana", "paused squat 120x3 @8"))
	k.silent(k.say("ana", "bench 80x1"))
	steps := []struct{ day, says, tells string }{
		{"2027-01-06T19:00:00Z", "squat 145x5 @8", "Kept: squat 145 kg x 5, 2 left. Your best squat for 5 so far: 145 kg; it was 140 kg. /lift squat shows all."},
		{"2027-01-08T19:00:00Z", "bench 82.5x1", "Your best bench so far: 82.5 kg; it was 80 kg."},
		{"2027-01-09T19:00:00Z", "squat 152.5x4 @8", "Your best squat so far by estimated max (what you could lift once): about 177 kg; it was 174 kg."},
		{"2027-01-11T19:00:00Z", "paused squat 125x3 @8", "/lift paused squat shows all."},
	}
	for _, s := range steps {
		k.clock(s.day)
		r := k.ok(k.say("ana", s.says))
		if !strings.Contains(r.Message.Text, s.tells) || strings.Contains(r.Message.Text, "\n") {
			t.Errorf("%q is told %q", s.says, r.Message.Text)
		}
	}
	// A first set of its number of repetitions beats nothing, nor do misses.
	k.clock("2027-01-13T19:00:00Z")
	k.silent(k.say("ana", "squat 100x10 @6"))
	k.silent(k.say("ana", "squat 160x1 missed"))
}

func TestBetterNewsOfADayIsStillTold(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x1")
	k.say("ana", "squat 120x5")
	k.clock("2027-01-06T19:00:00Z")
	if r := k.say("ana", "squat 125x5"); !strings.Contains(r.Message.Text, "best squat for 5 so far") {
		t.Errorf("no news: %q", r.Message.Text)
	}
	k.silent(k.say("ana", "squat 127.5x5"))
	if r := k.say("ana", "squat 145x1"); !strings.Contains(r.Message.Text, "best squat so far") {
		t.Errorf("no news of the single: %q", r.Message.Text)
	}
}

func TestCorrectionsTakeRecordsBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5")
	k.clock("2027-01-06T19:00:00Z")
	k.say("ana", "squat 150x5")
	k.silent(k.ok(k.say("ana", "no 138")))
	k.clock("2027-01-08T19:00:00Z")
	r := k.say("ana", "squat 142.5x5")
	if got := data[recordAnswer](t, r).Records; len(got) == 0 || got[0].Was != 140 {
		t.Errorf("after the correction 140 kg is to beat: %+v %s", got, r.Message.Text)
	}
	if r := k.ok(k.say("ana", "no 145")); !strings.Contains(r.Message.Text, "Your best squat for 5 so far: 145 kg; it was 140 kg.") {
		t.Errorf("a corrected set is not held against itself: %s", r.Message.Text)
	}
}

func TestNothingBelowTheToldMaxIsABestSingle(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate squat:180"))
	k.say("ana", "squat 150x1")
	k.clock("2027-01-06T19:00:00Z")
	k.silent(k.say("ana", "squat 160x1"))
	k.clock("2027-01-08T19:00:00Z")
	if r := k.say("ana", "squat 182.5x1"); !strings.Contains(r.Message.Text, "182.5 kg; it was 180 kg") {
		t.Errorf("no news: %q", r.Message.Text)
	}
}

// Less weight for fewer repetitions than were made already is no record, though the
// lifter never did just so few; what it had to beat is named.
func TestMoreRepetitionsStandBehindFewer(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 60x2, 100x1, 110x5")
	k.clock("2027-01-06T19:00:00Z")
	k.silent(k.say("ana", "squat 80x2"))
	k.silent(k.say("ana", "squat 105x1"))
	k.clock("2027-01-08T19:00:00Z")
	if r := k.say("ana", "squat 115x2 @8"); !strings.Contains(r.Message.Text, "best squat for 2 so far: 115 kg; it was 110 kg") {
		t.Errorf("told %q", r.Message.Text)
	}
}

// The first day of a lift has no records: the way up to the work is no news.
func TestFirstDayTellsNoRecords(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	for _, text := range []string{"squat 60x5", "squat 80x5", "squat 100x5", "squat 100x3 @8"} {
		k.silent(k.say("ana", text))
	}
	k.say("ana", "/me set squat:120")
	if r := k.say("ana", "squat 125x1"); !strings.Contains(r.Message.Text, "125 kg; it was 120 kg") {
		t.Errorf("told %q", r.Message.Text)
	}
	k.clock("2027-01-06T19:00:00Z")
	if r := k.say("ana", "squat 102.5x5"); !strings.Contains(r.Message.Text, "best squat for 5 so far: 102.5 kg; it was 100 kg") {
		t.Errorf("told %q", r.Message.Text)
	}
}
