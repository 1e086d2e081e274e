package load_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

func left(r float64) *float64 { return &r }

// The step rule is common practice: the larger of 2.5 % and one step of the plates,
// at most 5 % on squat and deadlift; a light bench by one step; repetitions first
// where a step is above 4 %.
func TestStepsAfterALoggedSet(t *testing.T) {
	squat := load.Work{Lift: planner.Squat, Name: "squat", Role: load.WorkSets, Sets: 3, Reps: 5, Reserve: 3, Percent: 80.6, Weight: kg(140)}
	light := load.Work{Lift: planner.Bench, Name: "bench", Role: load.WorkSets, Sets: 3, Reps: 8, Reserve: 2, Percent: 75, Weight: kg(32.5)}
	atTop := light
	atTop.Reps = 12
	heavy := squat
	heavy.Weight = kg(250)
	for _, tt := range []struct {
		name   string
		work   load.Work
		weight float64
		reps   int
		left   *float64
		missed bool
		kg     float64
		want   int
	}{
		{"as planned", squat, 140, 5, left(3), false, 140, 5},
		{"half a repetition off is as planned", squat, 140, 5, left(2.5), false, 140, 5},
		{"one easier", squat, 140, 5, left(4), false, 142.5, 5},
		{"three easier is still one step", squat, 140, 5, left(6), false, 142.5, 5},
		{"2.5 % of a heavy bar is more than one step of the plates", heavy, 250, 5, left(4), false, 255, 5},
		{"one harder", squat, 140, 5, left(2), false, 137.5, 5},
		{"two harder", squat, 140, 5, left(1), false, 135, 5},
		{"one repetition short", squat, 140, 4, left(0), false, 135, 5},
		{"missed", squat, 140, 0, nil, true, 135, 5},
		{"not rated raises nothing", squat, 140, 5, nil, false, 140, 5},
		{"not rated and more repetitions raises nothing", squat, 140, 6, nil, false, 140, 5},
		{"not rated and short", squat, 140, 4, nil, false, 135, 5},
		{"a heavier bar with the reserve that follows is as planned", squat, 145, 4, left(2.9), false, 140, 5},
		{"a light bench adds a repetition first", light, 32.5, 8, left(3), false, 32.5, 9},
		{"and the load at the top of the range", atTop, 32.5, 12, left(3), false, 35, 12},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := planner.Set{Lift: tt.work.Lift, Weight: kg(tt.weight), Reps: tt.reps, Sets: 1, Reserve: tt.left, Missed: tt.missed}
			a, err := load.Adjust(tt.work, s, strength.Default, load.Gym{})
			if err != nil || a.Weight != kg(tt.kg) || a.Reps != tt.want || a.Why == "" {
				t.Errorf("%s x %d (%s), %v; want %g x %d", a.Weight.Text(planner.KG), a.Reps, a.Why, err, tt.kg, tt.want)
			}
		})
	}
	_, err := load.Adjust(squat, planner.Set{Lift: planner.Squat, Variant: "front", Weight: kg(100), Reps: 5}, strength.Default, load.Gym{})
	var e *planner.Error
	if !errors.As(err, &e) || e.Kind != planner.Invalid || !strings.Contains(e.Sentence, "front squat") {
		t.Errorf("another movement: %v", err)
	}
}

func TestStepsNeverGoUnderTheBar(t *testing.T) {
	w := load.Work{Lift: planner.Bench, Name: "bench", Reps: 8, Reserve: 2, Percent: 75, Weight: kg(20)}
	a, err := load.Adjust(w, planner.Set{Lift: planner.Bench, Weight: kg(20), Reps: 3, Sets: 1, Missed: true}, strength.Default, load.Gym{})
	if err != nil || a.Weight != kg(20) {
		t.Errorf("%v, %v", a, err)
	}
}

// longDay is a session with every kind of work.
func longDay() load.Day {
	return load.Day{Date: monday, Work: []load.Work{
		{Lift: planner.Squat, Name: "squat", Role: load.Top, Sets: 1, Reps: 3, Percent: 86, Rest: 210, Weight: kg(150)},
		{Lift: planner.Squat, Name: "squat", Role: load.BackOff, Sets: 4, Reps: 4, Percent: 80, Rest: 210, Weight: kg(140)},
		{Lift: planner.Bench, Name: "bench", Role: load.WorkSets, Sets: 4, Reps: 5, Percent: 80, Rest: 210, Weight: kg(90)},
		{Lift: "row", Name: "row", Role: load.Accessory, Sets: 4, Reps: 10, Rest: 90},
		{Lift: "leg curl", Name: "leg curl", Role: load.Accessory, Sets: 3, Reps: 12, Rest: 90},
	}}
}

func TestShortOnTimeKeepsTopSetsAndEveryLift(t *testing.T) {
	for limit := 15; limit <= 90; limit++ {
		day := longDay()
		short, gone, err := load.Shorten(day, limit)
		if err != nil {
			t.Fatal(err)
		}
		if day.Work[3].Sets != 4 || len(day.Work) != 5 {
			t.Fatal("the day given was changed")
		}
		names := []string{}
		for _, w := range short.Work {
			names = append(names, w.Name+" "+string(w.Role))
		}
		if !slices.Contains(names, "squat top") || !slices.Contains(names, "bench work") {
			t.Errorf("%d minutes: %v", limit, names)
		}
		if short.Minutes > limit && short.HardSets() > 3 {
			t.Errorf("%d minutes became %d with %d sets", limit, short.Minutes, short.HardSets())
		}
		if (short.HardSets() < day.HardSets()) != (len(gone) > 0) {
			t.Errorf("%d minutes: %d sets instead of %d, said %v", limit, short.HardSets(), day.HardSets(), gone)
		}
	}
	if _, _, err := load.Shorten(longDay(), 10); err == nil {
		t.Error("ten minutes were taken for a session")
	}
}

func TestSwapsHaveTheSamePurposeAndGear(t *testing.T) {
	row := load.Work{Lift: "row", Role: load.Accessory}
	got := load.Swaps(row, load.Gym{Missing: []load.Gear{load.Cable}})
	if !slices.Contains(got, load.Movement{Lift: "pull-up"}) || slices.Contains(got, load.Movement{Lift: "lat pulldown"}) || slices.Contains(got, load.Movement{Lift: "leg curl"}) || slices.Contains(got, row.Movement()) {
		t.Errorf("for a row without cables: %v", got)
	}
	paused := load.Work{Lift: planner.Squat, Variant: "paused", Role: load.WorkSets, Percent: 78}
	for _, m := range load.Swaps(paused, load.Gym{}) {
		if m.Lift != planner.Squat {
			t.Errorf("for a paused squat: %s", m.Name())
		}
	}
	if got := load.Swaps(load.Work{Lift: planner.Squat, Role: load.Top, Percent: 91}, load.Gym{}); got != nil {
		t.Errorf("for a heavy single: %v", got)
	}
}
