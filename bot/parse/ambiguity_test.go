package parse

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

// meansOf says in the words of the rules what a reading comes to.
func meansOf(r Result, c Context) string {
	switch {
	case r.Chatter:
		return "left alone"
	case len(r.Questions) > 0:
		return "asks"
	case len(r.Problems) > 0:
		return "refused"
	}
	return describe(r, c)
}

// Every example of the rules is read as its rule says.
func TestRulesAreKept(t *testing.T) {
	exact := map[string]string{
		"3 sets of 5 at 92.5 kg": "bench 92.5kg x 5 x 3", "3 sets of 5 at 150 kg": "squat 150kg x 5 x 3", "150 kg, 2 of 3 made": "squat 150kg x 3 missed",
		"5 at 140 kg": "squat 140kg x 5", "5 at 100 kg": "squat 100kg x 5", "3 at 100.5 kg": "bench 100.5kg x 3", "sets of 5, 5 and 4": "bench 100kg x 5 x 2; bench 100kg x 4",
		"effort 8": "squat 140kg x 5 @8", "effort 8.5": "squat 140kg x 5 @8.5", "effort 7": "squat 140kg x 5 @7",
		"5 at 315 lb and 5 at 225 lb": "squat 142.88kg x 5; bench 102.06kg x 5", "4 of 5 made": "squat 140kg x 5 missed",
		"the last set's weight": "correct to 150 kg, or 150 in its unit", "touch and go bench": "touch and go bench 100kg x 3", "8 at 60 kg": "row 60kg x 8",
		"3 sets of 15 at 20 kg": "curl 20kg x 15 x 3",
	}
	c := lifter(planner.KG)
	seen := map[string]bool{}
	for _, rule := range Rules() {
		c.Last = nil
		if rule.After != "" {
			last := Log(rule.After, c).Sets[0]
			c.Last = func() (planner.Set, time.Duration, bool) { return last, time.Minute, true }
		}
		got := meansOf(Log(strings.ReplaceAll(rule.Typed, `\n`, "\n"), c), c)
		got, _, _ = strings.Cut(got, "; note")
		want := rule.Read
		if w, ok := exact[want]; ok {
			want = w
		}
		if got != want {
			t.Errorf("%q\n got %s\nwant %s", rule.Typed, got, want)
		}
		if seen[rule.After+rule.Typed] || rule.Why == "" {
			t.Errorf("%q stands there twice or has no reason", rule.Typed)
		}
		seen[rule.After+rule.Typed] = true
	}
}
