package render_test

import (
	"testing"

	"blockbell/bot/render"
	"blockbell/planner"
)

// A set reads as a lifter would say it.
func TestSetInWords(t *testing.T) {
	one, none := 1.0, 0.0
	kg := planner.Kilograms
	for _, c := range []struct {
		set  planner.Set
		want string
	}{
		{planner.Set{Lift: planner.Squat, Weight: kg(140), Reps: 5, Sets: 1, Reserve: &one}, "squat 140 kg x 5, 1 left"},
		{planner.Set{Lift: planner.Squat, Weight: kg(140), Reps: 5, Sets: 3, Reserve: &none}, "squat 3 sets of 5 at 140 kg, nothing left"},
		{planner.Set{Lift: planner.Squat, Weight: kg(120), Reps: 0, Sets: 1, Missed: true, Reserve: &one}, "squat 120 kg, missed"},
		{planner.Set{Lift: planner.Squat, Weight: kg(120), Reps: 4, Sets: 1, Missed: true, Reserve: &none}, "squat 120 kg x 4, missed"},
		{planner.Set{Lift: planner.Deadlift, Weight: kg(145), Reps: 0, Sets: 2, Missed: true}, "deadlift 2 times 145 kg, missed"},
		{planner.Set{Lift: planner.Squat, Weight: kg(150), Reps: 2, Sets: 1, Gear: planner.Wraps, Reserve: &one}, "squat 150 kg x 2 in wraps, 1 left"},
		{planner.Set{Lift: planner.Squat, Weight: kg(150), Reps: 2, Sets: 1, Gear: planner.Raw}, "squat 150 kg x 2"},
		{planner.Set{Lift: planner.Squat, Weight: kg(150), Reps: 2, Sets: 1, Gear: planner.SinglePly}, "squat 150 kg x 2, single-ply"},
		{planner.Set{Lift: "pull-up", Reps: 8, Sets: 3}, "pull-up 3 sets of 8 with own weight"},
		{planner.Set{Lift: "pull-up", Reps: 8, Sets: 1}, "pull-up own weight x 8"},
	} {
		if got := render.Set(c.set, planner.KG); got != c.want {
			t.Errorf("%+v reads %q, want %q", c.set, got, c.want)
		}
	}
}
