package bot

import (
	"bytes"
	"strings"
	"testing"
)

// Who may not see a lifter's check-ins learns from nothing that a nudge rests on them:
// not from what is coming, not from an export.
func TestNudgesOfCheckInsAreHiddenWithThem(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.feels("ana", "2027-01-10", "2027-01-17", 2, 0)
	k.clock("2027-01-17T20:00:00Z")
	coming := func(who, ask string) string {
		r := k.ok(k.say(who, ask))
		text := r.Message.Text
		for _, f := range r.Message.Fields {
			if f.Name != "" && !strings.Contains(f.Value, "unless an easy week") { // the list of kinds tells nothing of anybody
				text += "\n" + f.Name + ": " + f.Value
			}
		}
		return text
	}
	const told = "You said 'very tired' twice running"
	if text := coming("ana", "/nudges"); !strings.Contains(text, told) {
		t.Errorf("Ana is not promised it: %s", text)
	}
	if text := coming("cap", "/nudges lifter:ana"); !strings.Contains(text, told) {
		t.Errorf("the captain, as long as nothing is hidden: %s", text)
	}
	k.ok(k.say("ana", "/bodyweight seen_by:nobody"))
	if text := coming("cap", "/nudges lifter:ana"); strings.Contains(text, told) {
		t.Errorf("the captain reads %s", text)
	}
	k.sleep(2)
	for who, want := range map[string]bool{"ana": true, "cap": false} {
		files := k.ok(k.say(who, map[string]string{"ana": "/mydata export", "cap": "/mydata export lifter:ana"}[who])).Message.Files
		if len(files) != 1 {
			t.Fatalf("%d files for %s", len(files), who)
		}
		if got := bytes.Contains(files[0].Bytes, []byte("very-tired")); got != want {
			t.Errorf("in what %s exports it stands: %t, want %t", who, got, want)
		}
	}
}
