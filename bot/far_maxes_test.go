package bot

import (
	"strings"
	"testing"
)

// A max that nobody lifts is kept, since the lifter knows best, and doubted once.
func TestFarMaxesAreDoubted(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	r := k.say("ana", "/me set category:women bodyweight:62.5 squat:315 bench:70 deadlift:145")
	k.says(r, "A squat of 315 kg is more than I can believe at once. A slip, or pounds?")
	if strings.Contains(r.Message.Text, "bench") || strings.Contains(r.Message.Text, "deadlift") {
		t.Errorf("usual maxes are doubted: %q", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "/me set bench:72.5")); strings.Contains(r.Message.Text, "believe") {
		t.Errorf("doubted twice: %q", r.Message.Text)
	}
	k.says(k.say("ben", "/me set squat:600"), "A squat of 600 kg is")
	// One day a week is little, and no reason to refuse everything else that was said.
	k.ok(k.say("ben", "/me set days:1 squat:200"))
	k.refused(k.say("ben", "/me set days:7"), "from 1 to 6")
}
