package blocks

import (
	"testing"

	"blockbell/planner"
)

// TestADroppedMeetCutsNoRunningBlock: without its meet a muscle block cannot last as
// agreed, 8 weeks in a row being the most without a meet, 10 for who likes long blocks
// (common practice). It goes on for as long as that allows, and does not end at once.
func TestADroppedMeetCutsNoRunningBlock(t *testing.T) {
	for _, c := range []struct {
		week, want int
		long       bool
	}{{6, 8, false}, {7, 8, false}, {8, 8, false}, {5, 8, false}, {6, 10, true}} {
		r := fresh(planner.Intermediate, 26)
		r.Lifter.LongBlocks = c.long
		r.Agreed = mustBuild(t, r).Blocks
		r.Running = &Running{Kind: r.Agreed[0].Kind, Start: r.Agreed[0].Start}
		if r.Agreed[0].Kind != planner.Hypertrophy || r.Agreed[0].Weeks <= c.want {
			t.Fatalf("agreed %s is no case", lengths(r.Agreed))
		}
		r.Today = r.Today.AddDays(7*(c.week-1) + 2)
		r.Meets = nil
		p := mustBuild(t, r)
		if b := p.Blocks[0]; b.Kind != planner.Hypertrophy || b.Weeks != c.want {
			t.Errorf("week %d of %s, meet dropped: %s, want a muscle block of %d weeks first", c.week, lengths(r.Agreed), lengths(p.Blocks), c.want)
		}
	}
}
