package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// A record is told on every way into the log, to whom it belongs, and once.
func TestRecordsFromATeamMessage(t *testing.T) {
	k := team(t)
	k.ok(k.say("ana", "squat 180x3"))
	k.ok(k.say("ben", "bench 100x5"))
	k.clock("2027-01-06T18:00:00Z")
	r := k.ok(k.say("cap", "@ana squat 182.5x3, @ben bench 90x5"))
	if n := strings.Count(r.Message.Text, "so far"); n != 1 || !strings.Contains(r.Message.Text, "Best squat for 3 so far: 182.5 kg; it was 180 kg.") {
		t.Errorf("the team reads %q", r.Message.Text)
	}
	n := k.notesTo("ana")
	if !strings.Contains(n[len(n)-1].What, "so far: 182.5 kg") {
		t.Errorf("ana is told %q", n[len(n)-1].What)
	}
	got := data[struct {
		Team []struct {
			Lifter string
			recordAnswer
		}
	}](t, r)
	if len(got.Team) != 2 || len(got.Team[0].Records) != 1 || got.Team[0].Records[0].Was != 180 || len(got.Team[1].Records) != 0 {
		t.Errorf("data: %+v", got)
	}
	k.silent(k.say("ana", "squat 182.5x3 @9"))
	k.clock("2027-01-08T18:00:00Z")
	r = k.ok(k.say("cap", "@anna squat 185x3"))
	if strings.Contains(r.Message.Text, "so far") {
		t.Errorf("told before it is known whose: %q", r.Message.Text)
	}
	if r := k.ok(k.press("cap", "ana")); !strings.Contains(r.Message.Text, "so far: 185 kg; it was 182.5 kg") {
		t.Errorf("after the answer: %q", r.Message.Text)
	}
}

// Years of training are told of in one line, and what they hold is no news later.
func TestRecordsFromAFile(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "squat 140x1"))
	k.ok(k.say("ana", "bench 90x5"))
	file := "Date,Lift,Weight,Reps\n2025-05-01,Squat,150,1\n2025-05-08,Squat,152.5,1\n2026-05-08,Squat,155,1\n2026-05-09,Bench,80,5\n2026-06-01,Deadlift,200,1\n2026-07-01,Deadlift,210,1\n"
	k.ok(k.sends("ana", file, ""))
	r := k.ok(k.press("ana", "Import 6 sets"))
	if lines := strings.Split(r.Message.Text, "\n"); len(lines) != 3 || lines[1] != "Better than anything in your log before: squat 155 kg x 1 (Fri 8 May 2026)." || !r.Message.Private {
		t.Errorf("it says %q", r.Message.Text)
	}
	if got := data[recordAnswer](t, r); len(got.Records) != 1 || got.Records[0].Weight != 155 || got.Records[0].Was != 140 {
		t.Errorf("data: %+v", got)
	}
	k.clock("2027-01-06T19:00:00Z")
	k.silent(k.say("ana", "squat 150x1"))
	if r := k.ok(k.say("ana", "squat 157.5x1")); !strings.Contains(r.Message.Text, "so far: 157.5 kg; it was 155 kg") {
		t.Errorf("a better one: %q", r.Message.Text)
	}
	r = k.ok(k.sends("ana", file, ""))
	if len(r.Message.Buttons) != 1 || r.Message.Buttons[0].Label != "Cancel" {
		t.Errorf("the same file again: %+v", r.Message.Buttons)
	}
}

func TestRecordsFromDone(t *testing.T) {
	for _, how := range []string{"button", "word"} {
		k := trained(t)
		squat := work(t, k.week("ana", "/today").Days[0], "squat")
		k.ok(k.say("ana", fmt.Sprintf("yesterday squat %gx%d", *squat.Weight-5, squat.Reps)))
		var r chat.Reply
		if how == "button" {
			r = k.ok(k.press("ana", "Done"))
		} else {
			r = k.ok(k.say("ana", "done"))
		}
		if strings.Count(r.Message.Text, "so far") != 1 || len(data[recordAnswer](t, r).Records) == 0 {
			t.Errorf("%s: %q", how, r.Message.Text)
		}
	}
}

func TestBodyweightInATeamLogIsNamedAndNotKept(t *testing.T) {
	k := team(t)
	for _, text := range []string{"@ana squat 140x5, bw 79.3, @ben 160x5", "@ana bw 79.3", "@ana bw 79.3, @ben squat 165x5"} {
		r := k.ok(k.say("cap", text))
		if !strings.Contains(r.Message.Text, "ana: a bodyweight is for the lifter to log; it is not kept.") || strings.Contains(r.Message.Text, "79.3") {
			t.Errorf("%q: %q", text, r.Message.Text)
		}
	}
	if got := k.profile("ana"); strings.Contains(got, "79.3") || strings.Contains(got, "79300") {
		t.Errorf("kept: %s", got)
	}
	if r := k.say("ben", "@ana bw 79.3"); r.Kind != chat.Silent {
		t.Errorf("talk between members: %q %s", r.Kind, r.Message.Text)
	}
}

func TestTeamLogThatAsksAndAlarms(t *testing.T) {
	k := team(t)
	r := k.ok(k.say("cap", "@ana 140x5"))
	if !strings.Contains(r.Message.Text, "ana: Which lift was that?") || len(r.Message.Buttons) != 3 || k.logOf("ana") != "" {
		t.Fatalf("%q, %+v", r.Message.Text, r.Message.Buttons)
	}
	k.ok(k.press("cap", "ana: squat"))
	if got := k.logOf("ana"); got != "squat 140 kg x 5" {
		t.Errorf("ana has %q", got)
	}
	r = k.ok(k.say("cap", "@ana 142.5x5, @ben bench 100x5, then chest pain"))
	if got := k.logOf("ana"); got != "squat 140 kg x 5, squat 142.5 kg x 5" || !strings.Contains(r.Message.Text, "like the set before") || !strings.Contains(r.Message.Text, caution) {
		t.Errorf("ana has %q: %q", got, r.Message.Text)
	}
}
