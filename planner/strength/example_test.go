package strength_test

import (
	"fmt"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// A lifter squats 140 kg for 5 with 2 left twice a week, and then a single.
func ExampleRead() {
	two := 2.0
	day := planner.NewDate(2027, 1, 4)
	var sets []planner.Set
	for range 8 {
		sets = append(sets, planner.Set{Day: day, Lift: planner.Squat, Weight: planner.Kilograms(140), Reps: 5, Sets: 1, Reserve: &two})
		day = day.AddDays(4)
	}
	single := planner.Set{Day: day, Lift: planner.Squat, Weight: planner.Kilograms(160), Reps: 1, Sets: 1}
	r := strength.Read(strength.History{
		Lift: planner.Squat, Today: day, Level: planner.Intermediate, Sets: append(sets, single),
	})
	fmt.Printf("%.1f kg, give or take %.1f; %s\n", r.Kg, r.SD, r.Verdict)
	for _, n := range strength.New(strength.Default, append(sets, planner.Set{Day: day, Lift: planner.Squat, Weight: planner.Kilograms(155), Reps: 1}), []planner.Set{single}) {
		fmt.Printf("%s: %.0f kg\n", n.Kind, n.Kg)
	}
	// Output:
	// 168.0 kg, give or take 2.9; too little data
	// single: 160 kg
}
