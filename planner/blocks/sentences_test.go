package blocks

import (
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"

	"blockbell/planner"
)

// TestReasonsAreTheBindingRule: which rule binds, and the sentence that says so. What
// is told of other rules would be untrue there.
func TestReasonsAreTheBindingRule(t *testing.T) {
	h, s, pk, rec := planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery
	running := func(k planner.BlockKind, weeks int) func(*Request) {
		return func(r *Request) { r.Running = &Running{k, r.Today.AddDays(-7 * weeks)} }
	}
	tests := []struct {
		rule   string
		weeks  int
		change func(*Request)
		said   string
		not    string
	}{
		{"weeks left: no muscle block", 8, func(*Request) {}, "No muscle block (hypertrophy): with 8 weeks until Meet 1 the usual order is the strength block and peaking (common practice); it has room from 11 weeks on.", "forbidden"},
		{"weeks left: peaking alone", 4, func(*Request) {}, "No strength block: with 4 weeks until Meet 1 the usual order is peaking alone (common practice); it has room from 7 weeks on.", "forbidden"},
		{"what runs leads on", 8, running(s, 3), "No muscle block (hypertrophy): with 8 weeks until Meet 1 the usual order is the strength block and peaking (common practice).", "room from"},
		{"a forbidden kind", 20, func(r *Request) { r.Bounds = []Bound{{h, 0, "the club"}} }, "No muscle block (hypertrophy): forbidden by the club.", "common practice);"},
		{"a pin instead of the kind", 12, func(r *Request) { r.Pins = []Pin{{Ordinal: 1, Kind: s}} }, "No muscle block (hypertrophy): what is fixed by hand leaves no room for it.", "common practice);"},
		{"a cap that keeps a kind out", 12, func(r *Request) {
			r.Bounds = []Bound{{pk, 3, "the club"}, {h, 3, ""}, {s, 9, ""}}
			r.Pins = []Pin{{Kind: s, Weeks: 9}}
		}, "what is fixed by hand leaves no room", "usual order"},
		{"running peaking near the meet", 3, running(pk, 12), "above your limit of 6: it runs already, and the 3 weeks until Meet 1 are too few to build again and peak anew.", "all of them"},
		{"running peaking at the meet", 2, running(pk, 12), "Peaking goes on for 8 weeks past your limit of 6, because the meet is so near: keep muscle work in.", "anew"},
		{"all weeks left are for peaking", 5, func(r *Request) { r.Lifter.Level = planner.Novice }, "Peaking lasts 5 weeks, above your limit of 4: with 5 weeks left until Meet 1 all of them are for peaking (common practice).", "fixed"},
		{"peaking asked for by name", 20, func(r *Request) { r.Pins = []Pin{{Kind: pk, Weeks: 8}} }, "Peaking before Meet 1 lasts 8 weeks, above your limit of 6, as fixed by hand.", "too few"},
		{"a running block cut by the weeks left", 6, running(h, 1), "ends after 1 week, though that is short: the weeks left are needed for what comes next.", "fixed by hand"},
		{"a running block cut by a pin", 20, func(r *Request) { running(h, 1)(r); r.Pins = []Pin{{Ordinal: 2, Kind: s, Start: r.Today}} }, "ends after 1 week, though that is short: what is fixed by hand leaves no other way.", "weeks left are needed"},
		{"peaking ends, the meet is far", 12, running(pk, 4), "ends now, after 4 weeks: Meet 1 is still 12 weeks away, so there is time to build again and peak anew.", "no meet"},
		{"peaking ends, there is no meet", 12, func(r *Request) { running(pk, 4)(r); r.Meets = nil }, "ends now, after 4 weeks: there is no meet that it could lead to.", "still"},
		{"peaking ends after a time away", 6, func(r *Request) { running(pk, 3)(r); r.Away = []Away{{monday - 15, monday - 1}} }, "ends now, after 1 week: so soon after the time away nobody peaks.", "build again"},
		{"peaking ends before a time away", 12, func(r *Request) { running(pk, 4)(r); r.Away = []Away{{monday + 7, monday + 40}} }, "there is no meet before the time away.", "lead to"},
		{"peaking ends under a bound", 5, func(r *Request) { running(pk, 2)(r); r.Bounds = []Bound{{pk, 4, "the club"}} }, "until Meet 1 it would last longer than the bound \"peaking at most 4 weeks\" by the club allows.", "build again"},
		{"half of the muscle work from 60 on", 20, func(r *Request) { r.Lifter.Born = r.Today.AddDays(-366 * 62); r.Pins = []Pin{{Kind: pk, Weeks: 12}} }, "Peaking of 12 weeks is long: keep half of the muscle work in it.", "a third"},
		{"a third under 60", 20, func(r *Request) { r.Pins = []Pin{{Kind: pk, Weeks: 12}} }, "Peaking of 12 weeks is long: keep a third of the muscle work in it.", "half"},
		{"a length by hand", 20, func(r *Request) { r.Pins = []Pin{{Kind: h, Weeks: 4}} }, "shorter than the usual 8, as fixed by hand", "need the weeks"},
		{"a length by a bound", 20, func(r *Request) { r.Bounds = []Bound{{h, 5, ""}} }, "shorter than the usual 8, as long as a bound allows", "need the weeks"},
		{"a length by a time away", 20, func(r *Request) { running(s, 1)(r); r.Away = []Away{{monday + 7, monday + 40}} }, "2 weeks of heavier sets, so that your muscle learns to lift more: shorter than the usual 6, because the time away ends it.", "2 weeks of heavier sets, so that your muscle learns to lift more: shorter than the usual 6, because the other"},
		{"a block that ran on", 7, running(s, 10), "longer than the usual 6, because it has run for so long already", "there is time"},
		{"a boundary at a time away", 20, func(r *Request) { r.Away = []Away{{monday + 35, monday + 35 + 29}} }, "The time away from Mon 8 February to Tue 9 March is fixed.", "The meet on"},
		{"a boundary at a practice meet", 20, func(r *Request) {
			r.Meets = append(r.Meets, planner.Meet{ID: 9, Name: "Club Day", Kind: planner.TuneUp, Date: monday + 7*12 - 2})
			r.Pins = []Pin{{Kind: pk, Start: monday + 7*9, Weeks: 3}}
		}, "The practice meet on Sat 27 March is fixed.", "The meet on Sat 27"},
		{"a boundary fixed by hand", 16, func(r *Request) { r.Pins = []Pin{{Kind: s, Start: monday + 7*5}} }, "It is fixed by hand.", "The coach"},
		{"a boundary under a bound", 20, func(r *Request) { r.Bounds = []Bound{{h, 5, "the club"}} }, "The bound \"hypertrophy at most 5 weeks\" by the club leaves no other way.", "at its longest"},
		{"a boundary at the shortest", 16, func(*Request) {}, "Peaking is at its shortest, 3 weeks.", "by hand"},
		{"a pin against the usual order", 12, func(r *Request) {
			r.Running = &Running{pk, r.Today.AddDays(-7)}
			r.Meets[0].Date = monday + 40
			r.Pins = []Pin{{Ordinal: 3, Kind: pk, Weeks: 3}}
		}, "The order of blocks is not the usual one: what is fixed by hand leaves no other way.", "calendar"},
		{"recovery at the shortest", 20, func(r *Request) { running(rec, 0)(r) }, "", "The recovery is"},
	}
	for _, c := range tests {
		t.Run(c.rule, func(t *testing.T) {
			r := fresh(planner.Intermediate, c.weeks)
			c.change(&r)
			p := mustBuild(t, r)
			said := strings.Join(everySentence(p, r), "\n")
			if !strings.Contains(said, c.said) || c.not != "" && strings.Contains(said, c.not) {
				t.Errorf("%s: want %q and not %q in\n%s", lengths(p.Blocks), c.said, c.not, said)
			}
		})
	}
}

