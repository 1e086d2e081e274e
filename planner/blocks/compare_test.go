package blocks

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"blockbell/planner"
)

func mustCompare(t *testing.T, r Request, texts ...string) Comparison {
	t.Helper()
	var own []Split
	for _, x := range texts {
		own = append(own, mustParse(t, x))
	}
	c, err := Compare(r, own)
	if err != nil {
		t.Fatalf("Compare: %v", err)
	}
	return c
}

// lifting gives a lifter a total of 500 kg.
func lifting(r Request) Request {
	r.Lifter.Squat, r.Lifter.Bench, r.Lifter.Deadlift = 180*planner.Kilogram, 120*planner.Kilogram, 200*planner.Kilogram
	return r
}

// TestCompareRows: the best plan first, then the runner-up shapes of Build, then the
// agreed plan, then the coach's splits as typed.
func TestCompareRows(t *testing.T) {
	r := fresh(planner.Intermediate, 16, 40)
	p := mustBuild(t, r)
	r.Agreed = p.RunnersUp[0].Blocks
	c := mustCompare(t, r, "H6 S7 P3 R1 H11 S8 P4", "H7 S6 P3 R1 H11 S8 P4")
	var roles []Role
	for _, row := range c.Rows {
		roles = append(roles, row.Role)
	}
	if want := []Role{Optimum, RunnerUp, RunnerUp, Agreed, Own, Own}; !slices.Equal(roles, want) {
		t.Fatalf("rows %q, want %q", roles, want)
	}
	if !reflect.DeepEqual(c.Rows[0].Blocks, p.Blocks) || math.Abs(c.Rows[0].Objective-p.Objective) > sameValue {
		t.Errorf("the best is %s, Build has %s", c.Rows[0].Split, lengths(p.Blocks))
	}
	for i, alt := range p.RunnersUp {
		row := c.Rows[i+1]
		if !reflect.DeepEqual(row.Blocks, alt.Blocks) || math.Abs(row.CostPercent-alt.CostPercent) > 100*sameValue {
			t.Errorf("runner-up %d is %s at %g, Build has %s at %g", i, row.Split, row.CostPercent, lengths(alt.Blocks), alt.CostPercent)
		}
	}
	if a := c.Rows[3]; a.Objective != c.Rows[1].Objective || a.Share != c.Rows[1].Share || len(a.Broken) > 0 {
		t.Errorf("the agreed plan is the first runner-up, yet %g, share %g, broken %q", a.Objective, a.Share, a.Broken)
	}
	if got := c.Rows[4].Split.String(); got != "H6 S7 P3 R1 H11 S8 P4" {
		t.Errorf("own split %s", got)
	}
	for _, row := range c.Rows[1:] {
		if row.CostPercent < 0 {
			t.Errorf("%s is legal and better than the best: %g", row.Split, row.CostPercent)
		}
	}
}

// TestCompareGain: the gain of the model itself is that of Build, for the last main
// meet, and its parts add up to it.
func TestCompareGain(t *testing.T) {
	for _, r := range []Request{fresh(planner.Novice, 12), fresh(planner.Advanced, 20, 45), fresh(planner.Elite)} {
		p, c := mustBuild(t, r), mustCompare(t, r)
		g := c.Rows[0].Gains[c.Rows[0].Goal]
		if math.Abs(g.Percent-*p.GainPercent) > 1e-10 || math.Abs(g.Sharpening+g.Strength-g.Percent) > 1e-10 {
			t.Errorf("%s: gain %g = %g + %g, Build has %g", c.Rows[0].Split, g.Percent, g.Sharpening, g.Strength, *p.GainPercent)
		}
	}
}

