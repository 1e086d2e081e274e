package blocks

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"blockbell/planner"
)

func TestParseSplit(t *testing.T) {
	tests := []struct{ text, want string }{
		{"H6 S8 P4", "H6 S8 P4"},
		{"h6s8p4", "H6 S8 P4"},
		{"H6,S8,P4", "H6 S8 P4"},
		{"H6+S8+P4", "H6 S8 P4"},
		{" H 6  +  s8 ; p 4 ", "H6 S8 P4"},
		{"6H 8S 4P", "H6 S8 P4"},
		{"hypertrophy 6, strength 8, peaking 4", "H6 S8 P4"},
		{"6 weeks of muscle, then 8 weeks strength and 4 weeks peaking", "H6 S8 P4"},
		{"Muscle block: 6 - Strength block: 8 - Peak: 4 weeks", "H6 S8 P4"},
		{"S6 P4 R1 H10 S8 P4", "S6 P4 R1 H10 S8 P4"},
		{"recovery 2 → h4", "R2 H4"},
		{"P3", "P3"},
	}
	for _, c := range tests {
		got, err := ParseSplit(c.text)
		if err != nil || got.String() != c.want {
			t.Errorf("ParseSplit(%q) = %q, %v; want %q", c.text, got, err, c.want)
		}
	}
}

// TestParseSplitErrors: an error names the place, counted in characters, and says
// what is possible.
func TestParseSplitErrors(t *testing.T) {
	tests := []struct{ text, want string }{
		{"", "the split is empty"},
		{"weeks", "the split is empty"},
		{"H6 X8", "\"X\" at place 4 is not a kind of block: H, S, P and R are possible"},
		{"H6 S P4", "\"S\" at place 4 has no number of weeks"},
		{"H6 S", "\"S\" at place 4 has no number of weeks"},
		{"H6 8 P4", "the 8 at place 4 belongs to no block"},
		{"6H 8", "the 8 at place 4 belongs to no block"},
		{"H6 S8*2", "\"*\" at place 6 of the split means nothing"},
		{"H0", "0 weeks at place 2: a block lasts 1 to 156 weeks"},
		{"H99999999999999999999999", "99999999999999999999999 weeks at place 2: a block lasts 1 to 156 weeks"},
		{"мышцы 6", "\"мышцы\" at place 1 is not a kind of block: H, S, P and R are possible"},
		{strings.Repeat("H4 S4 ", 21), "the split has 42 blocks: at most 40 are possible"},
	}
	for _, c := range tests {
		_, err := ParseSplit(c.text)
		var e *planner.Error
		if !errors.As(err, &e) || e.Kind != planner.Invalid || e.Sentence != c.want {
			t.Errorf("ParseSplit(%q): %v, want %q", c.text, err, c.want)
		}
	}
}

// FuzzParseSplit: no text panics, and what was read is read the same again.
func FuzzParseSplit(f *testing.F) {
	for _, text := range []string{"H6 S8 P4", "6h, 8s+4p", "٣H", "H6S", "\xff6"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSplit(text)
		if err != nil {
			return
		}
		again, err := ParseSplit(s.String())
		if err != nil || !slices.Equal(s, again) {
			t.Errorf("%q is %q, and that is %q, %v", text, s, again, err)
		}
	})
}

