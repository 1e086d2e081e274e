package blocks

import (
	"math"
	"strings"
	"testing"

	"blockbell/planner"
)

// testDays is a lifter without a main meet and with test days after so many weeks.
func testDays(level planner.Level, weeks ...int) Request {
	r := fresh(level, weeks...)
	for i := range r.Meets {
		r.Meets[i].Kind = planner.Test
	}
	return r
}

// TestPlanRunsToTheLastTestDay: a test day on the calendar, 6 training weeks or
// more ahead, ends the plan in place of a virtual one; a nearer one is one more
// day that counts in the usual cycle.
func TestPlanRunsToTheLastTestDay(t *testing.T) {
	for _, level := range planner.Levels() {
		for n := 1; n <= 60; n++ {
			r := testDays(level, n)
			p := mustBuild(t, r)
			if n < 6 {
				if len(p.Marks) != 2 || !p.Marks[1].Virtual || p.Marks[0].Date.DaysUntil(p.Marks[1].Date) < 21 || !strings.Contains(strings.Join(p.Notes, " "), "rolling cycle of 14 weeks") {
					t.Errorf("%s, %d weeks: %s, marks %+v, notes %q", level, n, lengths(p.Blocks), p.Marks, p.Notes)
				}
				continue
			}
			addsUp(t, r, p)
			if len(p.Marks) != 1 || p.Marks[0].Virtual || p.Marks[0].Date != r.Meets[0].Date || len(p.Relaxed) > 0 {
				t.Errorf("%s, %d weeks: %s, marks %+v, relaxed %q", level, n, lengths(p.Blocks), p.Marks, p.Relaxed)
			}
			if !strings.Contains(strings.Join(p.Notes, " "), "ends with the last test day on the calendar, Meet 1 on "+r.Meets[0].Date.Long()) {
				t.Errorf("%d weeks: notes %q", n, p.Notes)
			}
			for _, b := range p.Blocks {
				if b.Kind == planner.Hypertrophy && b.Weeks > 8 {
					t.Errorf("%s, %d weeks: %s", level, n, lengths(p.Blocks))
				}
			}
		}
	}
	p := mustBuild(t, testDays(planner.Intermediate, 3, 9, 20))
	if last := p.Marks[len(p.Marks)-1]; len(p.Marks) != 3 || last.Virtual || lastBlock(p).End != last.Date-1 {
		t.Errorf("three test days: %s, marks %+v", lengths(p.Blocks), p.Marks)
	}
}

// TestTestDayUnderRunningBlocks: whatever runs, for how long, a test day 6 weeks
// ahead has a plan, and what gives way is said.
func TestTestDayUnderRunningBlocks(t *testing.T) {
	for _, kind := range kindOf {
		for done := range 20 {
			for n := 6; n <= 14; n++ {
				r := testDays(planner.Elite, n)
				r.Running = &Running{kind, monday.AddDays(-7 * done)}
				p := mustBuild(t, r)
				first := p.Blocks[0]
				if kind == planner.Strength && first.Kind == kind && first.Start == r.Running.Start && first.Weeks > longestS && len(p.Relaxed) == 0 {
					t.Errorf("%s of %d weeks, %d left: %s, nothing said", kind, done, n, lengths(p.Blocks))
				}
			}
		}
	}
}

// TestGainsOfTestDays: at a test day the gain is that of strength alone, and that
// of the plan is the one at its last day.
func TestGainsOfTestDays(t *testing.T) {
	for _, r := range []Request{testDays(planner.Intermediate), testDays(planner.Novice, 3), testDays(planner.Advanced, 9, 20)} {
		p := mustBuild(t, r)
		last := p.MeetGains[len(p.MeetGains)-1]
		if *p.GainPercent != last.Percent || *p.StrengthPercent != last.Strength || *p.SharpeningPercent != last.Sharpening || *p.GainLow > *p.GainPercent {
			t.Errorf("%s: gain %g, at the last day %+v", lengths(p.Blocks), *p.GainPercent, last)
		}
		end := p.Model.trace(p.Blocks, p.Marks)[len(p.Marks)-1]
		if want := 100 * math.Expm1(end.S-p.Model.Start.S); math.Abs(want-last.Percent) > 1e-12 || last.Sharpening != 0 {
			t.Errorf("%s: gain %+v, strength alone %g", lengths(p.Blocks), last, want)
		}
	}
	r := fresh(planner.Intermediate, 10, 20)
	r.Meets[0].Kind = planner.Test
	p := mustBuild(t, r)
	if g := p.MeetGains; g[0].Sharpening != 0 || g[1].Percent != *p.GainPercent || g[1].Sharpening == 0 {
		t.Errorf("test day before a main meet: %+v, plan %g", g, *p.GainPercent)
	}
}
