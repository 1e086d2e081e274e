package blocks

import (
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// TestLongCalendars: up to twelve meets in up to three years, where no
// enumeration reaches: the plan adds up, keeps the bounds that always hold, and
// no boundary can be moved for the better.
func TestLongCalendars(t *testing.T) {
	t.Parallel()
	const seed = 2028
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	rounds := 60
	if testing.Short() {
		rounds = 10
	}
	for range rounds {
		r := fresh(planner.Levels()[rng.IntN(5)])
		r.Lifter.LongBlocks = rng.IntN(4) == 0
		at := r.Today
		for i := range 1 + rng.IntN(12) {
			kind := planner.Main
			if rng.IntN(4) == 0 {
				kind = planner.TuneUp
			}
			at = at.AddDays(3 + rng.IntN(300))
			if r.Today.DaysUntil(at) > 7*maxWeeks {
				break
			}
			r.Meets = append(r.Meets, planner.Meet{ID: planner.MeetID(i + 1), Name: "Meet", Kind: kind, Date: at})
		}
		if len(r.Meets) == 0 {
			continue
		}
		r.Meets[len(r.Meets)-1].Kind = planner.Main
		p := mustBuild(t, r)
		addsUp(t, r, p)
		for _, b := range p.Blocks {
			most := map[planner.BlockKind]int{planner.Hypertrophy: 16, planner.Strength: 16, planner.Peaking: longestLimit, planner.Recovery: 2}[b.Kind]
			if b.Weeks > most {
				t.Errorf("%s: %s lasts %d weeks", describe(r), b.Kind, b.Weeks)
			}
		}
		for _, b := range p.Boundaries {
			if b.Earlier != nil && *b.Earlier < -100*tie || b.Later != nil && *b.Later < -100*tie {
				t.Errorf("%s: moving %s helps", describe(r), b.Date)
			}
		}
	}
}
