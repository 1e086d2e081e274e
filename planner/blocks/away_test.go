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
	for range 1500 {
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
