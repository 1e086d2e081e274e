package blocks

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// TestAPinOnAKindMeansOneBlock: a length fixed for a kind of block is that of the one
// that runs, where it is of that kind, else of the next: never of a later one that suits
// better, and never of two.
func TestAPinOnAKindMeansOneBlock(t *testing.T) {
	running := func(kind planner.BlockKind, done int) *Running { return &Running{kind, monday.AddDays(-7 * done)} }
	for _, c := range []struct {
		name    string
		weeks   int
		running *Running
		pin     Pin
		block   int // place in the plan, from 0, of the block meant
	}{
		{"the muscle block that runs", 23, running(planner.Hypertrophy, 2), Pin{Kind: planner.Hypertrophy, Weeks: 4}, 0},
		{"the next, in front of others", 40, nil, Pin{Kind: planner.Hypertrophy, Weeks: 5}, 0},
		{"strength, the first of two", 40, nil, Pin{Kind: planner.Strength, Weeks: 8}, 1},
		{"strength that runs", 40, running(planner.Strength, 2), Pin{Kind: planner.Strength, Weeks: 7}, 0},
		{"what runs is past that: the next", 40, running(planner.Hypertrophy, 6), Pin{Kind: planner.Hypertrophy, Weeks: 5}, 2},
		{"what runs is of another kind", 40, running(planner.Strength, 2), Pin{Kind: planner.Hypertrophy, Weeks: 7}, 1},
		{"any kind: one of two that fit", 40, nil, Pin{Weeks: 7}, -1},
	} {
		r := fresh(planner.Intermediate, c.weeks)
		r.Running, r.Pins = c.running, []Pin{c.pin}
		p := mustBuild(t, r)
		by, n := 0, 0
		for i, b := range p.SetBy {
			if b == SetByHand {
				by, n = i, n+1
			}
		}
		if n != 1 || c.block >= 0 && by != c.block {
			t.Errorf("%s: %s is set by %q, want block %d by hand alone", c.name, lengths(p.Blocks), p.SetBy, c.block)
			continue
		}
		if b := p.Blocks[by]; b.Weeks != c.pin.Weeks || c.pin.Kind != "" && b.Kind != c.pin.Kind {
			t.Errorf("%s: %s, the pin is %+v", c.name, lengths(p.Blocks), c.pin)
		}
		x := Explain(p, r)
		for i, b := range x.Blocks {
			if strings.Contains(b.Sentence, "as fixed by hand") && i != by {
				t.Errorf("%s: block %d of %s: %q", c.name, i, lengths(p.Blocks), b.Sentence)
			}
		}
	}
}

// TestAPinSaysWhichBlockItMeans where the plan has more than one of the kind.
func TestAPinSaysWhichBlockItMeans(t *testing.T) {
	r := fresh(planner.Intermediate, 40)
	r.Pins = []Pin{{Kind: planner.Hypertrophy, Weeks: 5}}
	said := func() string { return strings.Join(mustBuild(t, r).Notes, " ") }
	if got := said(); !strings.Contains(got, "The muscle block (hypertrophy) of 5 weeks that is fixed by hand is the one from Mon 4 January 2027.") {
		t.Error(got)
	}
	r.Running = &Running{planner.Hypertrophy, monday.AddDays(-14)}
	if got := said(); !strings.Contains(got, "The muscle block (hypertrophy) of 5 weeks that is fixed by hand is the one that runs.") {
		t.Error(got)
	}
	r.Meets[0].Date = monday.AddDays(7*13 - 2)
	if got := said(); strings.Contains(got, "is the one") {
		t.Errorf("only one is there: %s", got)
	}
}
