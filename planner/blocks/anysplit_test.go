package blocks

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// randomSplit adds up to n weeks, in any order and length.
func randomSplit(rng *rand.Rand, n int) (s Split) {
	for n > 0 {
		w := min(n, 1+rng.IntN(14))
		s, n = append(s, Part{kindOf[rng.IntN(4)], w}), n-w
	}
	return s
}

// TestAnySplit: whatever a coach types for whatever calendar is scored or refused
// with words; its blocks follow one another and have the weeks typed, and its
// objective is that of the published model.
func TestAnySplit(t *testing.T) {
	const seed = 90210
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	scored := 0
	for range 250 {
		r := randomRequest(rng)
		if rng.IntN(3) == 0 {
			from := r.Today.AddDays(rng.IntN(80))
			r.Away = []Away{{from, from.AddDays(6 + rng.IntN(50))}}
		}
		p, err := Build(r)
		if err != nil {
			continue
		}
		n := len(p.Model.schedule(p.Blocks)) - len(p.Model.Away) + rng.IntN(2)*p.Model.Start.Week
		sp := randomSplit(rng, n)
		if len(sp) == 0 {
			continue
		}
		c, err := Compare(r, []Split{sp})
		if err != nil {
			var e *planner.Error
			if !errors.As(err, &e) || e.Sentence == "" {
				t.Errorf("%s\n%s: %v", describe(r), sp, err)
			}
			continue
		}
		scored++
		row := ownRows(c)[0]
		checkAnyRow(t, r, sp, row, c)
	}
	if scored < 60 {
		t.Errorf("only %d splits scored", scored)
	}
}

func checkAnyRow(t *testing.T, r Request, sp Split, row Row, c Comparison) {
	t.Helper()
	var marks []Mark
	s, err := newSeason(r)
	if err == nil {
		marks = s.marks
	}
	if len(marks) > 0 && len(s.weeks) == c.Weeks {
		if want := c.Model.Objective(row.Blocks, marks).Total; math.Abs(row.Objective-want) > sameValue {
			t.Errorf("%s\n%s: objective %g, want %g", describe(r), sp, row.Objective, want)
		}
	}
	for i := 1; i < len(row.Blocks); i++ {
		a, b := row.Blocks[i-1], row.Blocks[i]
		if b.Start <= a.End || b.End < b.Start {
			t.Errorf("%s\n%s: %s to %s, then %s to %s", describe(r), sp, a.Start, a.End, b.Start, b.End)
		}
	}
	if len(row.Broken) == 0 && row.CostPercent < -100*tie {
		t.Errorf("%s\n%s keeps every rule and is better than the best %s by %g", describe(r), sp, c.Rows[0].Split, -row.CostPercent)
	}
	if (len(row.Broken) == 0) != (len(row.Breaches) == 0) || row.Verdict == "" || row.Share < 0 || row.Share > 1 {
		t.Errorf("%s\n%s: %+v", describe(r), sp, row)
	}
	for _, b := range row.Breaches {
		if b.Block >= len(row.Split) {
			t.Errorf("%s\n%s: breach of block %d of %d: %s", describe(r), sp, b.Block, len(row.Split), b.Sentence)
		}
	}
}
