package blocks

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"blockbell/planner"
)

// said is every sentence of an explanation.
func said(e Explanation) (out []string) {
	for _, b := range e.Blocks {
		out = append(out, b.Sentence)
		if b.Upkeep != "" {
			out = append(out, b.Upkeep)
		}
	}
	for _, b := range e.Boundaries {
		out = append(out, b.Sentence)
	}
	if e.Trade != "" {
		out = append(out, e.Trade)
	}
	return append(append(out, e.Limit), e.LeftOut...)
}

// jargon is never shown to a lifter.
var jargon = []string{"runway", "accommodation", "residual", "macrocycle", "slope", "dominance", "lambda", "kappa", "objective", "stimulus", "expression"}

// TestExplainSaysIt: one sentence a block and a boundary, each a whole sentence in
// plain words, for any request.
func TestExplainSaysIt(t *testing.T) {
	const seed = 4711
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 2))
	for range 200 {
		r := randomRequest(rng)
		p, err := Build(r)
		if err != nil {
			continue
		}
		e := Explain(p, r)
		if len(e.Blocks) != len(p.Blocks) || len(e.Boundaries) != len(p.Boundaries) || len(e.LeftOut) != len(p.LeftOut) {
			t.Fatalf("%s: %d blocks, %d boundaries, %d left out explained", describe(r), len(e.Blocks), len(e.Boundaries), len(e.LeftOut))
		}
		for _, s := range said(e) {
			if s == "" || !strings.HasSuffix(s, ".") || strings.Contains(s, "  ") || strings.Contains(s, "..") || s[0] >= 'a' && s[0] <= 'z' {
				t.Errorf("%s: %q is no sentence", describe(r), s)
			}
			for _, j := range jargon {
				if strings.Contains(strings.ToLower(s), j) {
					t.Errorf("%q says %q", s, j)
				}
			}
		}
	}
}

// TestExplainStored: a plan read back from the store is explained the same.
func TestExplainStored(t *testing.T) {
	r := lifting(fresh(planner.Intermediate, 16, 40))
	p := mustBuild(t, r)
	text, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var again Plan
	if err := json.Unmarshal(text, &again); err != nil {
		t.Fatal(err)
	}
	if a, b := Explain(p, r), Explain(again, r); !reflect.DeepEqual(a, b) {
		t.Errorf("%q\n%q", said(a), said(b))
	}
}

// TestMovesMatchBuild: each move has the cost that the boundary has, in kg the same
// share of the total, and none where a rule closes it.
func TestMovesMatchBuild(t *testing.T) {
	r := lifting(fresh(planner.Advanced, 20, 45))
	p := mustBuild(t, r)
	for i, w := range Explain(p, r).Boundaries {
		for _, c := range []struct {
			m    *Move
			cost *float64
		}{{w.Earlier, p.Boundaries[i].Earlier}, {w.Later, p.Boundaries[i].Later}} {
			if (c.m == nil) != (c.cost == nil) {
				t.Fatalf("boundary %d: %v, %v", i, c.m, c.cost)
			}
			if c.m != nil && (c.m.CostPercent != *c.cost || math.Abs(*c.m.CostKg-5**c.cost) > 1e-9) {
				t.Errorf("boundary %d: %+v, cost %g of 500 kg", i, *c.m, *c.cost)
			}
		}
	}
}

// TestMoveBringsWhatThePlanWould: what a move brings at the meet is what Compare says
// of the moved plan.
func TestMoveBringsWhatThePlanWould(t *testing.T) {
	r := lifting(fresh(planner.Intermediate, 16))
	p := mustBuild(t, r) // H7 S6 P3
	c := mustCompare(t, r, "H6 S7 P3", "H8 S5 P3")
	w := Explain(p, r).Boundaries[0]
	rows := ownRows(c)
	for i, m := range []*Move{w.Earlier, w.Later} {
		if math.Abs(m.MeetPercent-rows[i].MeetPercent) > 1e-9 || math.Abs(m.CostPercent-rows[i].CostPercent) > 1e-9 {
			t.Errorf("%s: move %+v, row %g and %g", rows[i].Split, *m, rows[i].MeetPercent, rows[i].CostPercent)
		}
	}
}

