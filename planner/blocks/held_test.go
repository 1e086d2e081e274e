package blocks

import (
	"reflect"
	"testing"

	"blockbell/planner"
)

// runningPlan is a request two weeks into the plan agreed for a meet.
func runningPlan(t *testing.T, weeks int) Request {
	t.Helper()
	r := fresh(planner.Intermediate, weeks)
	r.Agreed = mustBuild(t, r).Blocks
	r.Running = &Running{Kind: r.Agreed[0].Kind, Start: r.Agreed[0].Start}
	r.Today = r.Today.AddDays(14)
	return r
}

// TestPinsComeBeforeTheHeldBlock: what a coach fixes by hand or bounds costs no quarter
// percent more only so that the running block keeps its agreed length.
func TestPinsComeBeforeTheHeldBlock(t *testing.T) {
	for _, change := range []func(*Request){
		func(r *Request) { r.Pins = []Pin{{Kind: planner.Strength, Weeks: 3}} },
		func(r *Request) { r.Pins = []Pin{{Kind: planner.Hypertrophy, Weeks: 4}} },
		func(r *Request) { r.Pins = []Pin{{Kind: planner.Peaking, Weeks: 5}} },
		func(r *Request) { r.Bounds = []Bound{{planner.Strength, 7, ""}} },
	} {
		r := runningPlan(t, 25)
		change(&r)
		p := mustBuild(t, r)
		free := r
		free.Agreed = nil
		best := mustBuild(t, free)
		if best.Objective-p.Objective >= keepGain {
			t.Errorf("%+v %+v: %s is %.3f %% worse than %s", r.Pins, r.Bounds, lengths(p.Blocks), 100*(best.Objective-p.Objective), lengths(best.Blocks))
		}
	}
}

// TestCompareShowsWhatIsProposed: where the running block goes on as agreed though
// another plan is better, the comparison has the plan that Build proposes, and says so.
func TestCompareShowsWhatIsProposed(t *testing.T) {
	seen := 0
	for later := 0; later <= 10; later++ {
		r := runningPlan(t, 25)
		r.Meets[0].Date = r.Meets[0].Date.AddDays(7 * later)
		p, c := mustBuild(t, r), mustCompare(t, lifting(r))
		var proposed []Row
		for _, row := range c.Rows {
			if reflect.DeepEqual(row.Blocks, p.Blocks) {
				proposed = append(proposed, row)
			}
		}
		if len(proposed) == 0 {
			t.Errorf("%d weeks later: %s is proposed and not compared", later, lengths(p.Blocks))
			continue
		}
		last := proposed[len(proposed)-1]
		if last.Role == Held {
			seen++
			if c.Rows[0].Verdict != "The best on paper, but it changes the block that runs." || last.Verdict != "The plan I propose: the block that runs goes on as agreed." {
				t.Errorf("%d weeks later: %q, %q", later, c.Rows[0].Verdict, last.Verdict)
			}
		}
	}
	if seen == 0 {
		t.Error("no running block went on against the best plan")
	}
}
