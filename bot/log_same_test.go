package bot

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

func TestTheSameAsLastTimeIsOfferedAndAsked(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.ok(k.say("ana", "/me set squat:200 bench:120 deadlift:220"))
	k.ok(k.say("ana", "squat 3x5 140 @8, bench 80x5"))
	k.now = k.now.Add(48 * time.Hour)
	r := k.ok(k.say("ana", "squat same as last time"))
	if !strings.Contains(r.Message.Text, "As on Mon 4 January") || !strings.Contains(r.Message.Text, "3 sets of 5 at 140 kg") {
		t.Fatalf("it says %q", r.Message.Text)
	}
	if got := k.logOf("ana"); strings.Count(got, "squat") != 1 {
		t.Errorf("kept before the answer: %q", got)
	}
	k.ok(k.press("ana", "Yes, the same"))
	if got := k.logOf("ana"); strings.Count(got, "squat 3 sets of 5 at 140 kg") != 2 || strings.Count(got, "2 left") != 1 {
		t.Errorf("ana has %q", got)
	}
	if r := k.ok(k.say("ana", "same as last time")); !strings.Contains(r.Message.Text, "Which lift") {
		t.Errorf("without a lift it says %q", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "deadlift same as last time")); !strings.Contains(r.Message.Text, "no earlier deadlift") {
		t.Errorf("of a lift never done it says %q", r.Message.Text)
	}
	if r := k.say("ana", "felt the same as last time"); r.Kind != chat.Silent {
		t.Errorf("talk is answered %+v", r)
	}
}

func TestRepetitionsAloneAreAFurtherSetWhenSaidSo(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	if r := k.ok(k.say("ana", "x4")); !strings.Contains(r.Message.Text, "Which lift and weight") {
		t.Errorf("with nothing before it says %q", r.Message.Text)
	}
	k.ok(k.say("ana", "squat 100x5"))
	k.now = k.now.Add(4 * time.Minute)
	k.ok(k.say("ana", "x4 @9"))
	k.ok(k.press("ana", "Yes, another set"))
	if got := k.logOf("ana"); got != "squat 100 kg x 5, squat 100 kg x 4, 1 left" {
		t.Errorf("ana has %q", got)
	}
}
