package blocks

import (
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/planner"
)

// togetherRequest has all at once: a running block, two main meets, a time away of
// four weeks and more, and pins near what the planner would choose.
func togetherRequest(rng *rand.Rand) Request {
	levels := planner.Levels()
	r := Request{Today: monday.AddDays(rng.IntN(400)), Rules: Rules{WeekStart: time.Weekday(rng.IntN(7))}}
	r.Lifter = planner.Lifter{Level: levels[rng.IntN(len(levels))], HasCompeted: rng.IntN(6) > 0}
	if rng.IntN(6) == 0 {
		r.Lifter.Born = r.Today.AddDays(-365 * 64)
	}
	r.Running = &Running{Kind: kindOf[rng.IntN(4)], Start: r.Today.AddDays(-rng.IntN(50))}
	for range rng.IntN(3) {
		r.History = append(r.History, Past{Kind: kindOf[rng.IntN(3)], Weeks: 1 + rng.IntN(8)})
	}
	first := 20 + rng.IntN(70)
	second := first + 20 + rng.IntN(80)
	r.Meets = []planner.Meet{
		{ID: 1, Name: "First", Kind: planner.Main, Date: r.Today.AddDays(first)},
		{ID: 2, Name: "Last", Kind: planner.Main, Date: r.Today.AddDays(second)},
	}
	from := r.Today.AddDays(rng.IntN(second+30) - 40)
	r.Away = []Away{{From: from, To: from.AddDays(27 + rng.IntN(40))}}
	p, err := Build(r)
	if err != nil || len(p.Blocks) == 0 {
		return r
	}
	for range 3 { // most pins fit nowhere: try again, and let some stand
		r.Pins = nil
		for range 1 + rng.IntN(2) {
			r.Pins = append(r.Pins, randomPin(rng, r, p))
		}
		if s, err := newSeason(r); err == nil {
			if _, ok := s.climb(); ok {
				break
			}
		}
	}
	return r
}

// TestAllTogetherMatchesEnumeration: pins, a running block, four weeks away and two
// main meets at once, against full enumeration.
func TestAllTogetherMatchesEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 4041
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	plans, exact, relaxed, refused := 0, 0, 0, 0
	for range 1000 / sparse(8) {
		switch n := compare(t, togetherRequest(rng)); {
		case n > 0:
			plans, exact = plans+n, exact+1
		case n < 0:
			refused++
		default:
			relaxed++
		}
	}
	t.Logf("%d plans looked at for %d instances; %d had to relax a rule, %d were impossible", plans, exact, relaxed, refused)
	if exact < 500/sparse(8) {
		t.Errorf("only %d instances had plans to compare", exact)
	}
}

// TestFewerPinsNeverCost: on running plans, with and without times away, a pin less
// never makes the best plan worse by more than the 0.3 % by which the usual order of
// blocks may stand behind another. Left out are plans that are legal only by the pin,
// and those for which a rule had to give way.
func TestFewerPinsNeverCost(t *testing.T) {
	t.Parallel()
	const seed = 77
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	held, away := 0, 0
	for range 700 / sparse(7) {
		r := togetherRequest(rng)
		if rng.IntN(2) == 0 {
			r.Away = nil
		}
		s, err := newSeason(r)
		if err != nil {
			continue
		}
		p, err := s.solve()
		if err != nil || p.loosened != (loosening{}) {
			continue
		}
		for _, pin := range r.Pins {
			fewer := r
			fewer.Pins = without(r.Pins, pin)
			c, err := newSeason(fewer)
			if err != nil {
				t.Fatal(err)
			}
			c.weigh()
			if !c.newGraph(loosening{free: true}).allows(p.steps) && !c.newGraph(loosening{}).allows(p.steps) {
				continue
			}
			q, err := c.solve()
			if err != nil {
				t.Fatalf("%s\nwithout %s: %v", describe(r), pinText(pin), err)
			}
			held++
			away += len(r.Away)
			if q.objective < p.objective-deviation-tie {
				t.Fatalf("%s\n%s %.6f, without %s: %s %.6f", describe(r), lengths(s.blocks(p.steps)), p.objective, pinText(pin), lengths(c.blocks(q.steps)), q.objective)
			}
		}
	}
	t.Logf("%d pins left out, %d of them beside a time away", held, away)
	if held < 250/sparse(7) || away < 100/sparse(7) {
		t.Errorf("%d pins and %d times away are too few to tell", held, away)
	}
}