// TestAgreedNoLongerPossible: an agreed plan that the calendar has overtaken is a
// note, not a row.
func TestAgreedNoLongerPossible(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	r.Agreed = mustBuild(t, r).Blocks
	r.Meets[0].Date = r.Meets[0].Date.AddDays(14)
	c := mustCompare(t, r)
	if len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "The agreed plan is not compared.") || slices.ContainsFunc(c.Rows, func(r Row) bool { return r.Role == Agreed }) {
		t.Errorf("notes %q", c.Notes)
	}
}

// TestBrokenRules: a split that breaks a rule is scored and says which.
func TestBrokenRules(t *testing.T) {
	tuneUp := fresh(planner.Intermediate, 24)
	tuneUp.Meets = append(tuneUp.Meets, planner.Meet{ID: 9, Name: "Practice", Kind: planner.TuneUp, Date: monday.AddDays(7 + 5)})
	bound := fresh(planner.Intermediate, 16)
	bound.Bounds = []Bound{{Kind: planner.Hypertrophy, Max: 5, Source: "the club"}}
	pin := fresh(planner.Intermediate, 16)
	pin.Pins = []Pin{{Ordinal: 1, Kind: planner.Hypertrophy, Weeks: 6}}
	tests := []struct {
		r    Request
		text string
		want string // "" where nothing is broken
	}{
		{fresh(planner.Intermediate, 16), "H6 S7 P3", ""},
		{fresh(planner.Intermediate, 16), "H4 S4 P8", "your limit is 6"},
		{fresh(planner.Intermediate, 16), "H13 P3", "the longest I plan is 12 weeks"},
		{fresh(planner.Intermediate, 16), "H13 P3", "mixes far-apart aims"},
		{fresh(planner.Intermediate, 16), "H8 S8", "Nothing peaks for Meet 1"},
		{fresh(planner.Intermediate, 16), "S8 P3 S5", "Peaking ends on the day before a meet"},
		{fresh(planner.Intermediate, 16), "H7 S4 S2 P3", "are one block: strength block of 6 weeks"},
		{fresh(planner.Intermediate, 16), "H2 S10 P4", "under 4 weeks new muscle cannot show"},
		{fresh(planner.Intermediate, 16), "H10 S2 P4", "the shortest that pays is 4 weeks"},
		{fresh(planner.Intermediate, 16), "R2 H4 S7 P3", "Recovery comes after a main meet only"},
		{fresh(planner.Intermediate, 30), "H8 S3 H8 S8 P3", "The strength block lasts 3 weeks; the shortest that pays is 4 weeks"},
		{fresh(planner.Intermediate, 16, 40), "H7 S6 P3 H12 S8 P4", "After Meet 1 comes recovery first"},
		{fresh(planner.Intermediate, 16, 40), "H12 S24 P4", "No block goes on through a main meet: Meet 1"},
		{tuneUp, "H9 S11 P4", "The practice meet on Sat 16 January falls into the first 3 weeks of the muscle block"},
		{bound, "H7 S6 P3", "against the bound \"hypertrophy at most 5 weeks\" by the club"},
		{pin, "H7 S6 P3", "fixed by hand"},
		{fresh(planner.Advanced), "H8 S6", "at most 5 weeks of this cycle are for muscle"},
	}
	for _, c := range tests {
		row := ownRows(mustCompare(t, c.r, c.text))[0]
		text := strings.Join(row.Broken, " ")
		if !strings.Contains(text, c.want) || c.want == "" && text != "" {
			t.Errorf("%s: %q, want %q", c.text, row.Broken, c.want)
		}
		if c.want != "" && !strings.HasPrefix(row.Verdict, "I would not choose this") {
			t.Errorf("%s: verdict %q", c.text, row.Verdict)
		}
	}
}

// TestPeakingNeedsAMeet: without a meet or test day peaking is refused, with the
// reason.
func TestPeakingNeedsAMeet(t *testing.T) {
	_, err := Compare(fresh(planner.Intermediate), []Split{mustParse(t, "H6 S5 P3")})
	var e *planner.Error
	if !errors.As(err, &e) || e.Kind != planner.Impossible || !strings.Contains(e.Sentence, "there is no meet: peaking shows strength on one day") {
		t.Errorf("%v", err)
	}
}

