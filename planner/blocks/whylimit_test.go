package blocks

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// TestLimitsByMeet: the limit that is told beside a peaking block is that of its meet;
// behind a first meet it is not 3 weeks any more.
func TestLimitsByMeet(t *testing.T) {
	r := fresh(planner.Advanced, 20, 29, 60)
	r.Lifter.HasCompeted = false
	p := mustBuild(t, r)
	e := Explain(p, r)
	first := true
	for i, b := range p.Blocks {
		if b.Kind != planner.Peaking {
			continue
		}
		said := e.Blocks[i].Sentence
		if first != strings.Contains(said, "Your limit is 3 weeks") {
			t.Errorf("%s: %q", lengths(p.Blocks), said)
		}
		if first && (!strings.Contains(said, "because your limit is 3 weeks") || strings.Contains(said, "need the weeks")) {
			t.Errorf("the limit makes the first peak short: %q", said)
		}
		first = false
	}
	if want := "For Meet 3 it is 8 weeks."; !strings.Contains(e.Limit, "(a first meet: 3 weeks). "+want) {
		t.Errorf("%q lacks %q", e.Limit, want)
	}
	r.Lifter.HasCompeted = true
	if e := Explain(mustBuild(t, r), r); strings.Contains(e.Limit, "For Meet") {
		t.Errorf("one limit for all: %q", e.Limit)
	}
}

// TestUpkeepShare: a third of the sets keeps muscle, half from 60 years on (Bickel et
// al. 2011).
func TestUpkeepShare(t *testing.T) {
	r := fresh(planner.Intermediate, 12)
	if got := UpkeepShare(r.Lifter, r.Today); got != "a third" {
		t.Errorf("%q", got)
	}
	r.Lifter.Born = r.Today.AddDays(-366 * 61)
	if got := UpkeepShare(r.Lifter, r.Today); got != "half" {
		t.Errorf("at 61: %q", got)
	}
}

// TestOtherShapesDiffer: with days left and no training week, no plan is shown beside
// itself as another one.
func TestOtherShapesDiffer(t *testing.T) {
	for days := 1; days <= 24; days++ {
		r := fresh(planner.Intermediate, 4)
		r.Running = &Running{Kind: planner.Peaking, Start: r.Today}
		r.Today = r.Today.AddDays(3)
		r.Meets[0].Date = r.Today.AddDays(days)
		p := mustBuild(t, r)
		seen := map[string]bool{lengths(p.Blocks): true}
		for _, alt := range p.RunnersUp {
			if seen[lengths(alt.Blocks)] {
				t.Errorf("%d days: %s twice", days, lengths(alt.Blocks))
			}
			seen[lengths(alt.Blocks)] = true
		}
	}
}

// TestClassRoomIsTold: at the class limit the muscle block is shorter than with room,
// and that is said; with room, or without a class, it is not.
func TestClassRoomIsTold(t *testing.T) {
	weeks := map[int]int{}
	for kilos, told := range map[int]bool{83: true, 70: false} {
		r := fresh(planner.Intermediate, 16)
		r.Lifter.Bodyweight, r.Lifter.Class = planner.Grams(kilos)*planner.Kilogram, planner.Class{Limit: 83 * planner.Kilogram}
		p := mustBuild(t, r)
		weeks[kilos] = p.Blocks[0].Weeks
		if said := Explain(p, r).Blocks[0].Sentence; strings.Contains(said, "your class leaves little room for new muscle") != told {
			t.Errorf("%d kg in the 83 class: %q", kilos, said)
		}
	}
	if weeks[83] >= weeks[70] {
		t.Errorf("muscle blocks of %d weeks at the limit and %d with room", weeks[83], weeks[70])
	}
}
