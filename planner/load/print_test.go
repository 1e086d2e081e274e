package load_test

import (
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

// A printed week names everything a coach checks, and no number that means
// nothing: accessories have no percent, light work no count of what is left.
func TestPlanAsText(t *testing.T) {
	p := load.Plan{Block: planner.Strength, Week: 2, Weeks: 5, Start: monday, Deload: true,
		LiftSets: map[planner.Lift]int{planner.Squat: 4}, Muscles: map[load.Muscle]float64{load.Quads: 5.5},
		Notes: []string{"A note."}, LeftOut: []string{"What is missing."}, Changed: []load.Change{{Text: "A change."}},
		Days: []load.Day{{Date: monday, Minutes: 40, Note: "A day.", Work: []load.Work{
			{Lift: planner.Squat, Name: "squat", Role: load.Top, Sets: 1, Reps: 5, Weight: kg(142.5), Percent: 80.5, Reserve: 2.5},
			{Lift: planner.Squat, Name: "squat", Role: load.Technique, Sets: 1, Reps: 2, Weight: kg(130), Percent: 73.6, Reserve: 8.5},
			{Lift: "row", Name: "row", Role: load.Accessory, Sets: 4, Reps: 10, Reserve: 2},
			{Lift: planner.Bench, Name: "bench", Role: load.WorkSets, Sets: 3, Reps: 5, Weight: kg(20), Percent: 80, Reserve: 3, Find: true},
		}}}}
	got := p.Text(planner.KG)
	for _, want := range []string{
		"Strength block, week 2 of 5, deload (easy week), from Mon 4 January\n",
		"hard sets: squat 4, bench 0, deadlift 0\n", "front of thigh 5.5,",
		"Mon 4 January, about 40 minutes. A day.\n",
		"squat              1 x 5   142.5 kg  80.5 %  2-3 left, top set\n",
		"130 kg    73.6 %  6 or more left, light and quick\n",
		"row                4 x 10  choose            2 left, accessory\n",
		"find it           3 left\n",
		"- A note.\n", "- What is missing.\n", "* A change.\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in\n%s", want, got)
		}
	}
	if lb := p.Text(planner.LB); !strings.Contains(lb, "314.2 lb") {
		t.Errorf("no pounds in\n%s", lb)
	}
}
