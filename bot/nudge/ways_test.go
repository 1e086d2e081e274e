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
	for _, want := range []string{
		"Day 43 of peaking, week 7; your usual limit is 6 weeks (intermediate lifters: 6 weeks, common practice)",
		"a third of what you did in your muscle block, in hard sets a week", " 1 of 4",
		"What a muscle block built lasts about 14 days without enough muscle work (anything from 7 to 21; Ogasawara et al. 2011, Mujika and Padilla 2001); yours ended 120 days ago",
		"What a strength block built lasts about 30 days (25 to 35; Issurin 2008); yours ended 43 days ago",
		"in one more week ", "by River Open (in 166 days)", "% of muscle goes", "less on the day than with the first plan below",
		"From here I would plan: ", "; or: ",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
	if !slices.Contains(labels(posts[0].Message), "Build my plan") {
		t.Errorf("the buttons are %q", labels(posts[0].Message))
	}
}

// Where no muscle block was logged the table's sets stand in: 10 to 16 a week for an
// intermediate lifter (common practice), a third of the least is 4.
func TestLongPeakingWithoutAMuscleBlockGoesByTheTable(t *testing.T) {
	h := newHouse(t, club(overlong()))
	h.run(day(time.June, 21).At(time.UTC, 8, 0))
	text := longPosts(h)[0].Message.Text
	for _, want := range []string{"a third of a usual muscle block, 10 to 16 for each muscle group (common practice for intermediate lifters; your log has no or hardly any sets of one)", " 0 of 4", "6 of 6 muscle groups"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
}

// A meet too near for a new strength block and a peak behind it leaves one way, and
// that is said.
func TestLongPeakingWithOneWayLeftSaysWhy(t *testing.T) {
	m := overlong()
	m.Meets[0].Date = day(time.July, 10)
	h := newHouse(t, club(m))
	h.run(day(time.June, 21).At(time.UTC, 8, 0))
	text := longPosts(h)[0].Message.Text
	for _, want := range []string{"There is no other way: 2 full weeks are left to River Open, and a new strength block with peaking behind it takes 6 weeks at least.", "by River Open (in 19 days)"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
}