// TestSplitDoesNotAddUp: the error says how many weeks there are and what is missing
// or too much.
func TestSplitDoesNotAddUp(t *testing.T) {
	running := fresh(planner.Intermediate, 13)
	running.Running = &Running{planner.Hypertrophy, monday.AddDays(-21)}
	tests := []struct {
		r    Request
		text string
		want string
		hint string
	}{
		{fresh(planner.Intermediate, 16), "H6 S8 P4", "the split H6 S8 P4 has 18 weeks; there are 16 training weeks until Meet 1: 2 are too much", "add up"},
		{fresh(planner.Intermediate, 16), "S11 P4", "the split S11 P4 has 15 weeks; there are 16 training weeks until Meet 1: 1 is missing", "add up"},
		{fresh(planner.Intermediate, 16, 40), "H7 S6 P3 R1 H11 S8", "the split H7 S6 P3 R1 H11 S8 has 36 weeks; there are 40 training weeks until Meet 2: 4 are missing", "16 weeks before Meet 1, 24 weeks before Meet 2"},
		{running, "H6 S6 P3", "the split H6 S6 P3 has 15 weeks; there are 13 training weeks until Meet 1, 16 with the 3 of the running block that are done: 1 is missing", "add up"},
		{running, "H2 S6 P3", "the split H2 S6 P3 begins with 2 weeks of the muscle block (hypertrophy), but 3 weeks of it are done", "whole length"},
		{fresh(planner.Novice), "H6 S6", "the split H6 S6 has 12 weeks; there are 14 training weeks in a cycle without a meet: 2 are missing", "add up"},
	}
	for _, c := range tests {
		_, err := Compare(c.r, []Split{mustParse(t, c.text)})
		var e *planner.Error
		if !errors.As(err, &e) || e.Sentence != c.want || !strings.Contains(e.Hint, c.hint) {
			t.Errorf("%s: %v\nwant %s", c.text, err, c.want)
		}
	}
}

func mustParse(t *testing.T, text string) Split {
	t.Helper()
	s, err := ParseSplit(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestSplitOfRunningBlock: the first part is the running block's whole length, or
// its weeks to come where only they add up; both are the same plan.
func TestSplitOfRunningBlock(t *testing.T) {
	r := fresh(planner.Intermediate, 13)
	r.Running = &Running{planner.Hypertrophy, monday.AddDays(-21)}
	c, err := Compare(r, []Split{mustParse(t, "H7 S6 P3"), mustParse(t, "H4 S6 P3"), mustParse(t, "S9 P4")})
	if err != nil {
		t.Fatal(err)
	}
	rows := ownRows(c)
	if rows[0].Split.String() != "H7 S6 P3" || rows[1].Split.String() != "H7 S6 P3" || rows[0].Objective != rows[1].Objective {
		t.Errorf("%s %g, %s %g", rows[0].Split, rows[0].Objective, rows[1].Split, rows[1].Objective)
	}
	if len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "weeks still to come") {
		t.Errorf("notes %q", c.Notes)
	}
	if got := rows[2]; got.Split.String() != "S9 P4" || got.Blocks[0].Start != monday {
		t.Errorf("the running block ends: %s from %s", got.Split, got.Blocks[0].Start)
	}
}

func ownRows(c Comparison) (rows []Row) {
	for _, r := range c.Rows {
		if r.Role == Own {
			rows = append(rows, r)
		}
	}
	return rows
}

// TestOwnSplitOfAnyPlan: the lengths of a plan, typed as a split, lead back to the
// same blocks, objective and no broken rule, whatever the calendar.
func TestOwnSplitOfAnyPlan(t *testing.T) {
	const seed = 1605
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	checked := 0
	for range 150 {
		r := randomRequest(rng)
		p, err := Build(r)
		if err != nil || len(p.Relaxed) > 0 {
			continue
		}
		sp := SplitOf(p.Blocks)
		if len(sp) == 0 || sp.Weeks() != sumWeeks(p.Blocks) {
			continue
		}
		c, err := Compare(r, []Split{sp})
		if err != nil {
			t.Errorf("%s\n%s: %v", describe(r), sp, err)
			continue
		}
		checked++
		own := ownRows(c)[0]
		if d := own.Objective - p.Objective; d > sameValue || d < -sameValue || len(own.Broken) > 0 || own.Share != 0.5 || own.TossUp != true {
			t.Errorf("%s\n%s: objective %g, want %g; broken %q, share %g", describe(r), sp, own.Objective, p.Objective, own.Broken, own.Share)
		}
		r.Pins = own.Pins
		if again, err := Build(r); err != nil || lengths(again.Blocks) != lengths(p.Blocks) {
			t.Errorf("%s\n%s: its pins lead to %s, %v", describe(r), sp, lengths(again.Blocks), err)
		}
	}
	if checked < 75 {
		t.Errorf("only %d plans checked", checked)
	}
}

func sumWeeks(blocks []planner.Block) (n int) {
	for _, b := range blocks {
		n += b.Weeks
	}
	return n
}
