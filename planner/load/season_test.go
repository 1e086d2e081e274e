package load_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
)

var update = flag.Bool("update", false, "rewrite the wanted files")

// demo is an invented lifter with a season.
type demo struct {
	file   string
	weeks  int
	lifter planner.Lifter
	meet   planner.Meet
	maxes  [3]float64
	change func(*load.Request)
}

var monday = planner.NewDate(2027, time.January, 4)

func kg(v float64) planner.Grams { return planner.Kilograms(v) }

// demos are six invented lifters as a club has them.
func demos() []demo {
	return []demo{
		{"junior", 14, planner.Lifter{Name: "Ilse", Category: planner.Women, Born: planner.NewDate(2010, 3, 2), Bodyweight: kg(58), Level: planner.Novice, Days: 3},
			planner.Meet{Event: planner.Full}, [3]float64{72.5, 42.5, 90}, nil},
		{"intermediate", 16, planner.Lifter{Name: "Joao", Category: planner.Men, Born: planner.NewDate(1999, 7, 9), Bodyweight: kg(82), Level: planner.Intermediate, Days: 4, HasCompeted: true},
			planner.Meet{Event: planner.Full}, [3]float64{180, 120, 210}, nil},
		{"advanced", 20, planner.Lifter{Name: "Mira", Category: planner.Women, Born: planner.NewDate(1994, 1, 20), Bodyweight: kg(69), Level: planner.Advanced, Days: 4, HasCompeted: true},
			planner.Meet{Event: planner.Full}, [3]float64{155, 90, 180}, nil},
		{"elite", 24, planner.Lifter{Name: "Bram", Category: planner.Men, Born: planner.NewDate(1992, 5, 5), Bodyweight: kg(128), Level: planner.Elite, Days: 5, HasCompeted: true},
			planner.Meet{Event: planner.Full}, [3]float64{340, 225, 360}, nil},
		{"master", 16, planner.Lifter{Name: "Otto", Category: planner.Men, Born: planner.NewDate(1963, 2, 11), Bodyweight: kg(91), Level: planner.Intermediate, Days: 3, HasCompeted: true},
			planner.Meet{Event: planner.Full}, [3]float64{150, 100, 180}, nil},
		{"bench", 12, planner.Lifter{Name: "Tilda", Category: planner.Women, Born: planner.NewDate(1990, 9, 30), Bodyweight: kg(75), Level: planner.Intermediate, Days: 2, HasCompeted: true},
			planner.Meet{Event: planner.BenchOnly}, [3]float64{100, 82.5, 120}, nil},
	}
}

// season builds the blocks of a demo and its request of the first week.
func (d demo) season(t *testing.T) (load.Request, planner.Date) {
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
	if d.change != nil {
		d.change(&r)
	}
	return r, meet.Date
}

func TestSeasonsOfTheDemoLifters(t *testing.T) {
	for _, d := range demos() {
		t.Run(d.file, func(t *testing.T) {
			r, meet := d.season(t)
			var b strings.Builder
			fmt.Fprintf(&b, "%s, %s, %d days a week; %s on %s\n", d.lifter.Name, d.lifter.Level, d.lifter.Days, "River Open", meet.Long())
			for r.Today = monday; r.Today < meet; r.Today = r.Today.AddDays(7) {
				p, err := load.Week(r)
				if err != nil {
					t.Fatal(err)
				}
				printWeek(&b, p)
			}
			file := filepath.Join("testdata", d.file+".want")
			if *update {
				if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if b.String() != string(want) {
				t.Errorf("differs from %s; run with -update and read the difference", file)
			}
		})
	}
}

// printWeek writes a week as a coach would read it.
func printWeek(b *strings.Builder, p load.Plan) {
	fmt.Fprintf(b, "\n%s, week %d of %d, from %s", p.Block, p.Week, p.Weeks, p.Start)
	if p.Deload {
		b.WriteString(", deload")
	}
	if p.Taper {
		b.WriteString(", taper")
	}
	fmt.Fprintf(b, "; hard sets %d/%d/%d\n", p.LiftSets[planner.Squat], p.LiftSets[planner.Bench], p.LiftSets[planner.Deadlift])
	for _, m := range load.Groups() {
		fmt.Fprintf(b, "  %s %g", m, p.Muscles[m])
	}
	b.WriteString("\n")
	for _, d := range p.Days {
		fmt.Fprintf(b, "  %s, %d minutes", d.Date.Short(), d.Minutes)
		if d.Note != "" {
			b.WriteString(". " + d.Note)
		}
		b.WriteString("\n")
		for _, w := range d.Work {
			fmt.Fprintf(b, "    %-18s %d x %-2d %-9s %4.1f %%  %.1f left  %s\n", w.Name, w.Sets, w.Reps, weight(w), w.Percent, w.Reserve, w.Role)
		}
	}
	for _, n := range p.Notes {
		b.WriteString("  - " + n + "\n")
	}
	for _, n := range p.LeftOut {
		b.WriteString("  - left out: " + n + "\n")
	}
	for _, c := range p.Changed {
		b.WriteString("  * " + c.Text + "\n")
	}
}

func weight(w load.Work) string {
	switch {
	case w.Weight == 0:
		return "-"
	case w.Find:
		return "find"
	}
	return w.Weight.Text(planner.KG)
}
