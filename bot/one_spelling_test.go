package bot

import (
	"strings"
	"testing"

	"blockbell/bot/parse"
	"blockbell/planner"
	"blockbell/planner/load"
)

// A movement has one spelling, the one of the week, and what is shown is read back as
// the same movement.
func TestMovementHasOneSpelling(t *testing.T) {
	k := trained(t)
	k.ok(k.say("ana", "close grip bench 45x10 @8"))
	for _, ask := range []string{"/log recent", `/lift lift:"close grip bench"`} {
		r := k.ok(k.say("ana", ask))
		shown := strings.ToLower(r.Message.Title + "\n" + r.Message.Text)
		if !strings.Contains(shown, "close-grip bench") || strings.Contains(shown, "close grip bench") {
			t.Errorf("%s: %q", ask, shown)
		}
	}
	bench, squat, dead := planner.Bench, planner.Squat, planner.Deadlift
	for _, m := range []load.Movement{{Lift: bench, Variant: "close grip"}, {Lift: bench, Variant: "incline"}, {Lift: bench, Variant: "floor"}, {Lift: bench, Variant: "long pause"},
		{Lift: squat, Variant: "high bar"}, {Lift: squat, Variant: "safety bar"}, {Lift: squat, Variant: "pin"}, {Lift: dead, Variant: "stiff leg"}, {Lift: dead, Variant: "paused"}} {
		lift, variant, ok := parse.LiftOf(m.Name(), parse.Standard{})
		if !ok || lift != m.Lift || variant != m.Variant {
			t.Errorf("%s is read as %q %q", m.Name(), variant, lift)
		}
	}
}
