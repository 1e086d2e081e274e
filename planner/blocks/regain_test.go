package blocks

import (
	"fmt"
	"math"
	"testing"

	"blockbell/planner"
)

// year is a year of training behind a lifter, in the usual order of blocks.
var year = []Past{{planner.Hypertrophy, 8}, {planner.Strength, 8}, {planner.Peaking, 4}, {planner.Recovery, 1}, {planner.Hypertrophy, 8}, {planner.Strength, 8}, {planner.Peaking, 4}, {planner.Recovery, 1}}

// TestHistoryTakesNoStrengthAway: a lifter with a year of training behind them gains
// much the same from a run-up as one of whom nothing is known, and never loses by it:
// what was done is in today's strength already.
func TestHistoryTakesNoStrengthAway(t *testing.T) {
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced, planner.Elite} {
		r := fresh(level, 17)
		unknown := mustBuild(t, r)
		r.History = year
		known := mustBuild(t, r)
		if d := *known.StrengthPercent - *unknown.StrengthPercent; math.Abs(d) > 0.5 || *known.StrengthPercent < 0 {
			t.Errorf("%s: new strength %.2f %% with a year behind, %.2f %% without", level, *known.StrengthPercent, *unknown.StrengthPercent)
		}
	}
}

// TestWhatIsWonBackIsToldApart: after a time away a plan brings back what was lost, and
// beyond that no more than the same weeks bring to somebody who was never away.
func TestWhatIsWonBackIsToldApart(t *testing.T) {
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced} {
		for _, weeks := range []int{6, 8, 13, 26} {
			for _, past := range [][]Past{nil, year} {
				t.Run(fmt.Sprint(level, " ", weeks, " ", len(past)), func(t *testing.T) {
					r := fresh(level, 20)
					r.History = past
					steady := mustBuild(t, r)
					r.Away = []Away{{monday.AddDays(-7 * weeks), monday.AddDays(-1)}}
					p := mustBuild(t, r)
					if p.RegainedPercent == nil || *p.RegainedPercent > *p.GainPercent+3 {
						t.Fatalf("gain %.1f %%, of it won back %v", *p.GainPercent, p.RegainedPercent)
					}
					// By the rule of the layoff: nothing in the first four weeks, then 2 % each.
					if lost := 0.02 * float64(weeks-4); math.Abs(p.Model.Start.Lost.S-lost) > 1e-9 {
						t.Errorf("strength lost %.3f, want %.3f", p.Model.Start.Lost.S, lost)
					}
					all := 100 * math.Expm1(p.Model.Start.Lost.S+p.Model.Start.Lost.E)
					if *p.RegainedPercent > all+1e-9 {
						t.Errorf("won back %.1f %% of %.1f %% lost", *p.RegainedPercent, all)
					}
					beyond := (100+*p.GainPercent)/(100+*p.RegainedPercent)*100 - 100
					if beyond > *steady.GainPercent+1 {
						t.Errorf("beyond where they were %.1f %%, somebody who was never away gains %.1f %%", beyond, *steady.GainPercent)
					}
				})
			}
		}
	}
	p := mustBuild(t, fresh(planner.Novice, 20))
	if p.RegainedPercent != nil {
		t.Errorf("without a time away %.1f %% is won back", *p.RegainedPercent)
	}
}

// TestLossWearsOff: what a time away took is made up for once its weeks of training are
// behind the lifter.
func TestLossWearsOff(t *testing.T) {
	r := fresh(planner.Novice, 16)
	r.Away = []Away{{monday.AddDays(-7 * 30), monday.AddDays(-7*20 - 1)}}
	r.History = []Past{{planner.Hypertrophy, 8}, {planner.Strength, 12}}
	p := mustBuild(t, r)
	if p.RegainedPercent != nil && *p.RegainedPercent > 1 {
		t.Errorf("twenty weeks after the return %.1f %% is still to be won back", *p.RegainedPercent)
	}
}
