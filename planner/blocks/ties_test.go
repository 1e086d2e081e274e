package blocks

import (
	"testing"

	"blockbell/planner"
)

// TestTies: where the model sees no difference at all, the order of preference
// decides, the same in the planner and in the oracle: fewer blocks, then more
// hypertrophy, then more strength, then the longer earlier block.
func TestTies(t *testing.T) {
	for _, level := range trained {
		for n := 7; n <= 24; n++ {
			r := fresh(level, n)
			s, err := newSeason(r)
			if err != nil {
				t.Fatal(err)
			}
			flat(&s.model)
			f, err := s.solve()
			if err != nil {
				t.Fatal(err)
			}
			o := newOracle(r, s.model, stretchLimits(r))
			want, _ := o.best()
			if got := lengths(s.blocks(f.steps)); got != o.lengths(want.blocks) {
				t.Errorf("%s, %d weeks: %s, oracle %s", level, n, got, o.lengths(want.blocks))
			}
		}
	}
}

// flat takes from a model everything that tells plans apart.
func flat(m *Model) {
	m.Rm, m.Rc, m.Dm, m.DS, m.Kappa, m.LeftOutCost = 0, 0, 0, 0, 0, 0
	m.ET = [4]float64{}
	m.Start.State = State{}
}

func TestTieOrder(t *testing.T) {
	r := fresh(planner.Intermediate, 26)
	s, err := newSeason(r)
	if err != nil {
		t.Fatal(err)
	}
	flat(&s.model)
	f, err := s.solve()
	if err != nil {
		t.Fatal(err)
	}
	// Three blocks at least; then hypertrophy as long as allowed, 12; then
	// strength, as peaking needs 3 only.
	if got := lengths(s.blocks(f.steps)); got != "H12 S11 P3" {
		t.Errorf("all equal: %s, want H12 S11 P3", got)
	}
}
