package load_test

import (
	"fmt"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
)

// trained is an invented lifter with a season.
type trained struct {
	weeks  int
	lifter planner.Lifter
	meet   planner.Meet
	maxes  [3]float64
}

var monday = planner.NewDate(2027, time.January, 4)

func kg(v float64) planner.Grams { return planner.Kilograms(v) }

// seasons are lifters of every level on 3 to 5 days a week, young and old.
func seasons() (all []trained) {
	for i, level := range planner.Levels() {
		for _, born := range []int{1962, 1976, 1998, 2010} {
			all = append(all, trained{12 + 3*i,
				planner.Lifter{Name: fmt.Sprint(level, born), Category: planner.Men, Born: planner.NewDate(born, 6, 1), Bodyweight: kg(80), Level: level, Days: 3 + i%3, HasCompeted: i > 1},
				planner.Meet{Event: planner.Full}, [3]float64{80 + 50*float64(i), 55 + 30*float64(i), 100 + 55*float64(i)}})
		}
	}
	return all
}

// season builds the blocks up to the meet and the request of the first week.
func (d trained) season(t *testing.T) (load.Request, planner.Date) {
	t.Helper()
	meet := d.meet
	meet.ID, meet.Name, meet.Kind = 1, "River Open", planner.Main
	meet.Date = monday.AddDays(7*d.weeks - 2)
	plan, err := blocks.Build(blocks.Request{Lifter: d.lifter, Today: monday, Rules: blocks.Rules{WeekStart: time.Monday}, Meets: []planner.Meet{meet}})
	if err != nil {
		t.Fatal(err)
	}
	r := load.Request{Lifter: d.lifter, Today: monday, WeekStart: time.Monday, Season: plan.Blocks, Meets: []planner.Meet{meet}}
	r.Estimates = map[planner.Lift]load.Estimate{}
	for i, l := range planner.CompetitionLifts() {
		r.Estimates[l] = load.Estimate{Kg: d.maxes[i], SD: 0.02 * d.maxes[i], Source: load.Trend}
	}
	return r, meet.Date
}
