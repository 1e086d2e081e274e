package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// A lifter whose peaking outlives its plan reads what is fading, in sets against a
// third of the muscle block's (Bickel et al. 2011; Spiering et al. 2021), and two
// ways on.
func TestLongPeakingSaysWhatFadesAndTwoWaysOn(t *testing.T) {
	m := overlong()
	m.Season.Blocks = slices.Clone(m.Season.Blocks)
	h := newHouse(t, club(m))
	h.update(func(tx *store.Tx) error {
		reserve := 2.0
		log := func(day planner.Date, sets int) error {
			_, err := tx.AddSets(1, "m"+day.String(), []planner.Set{{Lift: planner.Squat, Weight: 100 * planner.Kilogram, Reps: 8, Sets: sets, Reserve: &reserve, Day: day}}, m.Agreed)
			return err
		}
		for w := range 7 { // twelve sets a week in the muscle block
			for _, d := range []int{0, 3} {
				if err := log(day(time.January, 4).AddDays(7*w+d), 6); err != nil {
					return err
				}
			}
		}
		return log(day(time.June, 19), 1)
	})
	h.run(day(time.June, 21).At(time.UTC, 8, 0))
	posts := longPosts(h)
	if len(posts) != 1 {
		t.Fatalf("told %d times: %q", len(posts), h.board.keys())
	}
	text := posts[0].Message.Text
	for _, want := range []string{"hard sets of the last seven days", " 1 of 4", "From here I would plan: ", "behind by the planner's measure"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
	if !slices.Contains(labels(posts[0].Message), "Build my plan") {
		t.Errorf("the buttons are %q", labels(posts[0].Message))
	}
}
