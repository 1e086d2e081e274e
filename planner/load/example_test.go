package load_test

import (
	"fmt"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

func ExampleWeek() {
	start := planner.NewDate(2027, time.January, 4)
	p, err := load.Week(load.Request{
		Lifter:    planner.Lifter{Level: planner.Intermediate, Days: 3, HasCompeted: true},
		Today:     start.AddDays(14),
		WeekStart: time.Monday,
		Season:    []planner.Block{{Kind: planner.Strength, Start: start, End: start.AddDays(34), Weeks: 5}},
		Estimates: map[planner.Lift]load.Estimate{
			planner.Squat:    {Kg: 180, Source: load.Trend},
			planner.Bench:    {Kg: 120, Source: load.Trend},
			planner.Deadlift: {Kg: 210, Source: load.Trend},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, week %d of %d\n", p.Block, p.Week, p.Weeks)
	for _, d := range p.Days {
		fmt.Printf("%s, %d minutes\n", d.Date.Short(), d.Minutes)
		for _, w := range d.Work {
			if w.Role != load.Accessory {
				fmt.Printf("  %s %d x %d at %s, %g left\n", w.Name, w.Sets, w.Reps, w.Weight.Text(planner.KG), w.Reserve)
			}
		}
	}
	// Output:
	// strength, week 3 of 5
	// Mon 18 January, 55 minutes
	//   squat 1 x 4 at 152.5 kg, 2.5 left
	//   squat 4 x 5 at 142.5 kg, 3.5 left
	//   close-grip bench 4 x 5 at 90 kg, 2.5 left
	// Wed 20 January, 46 minutes
	//   bench 1 x 4 at 102.5 kg, 2.5 left
	//   bench 2 x 5 at 95 kg, 3.5 left
	//   paused deadlift 2 x 5 at 155 kg, 2.5 left
	// Fri 22 January, 60 minutes
	//   deadlift 1 x 4 at 177.5 kg, 2.5 left
	//   deadlift 2 x 5 at 165 kg, 3.5 left
	//   paused squat 4 x 5 at 132.5 kg, 2.5 left
	//   long-pause bench 3 x 5 at 90 kg, 3.5 left
}
