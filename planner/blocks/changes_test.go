package blocks_test

import (
	"math"
	"testing"

	"blockbell/planner"
	"blockbell/planner/blocks"
)

// The weekly changes add up to the strength part of the gain that the plan tells.
func TestChangesAddUpToTheGain(t *testing.T) {
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced, planner.Elite} {
		today := planner.NewDate(2027, 1, 4)
		meet := planner.Meet{ID: 1, Name: "River Open", Date: today.AddDays(7*24 - 2), Kind: planner.Main}
		p, err := blocks.Build(blocks.Request{Today: today, Lifter: planner.Lifter{Level: level, HasCompeted: true}, Rules: blocks.Rules{WeekStart: 1}, Meets: []planner.Meet{meet}})
		if err != nil {
			t.Fatal(err)
		}
		changes := p.Model.Changes(p.Blocks)
		sum, weeks := 0.0, 0
		for i, c := range changes {
			sum += c.Strength
			weeks++
			if i > 0 && c.Start <= changes[i-1].Start {
				t.Errorf("%s: the week of %s does not follow that of %s", level, c.Start, changes[i-1].Start)
			}
		}
		planned := 0
		for _, b := range p.Blocks {
			planned += b.Weeks
		}
		if weeks != planned {
			t.Errorf("%s: %d weeks, the plan has %d", level, weeks, planned)
		}
		// The percents of two parts add up only through their logarithms, so a small
		// share of a percent is the tolerance.
		if got := 100 * math.Expm1(sum); math.Abs(got-*p.StrengthPercent) > 0.05 {
			t.Errorf("%s: changes add up to %.3f %%, the plan says %.3f %%", level, got, *p.StrengthPercent)
		}
	}
}