// TestExplainWords: the sentences a lifter reads, few of them word for word.
func TestExplainWords(t *testing.T) {
	light := lifting(fresh(planner.Advanced, 30))
	light.Lifter.Category, light.Lifter.Class = planner.Women, planner.Class{Limit: 57 * planner.Kilogram}
	old := lifting(fresh(planner.Intermediate, 20))
	old.Lifter.Born = monday.AddDays(-365 * 64)
	forbidden := fresh(planner.Intermediate, 16)
	forbidden.Bounds = []Bound{{Kind: planner.Hypertrophy, Source: "the club"}}
	tests := []struct {
		name string
		r    Request
		want []string
	}{
		{"16 weeks", lifting(fresh(planner.Intermediate, 16)), []string{
			"7 weeks of muscle work to build what the heavier sets will use: close to the usual 8. Your heaviest single may drop by about 3 % meanwhile; that is expected, and it comes back.",
			"Keep a third of the sets of a muscle block, so that the muscle stays.",
			"3 weeks of heavy singles and less work, to show your strength at Meet 1: close to the usual 4. You ease off (taper) from Tue 13 April on.",
			"Peaking begins on Mon 5 April. Peaking is at its shortest, 3 weeks. One week earlier would cost about 0.2 kg (0.3 kg more at Meet 1, but less muscle for the next cycle).",
			"5 weeks of muscle work, 7 weeks of strength and 4 weeks of peaking would give about 1.1 kg more at Meet 1. I still prefer this plan: it leaves more muscle for the next cycle.",
			"Peaking lasts at most 6 weeks for you, taper included (intermediate lifters: 6 weeks). That is common practice: no study compares lengths of peaking.",
		}},
		{"no total", fresh(planner.Novice, 8), []string{"would cost about 0.5 %", "No muscle block (hypertrophy): with 8 weeks until Meet 1 the usual order is the strength block and peaking (common practice); it has room from 11 weeks on."}},
		{"two meets", lifting(fresh(planner.Intermediate, 16, 40)), []string{"Recovery begins on Sun 25 April. The meet on Sat 24 April is fixed.", "1 week of easy work after the meet, so that the next block begins fresh."}},
		{"sum of the limit", light, []string{"Peaking lasts at most 7 weeks for you, taper included (advanced lifters: 8 weeks; a light lifter: -1 week)."}},
		{"over 60 years", old, []string{"Keep half of the sets of a muscle block"}},
		{"forbidden", forbidden, []string{"No muscle block (hypertrophy): forbidden by the club."}},
		{"5 weeks", fresh(planner.Elite, 5), []string{"No strength block: with 5 weeks until Meet 1 the usual order is peaking alone (common practice); it has room from 7 weeks on."}},
	}
	for _, c := range tests {
		text := strings.Join(said(Explain(mustBuild(t, c.r), c.r)), "\n")
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in\n%s", c.name, w, text)
			}
		}
	}
}

// TestUpkeepIsSaid: every strength block, and every peaking block of 3 weeks or more,
// says how much muscle work stays.
func TestUpkeepIsSaid(t *testing.T) {
	eachLength(t, 3, 52, func(t *testing.T, level planner.Level, n int, p Plan) {
		for i, w := range Explain(p, fresh(level, n)).Blocks {
			want := w.Kind == planner.Strength || w.Kind == planner.Peaking && p.Blocks[i].Weeks >= 3
			if want != strings.Contains(w.Upkeep, "a third of the sets of a muscle block") {
				t.Errorf("%s, %d weeks, %s: %q", level, n, w.Kind, w.Upkeep)
			}
		}
	})
}
