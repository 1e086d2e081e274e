package blocks

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"blockbell/planner"
)

// TestPinnedPeaksKeepTheLimit: whatever is pinned on a running plan, peaking passes
// the lifter's limit only where it would without the pins, or where a pin asks for
// peaking of that length by name; what passes it is said. Else the pins are an error.
func TestPinnedPeaksKeepTheLimit(t *testing.T) {
	t.Parallel()
	const seed = 8
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	plans, refused := 0, 0
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced, planner.Elite} {
		for runway := 2; runway <= 26; runway += 3 {
			for _, kind := range kindOf[:4] {
				r := fresh(level, runway)
				r.Running = &Running{kind, r.Today.AddDays(-7 * rng.IntN(15))}
				bare := mustBuild(t, r)
				for range 24 / sparse(6) {
					r.Pins = []Pin{anyPin(rng, r.Today, runway)}
					if rng.IntN(3) == 0 {
						r.Pins = append(r.Pins, anyPin(rng, r.Today, runway))
					}
					p, err := Build(r)
					if err != nil {
						refused++
						namesPins(t, r, err)
						continue
					}
					plans++
					keepsLimit(t, r, p, bare)
				}
			}
		}
	}
	t.Logf("%d plans, %d refused", plans, refused)
	if plans < 100 || refused < 100 {
		t.Errorf("%d plans and %d errors are too few to tell", plans, refused)
	}
}

// anyPin is a pin of any sort within the runway.
func anyPin(rng *rand.Rand, today planner.Date, runway int) Pin {
	p := Pin{Ordinal: rng.IntN(4)}
	if rng.IntN(3) > 0 {
		p.Kind = kindOf[rng.IntN(4)]
	}
	if rng.IntN(2) == 0 {
		p.Weeks = 1 + rng.IntN(14)
	}
	if rng.IntN(3) == 0 {
		p.Start = today.AddDays(7 * rng.IntN(runway))
	}
	return p
}

// namesPins holds the error of a request against its pins: it names one of them, and
// says what to do.
func namesPins(t *testing.T, r Request, err error) {
	t.Helper()
	var e *planner.Error
	if !errors.As(err, &e) || !strings.Contains(e.Sentence, "pin") || e.Hint == "" {
		t.Fatalf("%s\n%v, want an error about pins with a hint", describe(r), err)
	}
}

func keepsLimit(t *testing.T, r Request, p, bare Plan) {
	t.Helper()
	longest := p.Limit.Weeks
	if p.Blocks[0].Kind == planner.Peaking && p.Blocks[0].Start < r.Today {
		longest += stretchPast // what runs may finish
	}
	for _, b := range bare.Blocks {
		if b.Kind == planner.Peaking {
			longest = max(longest, b.Weeks)
		}
	}
	for i, b := range p.Blocks {
		if b.Kind != planner.Peaking || b.Weeks <= p.Limit.Weeks {
			continue
		}
		if said := strings.Join(append(p.Relaxed, p.Notes...), " "); !strings.Contains(said, "limit of") {
			t.Fatalf("%s\n%s: nothing says that peaking passes the limit of %d: %s", describe(r), lengths(p.Blocks), p.Limit.Weeks, said)
		}
		if b.Weeks > longest && !asksForPeak(r, b, i) {
			t.Fatalf("%s\n%s: peaking of %d weeks that no pin asks for; without pins %s", describe(r), lengths(p.Blocks), b.Weeks, lengths(bare.Blocks))
		}
	}
}

// asksForPeak tells whether a pin asks for peaking block i of the plan by name or
// number of the running block.
func asksForPeak(r Request, b planner.Block, i int) bool {
	for _, p := range r.Pins {
		weeks := p.Weeks == 0 || p.Weeks == b.Weeks
		if weeks && (p.Kind == planner.Peaking || p.Ordinal == 1 && i == 0 && b.Start < r.Today) {
			return true
		}
	}
	return false
}
