package main

import (
	"fmt"
	"io"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// demoStart is the Monday on which the invented seasons begin.
var demoStart = planner.NewDate(2027, time.January, 4)

// demoSeasons are six invented lifters as a club has them, by the name of what is
// special about each.
func demoSeasons() (names []string, all map[string]season) {
	all = map[string]season{}
	add := func(name string, weeks int, event planner.EventKind, l planner.Lifter, squat, bench, deadlift float64) {
		s := season{lifter: l, start: demoStart, estimates: map[planner.Lift]load.Estimate{}}
		s.meet = planner.Meet{ID: 1, Name: "River Open", Kind: planner.Main, Event: event, Date: demoStart.AddDays(7*weeks - 2)}
		for lift, kg := range map[planner.Lift]float64{planner.Squat: squat, planner.Bench: bench, planner.Deadlift: deadlift} {
			s.estimates[lift] = load.Estimate{Kg: kg, SD: 0.02 * kg, Source: load.Trend}
		}
		names, all[name] = append(names, name), s
	}
	add("junior", 14, planner.Full, planner.Lifter{Name: "Ilse", Category: planner.Women, Born: planner.NewDate(2010, 3, 2),
		Bodyweight: planner.Kilograms(58), Level: planner.Novice, Days: 3}, 72.5, 42.5, 90)
	add("intermediate", 16, planner.Full, planner.Lifter{Name: "Joao", Category: planner.Men, Born: planner.NewDate(1999, 7, 9),
		Bodyweight: planner.Kilograms(82), Level: planner.Intermediate, Days: 4, HasCompeted: true}, 180, 120, 210)
	add("advanced", 20, planner.Full, planner.Lifter{Name: "Mira", Category: planner.Women, Born: planner.NewDate(1994, 1, 20),
		Bodyweight: planner.Kilograms(69), Level: planner.Advanced, Days: 4, HasCompeted: true}, 155, 90, 180)
	add("elite", 24, planner.Full, planner.Lifter{Name: "Bram", Category: planner.Men, Born: planner.NewDate(1992, 5, 5),
		Bodyweight: planner.Kilograms(128), Level: planner.Elite, Days: 5, HasCompeted: true}, 340, 225, 360)
	add("master", 16, planner.Full, planner.Lifter{Name: "Otto", Category: planner.Men, Born: planner.NewDate(1963, 2, 11),
		Bodyweight: planner.Kilograms(91), Level: planner.Intermediate, Days: 3, HasCompeted: true}, 150, 100, 180)
	add("bench", 12, planner.BenchOnly, planner.Lifter{Name: "Tilda", Category: planner.Women, Born: planner.NewDate(1990, 9, 30),
		Bodyweight: planner.Kilograms(75), Level: planner.Intermediate, Days: 2, HasCompeted: true}, 100, 82.5, 120)
	return names, all
}

// printDemo writes all the invented seasons.
func printDemo(w io.Writer) error {
	names, all := demoSeasons()
	for i, name := range names {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if err := all[name].print(w); err != nil {
			return err
		}
	}
	return nil
}
