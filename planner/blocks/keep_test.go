package blocks

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// TestBoundsHold: a cap or a ban holds wherever a new block begins, and the plan
// still exists.
func TestBoundsHold(t *testing.T) {
	for _, level := range planner.Levels() {
		for n := 4; n <= 40; n++ {
			for _, b := range []Bound{{planner.Hypertrophy, 0, ""}, {planner.Hypertrophy, 5, "the club"}, {planner.Strength, 6, ""}, {planner.Peaking, 3, "the club"}, {planner.Peaking, 4, ""}} {
				r := fresh(level, n)
				r.Bounds = []Bound{b}
				p, err := Build(r)
				if err != nil {
					t.Errorf("%s, %d weeks, %s: %v", level, n, b.text(), err)
					continue
				}
				for _, x := range p.Blocks {
					if x.Kind == planner.Peaking && x.Weeks > p.Limit.Weeks && !(level == planner.Novice && n == 5) && !(level == planner.New && n == 5) {
						t.Errorf("%s, %d weeks, %s: %s, with a limit of %d", level, n, b.text(), lengths(p.Blocks), p.Limit.Weeks)
					}
					if x.Kind == b.Kind && x.Weeks > b.Max {
						t.Errorf("%s, %d weeks, %s: %s", level, n, b.text(), lengths(p.Blocks))
					}
				}
			}
		}
	}
}

// TestKeptPlan: a plan that was agreed stays while the best one gains less than a
// quarter percent; what keeping costs is told.
func TestKeptPlan(t *testing.T) {
	r := fresh(planner.Intermediate, 20)
	best := mustBuild(t, r)
	for _, alt := range best.RunnersUp {
		r.Agreed = alt.Blocks
		p := mustBuild(t, r)
		if small := alt.CostPercent < 0.25; p.Kept != small || p.KeepCostPercent == nil || *p.KeepCostPercent-alt.CostPercent > 1e-9 {
			t.Errorf("agreed %s costs %.3f %%: kept %v, %v", lengths(alt.Blocks), alt.CostPercent, p.Kept, p.KeepCostPercent)
		} else if got := lengths(p.Blocks); small && got != lengths(alt.Blocks) || !small && got != lengths(best.Blocks) {
			t.Errorf("agreed %s: %s", lengths(alt.Blocks), got)
		}
	}
}

// TestMovedMeetStretchesFirst: a meet that moves a week later leaves the order and
// the later blocks alone; the running block has the week.
func TestMovedMeetStretchesFirst(t *testing.T) {
	r := fresh(planner.Intermediate, 12)
	agreed := mustBuild(t, r).Blocks
	r.Running = &Running{Kind: agreed[0].Kind, Start: agreed[0].Start}
	r.Today = r.Today.AddDays(14)
	r.Agreed = agreed
	if p := mustBuild(t, r); !p.Kept || lengths(p.Blocks) != lengths(agreed) {
		t.Errorf("nothing moved: agreed %s, now %s, %q", lengths(agreed), lengths(p.Blocks), p.KeepWhy)
	}
	r.Meets[0].Date = r.Meets[0].Date.AddDays(7)
	p := mustBuild(t, r)
	if got := lengths(p.Blocks); got != "H5 S5 P3" || p.Kept || !strings.Contains(p.KeepWhy, "does not peak for Meet 1") {
		t.Errorf("a week later: %s, kept %v, %q", got, p.Kept, p.KeepWhy)
	}
}

// TestBoundsConflict: the error names pin and bound, and each alone has a plan.
func TestBoundsConflict(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	r.Pins = []Pin{{Kind: planner.Hypertrophy, Weeks: 8}, {Ordinal: 2, Kind: planner.Strength}}
	r.Bounds = []Bound{{planner.Hypertrophy, 5, "the club"}, {planner.Peaking, 5, ""}}
	_, err := Build(r)
	if err == nil || !strings.Contains(err.Error(), "\"hypertrophy 8 weeks\"") || !strings.Contains(err.Error(), "\"hypertrophy at most 5 weeks\" by the club") ||
		strings.Contains(err.Error(), "peaking") || strings.Contains(err.Error(), "block 2") {
		t.Errorf("%v", err)
	}
}