// TestMixedAims: far-apart aims in quick change are called out, usual plans never.
func TestMixedAims(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	for text, want := range map[string]bool{
		"H2 P2 H2 S7 P3": true, "H2 S2 H2 S2 H2 S2 P4": true, "H4 P3 H4 P5": true,
		"H7 S6 P3": false, "H10 S3 P3": false, "S12 P4": false,
	} {
		row := ownRows(mustCompare(t, r, text))[0]
		if got := strings.Contains(strings.Join(row.Risks, " "), "changes its aim"); got != want {
			t.Errorf("%s: called out %t, want %t", text, got, want)
		}
	}
	eachLength(t, 1, 52, func(t *testing.T, level planner.Level, n int, p Plan) {
		var steps []step
		for _, b := range p.Blocks {
			steps = append(steps, step{kind: index(b.Kind), weeks: b.Weeks, total: b.Weeks})
		}
		if m := mixed(steps); m != nil {
			t.Errorf("%s, %d weeks: %s called out: %q", level, n, lengths(p.Blocks), m)
		}
	})
}

// TestRisks: what is at stake is said where it is, and only there.
func TestRisks(t *testing.T) {
	tests := []struct {
		r          Request
		text, want string
	}{
		{fresh(planner.Intermediate, 16), "H4 S6 P6", "Peaking is as long as your limit of 6 allows"},
		{fresh(planner.Intermediate, 16), "H4 S9 P3", "The muscle block is short"},
		{fresh(planner.Intermediate, 20), "H4 S13 P3", "Strength of 13 weeks is long: muscle fades"},
		{fresh(planner.Intermediate, 16), "S12 P4", "No muscle block before Meet 1"},
		{fresh(planner.Elite, 20), "H10 S7 P3", "the single would still be dull"},
		{fresh(planner.Novice, 8), "H3 S2 P3", "Usual with 8 weeks left: strength block and peaking (common practice)."},
		{fresh(planner.Intermediate, 16), "H7 S6 P3", ""},
	}
	for _, c := range tests {
		row := ownRows(mustCompare(t, c.r, c.text))[0]
		if text := strings.Join(row.Risks, " "); !strings.Contains(text, c.want) || c.want == "" && text != "" {
			t.Errorf("%s: %q, want %q", c.text, row.Risks, c.want)
		}
	}
}

// TestNoRealDifference: under 0.5 % or 2.5 kg of total a plan is the same.
func TestNoRealDifference(t *testing.T) {
	light := fresh(planner.Intermediate, 16)
	light.Lifter.Squat, light.Lifter.Bench, light.Lifter.Deadlift = 60*planner.Kilogram, 35*planner.Kilogram, 75*planner.Kilogram
	same := func(r Request, text string) bool { return ownRows(mustCompare(t, r, text))[0].Same }
	if r := lifting(fresh(planner.Intermediate, 16)); !same(r, "H6 S6 P4") || same(r, "S12 P4") {
		t.Error("500 kg: H6 S6 P4 is the same, S12 P4 is not")
	}
	// 0.83 % of 170 kg are 1.4 kg, less than a step of the bar.
	if !same(light, "S12 P4") {
		t.Error("170 kg: S12 P4 is the same")
	}
}

// TestPinsOfARow: the pins of a legal split lead Build to it.
func TestPinsOfARow(t *testing.T) {
	r := fresh(planner.Advanced, 20, 45)
	row := ownRows(mustCompare(t, r, "H6 S8 P6 R1 H9 S9 P6"))[0]
	r.Pins = row.Pins
	if got := lengths(mustBuild(t, r).Blocks); got != row.Split.String() {
		t.Errorf("pins lead to %s, want %s", got, row.Split)
	}
}
