package blocks

import (
	"slices"
	"strings"
	"testing"

	"blockbell/planner"
)

// TestEndedPeakIsSaid: running peaking that ends at once because its meet is far
// away, or gone, is told in the notes; peaking that goes on is not.
func TestEndedPeakIsSaid(t *testing.T) {
	r := fresh(planner.Intermediate, 10)
	for _, done := range []int{0, 2, 5} {
		r.Running = &Running{planner.Peaking, monday.AddDays(-7 * done)}
		p := mustBuild(t, r)
		notes := strings.Join(p.Notes, " ")
		if !strings.Contains(notes, "The running peaking ends now, after "+plural(done)) || !strings.Contains(notes, "Meet 1 is still 10 weeks away") {
			t.Errorf("%d weeks of peaking, 10 left: %s, notes %q", done, lengths(p.Blocks), p.Notes)
		}
	}
	r.Meets = nil
	if notes := strings.Join(mustBuild(t, r).Notes, " "); !strings.Contains(notes, "The running peaking ends now, after 5 weeks: there is no meet") {
		t.Errorf("no meet: notes %q", notes)
	}
	r = fresh(planner.Intermediate, 3)
	r.Running = &Running{planner.Peaking, monday.AddDays(-14)}
	if notes := strings.Join(mustBuild(t, r).Notes, " "); strings.Contains(notes, "ends now") {
		t.Errorf("peaking goes on: notes %q", notes)
	}
}

// TestLeftOutOfTheWholePlan: a kind counts as left out only where it is nowhere in
// the plan, nor running, nor finished in the run-up under way; what one run-up
// lacks is told by the name of its meet.
func TestLeftOutOfTheWholePlan(t *testing.T) {
	h, s := planner.Hypertrophy, planner.Strength
	tests := []struct {
		name    string
		weeks   []int
		running planner.BlockKind
		history []Past
		out     []planner.BlockKind
		note    string
	}{
		{"short run-up before a long one", []int{8, 30}, "", nil, nil, "The run-up to Meet 1 has no muscle block (hypertrophy)."},
		{"long run-up before a short gap", []int{20, 26}, "", nil, nil, "The run-up to Meet 2 has no muscle block (hypertrophy) and no strength block."},
		{"two short ones", []int{5, 10}, "", nil, []planner.BlockKind{h, s}, "The run-up to Meet 1 has no muscle block (hypertrophy) and no strength block."},
		{"finished before peaking", []int{3}, planner.Peaking, []Past{{h, 6}, {s, 5}}, nil, ""},
		{"finished before strength", []int{8}, s, []Past{{h, 6}}, nil, ""},
		{"finished in another run-up", []int{8}, s, []Past{{h, 6}, {s, 5}, {planner.Peaking, 4}, {planner.Recovery, 1}}, []planner.BlockKind{h}, ""},
		{"nothing runs", []int{8}, "", []Past{{h, 6}}, []planner.BlockKind{h}, ""},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, c.weeks...)
			r.History = c.history
			if c.running != "" {
				r.Running = &Running{c.running, monday.AddDays(-14)}
			}
			p := mustBuild(t, r)
			if !slices.Equal(p.LeftOut, append([]planner.BlockKind{}, c.out...)) {
				t.Errorf("%s: left out %q, want %q", lengths(p.Blocks), p.LeftOut, c.out)
			}
			if notes := strings.Join(p.Notes, " "); !strings.Contains(notes, c.note) || c.note == "" && strings.Contains(notes, "run-up") {
				t.Errorf("%s: notes %q, want %q", lengths(p.Blocks), notes, c.note)
			}
		})
	}
}
