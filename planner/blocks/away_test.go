package blocks

import (
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// addRandomAway gives a request one or two times away near the day of the plan.
func (r *Request) addRandomAway(rng *rand.Rand) {
	for range 1 + rng.IntN(2) {
		from := r.Today.AddDays(rng.IntN(150) - 60)
		days := 1 + rng.IntN(30)
		if rng.IntN(3) == 0 {
			days = 28 + rng.IntN(50)
		}
		r.Away = append(r.Away, Away{From: from, To: from.AddDays(days - 1)})
	}
}

// TestAwayPlansHold: with times away, over, under way and ahead, there is always a
// plan without pins; its parts add up again from what is published; no block is
// laid over four weeks away; peaking keeps off the first weeks back unless that is
// said.
func TestAwayPlansHold(t *testing.T) {
	const seed = 1101
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for range 1500 / sparse(5) {
		r := randomRequest(rng)
		r.Pins = nil
		r.addRandomAway(rng)
		s, err := newSeason(r)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.solve()
		if err != nil {
			t.Fatalf("%s, away %v: %v", describe(r), r.Away, err)
		}
		p := s.answer(f)
		if math.Abs(p.Objective-f.objective) > sameValue {
			t.Fatalf("%s, away %v\n%s: published %.12f, found %.12f", describe(r), r.Away, lengths(p.Blocks), p.Objective, f.objective)
		}
		checkAwayDates(t, r, p)
	}
}

func checkAwayDates(t *testing.T, r Request, p Plan) {
	t.Helper()
	away := map[planner.Date]bool{}
	for _, w := range p.Model.Away {
		away[w.Start] = true
	}
	for i, b := range p.Blocks {
		if i > 0 && b.Start <= p.Blocks[i-1].End {
			t.Fatalf("%s, away %v\n%v", describe(r), r.Away, p.Blocks)
		}
		n, begins := 0, 0
		for d := max(b.Start, r.Today); d <= b.End; d++ {
			if d.Weekday() == r.Rules.WeekStart {
				begins++
				if !away[d] {
					n++
				}
			}
		}
		if b.Start >= r.Today && n != b.Weeks && !(b.Weeks == 1 && begins == 0) {
			t.Fatalf("%s, away %v\n%v: %d weeks", describe(r), r.Away, b, n)
		}
		for _, a := range spans(r.Away) {
			if a.days() >= 28 && b.Start <= a.To && b.End >= a.From {
				t.Fatalf("%s, away %v\n%v lies over a long time away", describe(r), r.Away, b)
			}
		}
	}
}

// addRandomBounds caps one or two kinds. Gaps between meets have rows of their own
// under bounds and are left to other tests.
func (r *Request) addRandomBounds(rng *rand.Rand) {
	for range 1 + rng.IntN(2) {
		b := Bound{Kind: kindOf[rng.IntN(3)], Max: 3 + rng.IntN(5), Source: "the club"}
		switch {
		case b.Kind == planner.Hypertrophy && rng.IntN(3) == 0:
			b.Max = 0
		case b.Kind == planner.Strength:
			b.Max += 3
		}
		r.Bounds = append(r.Bounds, b)
	}
}

// TestAwayPlansMatchEnumeration holds plans with times away and bounds against full
// enumeration.
func TestAwayPlansMatchEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 20280101
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	rounds := 2000
	if testing.Short() {
		rounds = 200
	}
	plans, relaxed, refused := 0, 0, 0
	for range rounds {
		r := randomRequest(rng)
		if rng.IntN(4) > 0 {
			r.addRandomAway(rng)
		}
		if mains(r) < 2 && rng.IntN(2) == 0 {
			r.addRandomBounds(rng)
		}
		switch n := compare(t, r); {
		case n > 0:
			plans += n
		case n < 0:
			refused++
		default:
			relaxed++
		}
	}
	t.Logf("%d instances, %d plans looked at; %d plans had to relax a rule, %d requests were impossible", rounds, plans, relaxed, refused)
}

func mains(r Request) (n int) {
	for _, m := range r.Meets {
		if m.Kind == planner.Main {
			n++
		}
	}
	return n
}
