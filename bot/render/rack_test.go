package render

import (
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

// Each load has a row of its own with its discs: straight sets stand where a top set
// would, and no cell that a loader needs is empty.
func TestRackSheetHasARowForEachLoad(t *testing.T) {
	kg := planner.Kilograms
	day := load.Day{Work: []load.Work{
		{Lift: planner.Squat, Name: "squat", Role: load.Top, Sets: 1, Reps: 3, Weight: kg(182.5)},
		{Lift: planner.Squat, Name: "squat", Role: load.BackOff, Sets: 3, Reps: 5, Weight: kg(160)},
		{Lift: planner.Bench, Name: "bench", Role: load.WorkSets, Sets: 4, Reps: 8, Weight: kg(25)},
		{Lift: planner.Deadlift, Name: "deadlift", Role: load.WorkSets, Sets: 3, Reps: 5, Weight: kg(20), Find: true, Reserve: 3},
		{Name: "row", Role: load.Accessory, Sets: 3, Reps: 10},
	}}
	want := [][4]string{
		{"squat", "182.5 kg", "1 x 3", "3 x 25 + 2.5 + 1.25 + collar 2.5"},
		{"", "160 kg", "3 x 5", "2 x 25 + 15 + 2.5 + collar 2.5"},
		{"bench", "25 kg", "4 x 8", "just the bar"},
		{"deadlift", "from 20 kg", "3 x 5, to 3 left", ""},
	}
	rows := RackLifter{Name: "Ana", Day: day}.rows(false)
	for i, r := range rows {
		if got := [4]string{r.lift, r.load, r.sets, r.side}; i >= len(want) || got != want[i] {
			t.Errorf("row %d is %q", i, got)
		}
	}
	if len(rows) != len(want) {
		t.Errorf("%d rows", len(rows))
	}
	m := Rack(RackView{All: 1, Of: 1, Lifters: []RackLifter{{Name: "Ana", Day: day}}})
	if text := m.Fields[0].Value; !strings.Contains(text, "squat 1 x 3 at 182.5 kg: 3 x 25 + 2.5 + 1.25 + collar 2.5\n3 x 5 at 160 kg: ") || !strings.Contains(text, "deadlift from 20 kg: 3 x 5, to 3 left") {
		t.Errorf("%s", text)
	}
}