// everySentence is all that a plan and its explanation say.
func everySentence(p Plan, r Request) []string {
	out := append(append(append([]string{}, p.Relaxed...), p.Notes...), p.LeftOutWhy...)
	e := Explain(p, r)
	for _, b := range p.Blocks {
		out = append(out, b.Reason)
	}
	for _, b := range e.Blocks {
		out = append(out, b.Sentence, b.Upkeep)
	}
	for _, b := range e.Boundaries {
		out = append(out, b.Sentence)
	}
	return append(out, e.Trade, e.Limit, p.KeepWhy)
}

// eachRandomPlan visits plans of random requests with times away, pins and bounds.
func eachRandomPlan(t *testing.T, seed uint64, rounds int, visit func(Request, Plan)) {
	t.Helper()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for range rounds {
		r := randomRequest(rng)
		if rng.IntN(2) == 0 {
			r.addRandomAway(rng)
		}
		if rng.IntN(3) == 0 {
			r.addRandomBounds(rng)
		}
		if p, err := Build(r); err == nil {
			visit(r, p)
		}
	}
}

// TestSentencesBeginLarge: whatever a plan says begins with a capital letter or a
// number, ends with a stop, has no day in digits and says nothing twice.
func TestSentencesBeginLarge(t *testing.T) {
	t.Parallel()
	eachRandomPlan(t, 3, 600/sparse(6), func(r Request, p Plan) {
		if len(r.Meets) > 0 {
			r.Meets[0].Name = ""
			var err error
			if p, err = Build(r); err != nil {
				return
			}
		}
		seen := map[string]bool{}
		for _, x := range everySentence(p, r) {
			if x == "" {
				continue
			}
			first := []rune(x)[0]
			if unicode.IsLower(first) || first == ' ' || !strings.HasSuffix(x, ".") || strings.Contains(x, "202") && strings.Contains(x, "-0") {
				t.Fatalf("%s\n%q", describe(r), x)
			}
			if seen[x] && strings.Contains(x, "calendar") {
				t.Fatalf("%s\nsaid twice: %q", describe(r), x)
			}
			seen[x] = true
		}
	})
}
