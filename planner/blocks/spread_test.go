package blocks

import (
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// drawnPlan is the best plan of a request with its season, ready to be sampled.
func drawnPlan(t *testing.T, r Request) (*season, found, playing) {
	t.Helper()
	s, err := newSeason(r)
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.solve()
	if err != nil {
		t.Fatal(err)
	}
	return s, f, s.playing(s.blocks(f.steps))
}

// TestDrawsAreStratified: every range is cut into equally likely parts, each drawn
// once, so that 8 of 10 factors lie inside the range and half above 1.
func TestDrawsAreStratified(t *testing.T) {
	const n = 400
	z := draws(n)
	for k, r := range Ranges() {
		inside, above := 0, 0
		for i := range z {
			f := r.times(z[i][k])
			if f > 1/r.Factor && f < r.Factor {
				inside++
			}
			if z[i][k] > 0 {
				above++
			}
		}
		if inside != 8*n/10 || above != n/2 {
			t.Errorf("%s: %d inside, %d above, of %d", r.Name, inside, above, n)
		}
	}
	if again := draws(n); again[17] != z[17] {
		t.Error("the same draws twice differ")
	}
}

// TestDrawsArePinned: the same numbers on every machine, to rounding.
func TestDrawsArePinned(t *testing.T) {
	want := [...]float64{-0.109885729765991, -0.256583906403538, 1.765379537890103, -0.415877014346076}
	got := draws(400)
	for i, w := range want {
		if math.Abs(got[i][zRm]-w) > 1e-12 {
			t.Errorf("draw %d is %.15f, want %.15f", i, got[i][zRm], w)
		}
	}
}

// TestSampleMatchesOracle: under every drawn model the objective is that of the
// simulator written from the published description, which shares no code.
func TestSampleMatchesOracle(t *testing.T) {
	for _, r := range []Request{fresh(planner.Novice, 14), fresh(planner.Intermediate, 16, 40), fresh(planner.Elite, 18)} {
		s, _, p := drawnPlan(t, r)
		models := s.models(50, Ranges())
		o := newOracle(r, s.model, stretchLimits(r))
		best, _ := o.best()
		for i, m := range models {
			m.Grace = 3 // the oracle knows no other
			o.m = m.Model
			if want := o.simulate(best.blocks); math.Abs(s.outcome(p, &m).objective-want) > sameValue {
				t.Fatalf("draw %d: %g, oracle %g", i, s.outcome(p, &m).objective, want)
			}
		}
		if got := s.sample(p, models); got[0].objective == got[1].objective {
			t.Error("two draws are the same")
		}
	}
}

// TestPlayMatchesTrace: playing a plan through is what scoring it is, with practice
// meets, test days, history and times away.
func TestPlayMatchesTrace(t *testing.T) {
	const seed = 78
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for range 150 {
		r := randomRequest(rng)
		if rng.IntN(2) == 0 {
			from := r.Today.AddDays(rng.IntN(100))
			r.Away = []Away{{from, from.AddDays(6 + rng.IntN(50))}}
		}
		s, err := newSeason(r)
		if err != nil {
			continue
		}
		f, err := s.solve()
		if err != nil {
			continue
		}
		blocks := s.blocks(f.steps)
		model := s.model.tabled()
		own := s.outcome(s.playing(blocks), &model)
		if want := s.model.Objective(blocks, s.marks).Total; math.Abs(own.objective-want) > sameValue {
			t.Errorf("%s\n%s: %g, want %g", describe(r), lengths(blocks), own.objective, want)
		}
		still := make([]Range, zCount)
		for k := range still {
			still[k].Factor = 1
		}
		m := s.models(2, still)[0]
		a, b := m.Start.State, s.model.Start.State
		if math.Abs(a.M-b.M) > sameValue || math.Abs(a.C-b.C) > sameValue || a.S != b.S || math.Abs(a.E-b.E) > sameValue {
			t.Errorf("%s: starts at %v, want %v", describe(r), m.Start.State, s.model.Start.State)
		}
	}
}

// TestWiderRangesWiderIntervals: narrower ranges narrow the interval of every gain.
func TestWiderRangesWiderIntervals(t *testing.T) {
	s, _, p := drawnPlan(t, fresh(planner.Intermediate, 16, 40))
	width, own := 0.0, s.model.tabled()
	for _, part := range []float64{0, 0.3, 0.6, 1, 1.5} {
		ranges := Ranges()
		for k := range ranges {
			ranges[k].Factor = math.Pow(ranges[k].Factor, part)
		}
		g := s.sample(p, s.models(sampleSize, ranges)).gain(s.outcome(p, &own), s.marks[1], 1)
		if w := g.Whole.High - g.Whole.Low; w <= width && part > 0 || w > 1e-9 && part == 0 {
			t.Errorf("ranges to the power %g: interval %g wide, before %g", part, w, width)
		} else {
			width = w
		}
	}
}

// TestSampleConverges: with the draws that are made, the interval of a gain and
// the share of draws won lie near those of 20,000.
func TestSampleConverges(t *testing.T) {
	const many = 20000
	for _, r := range []Request{fresh(planner.Novice, 12), fresh(planner.Intermediate, 16), fresh(planner.Elite, 52)} {
		s, f, p := drawnPlan(t, r)
		other := s.playing(s.runnersUp(f, 0)[0].Blocks)
		at := func(n int) (Interval, float64) {
			models, own := s.models(n, Ranges()), s.model.tabled()
			a := s.sample(p, models)
			return a.gain(s.outcome(p, &own), s.marks[0], 0).Whole, s.sample(other, models).beats(a)
		}
		want, share := at(many)
		for _, n := range []int{50, 100, 200, sampleSize, 800} {
			got, won := at(n)
			off := max(math.Abs(got.Low-want.Low), math.Abs(got.Median-want.Median), math.Abs(got.High-want.High))
			t.Logf("%s, %d draws: %+v, off by %.3f %%; share %.3f, off by %.3f", lengths(s.blocks(f.steps)), n, got, off, won, math.Abs(won-share))
			if n == sampleSize && (off > 0.1 || math.Abs(won-share) > 0.03) {
				t.Errorf("%d draws are off by %.3f %% and %.3f", n, off, math.Abs(won-share))
			}
		}
	}
}

// TestShareOfItself: a plan beats itself in half of the draws, by definition, and
// the same plan twice makes the same row.
func TestShareOfItself(t *testing.T) {
	r := fresh(planner.Advanced, 20)
	c := mustCompare(t, r)
	again := mustCompare(t, r, c.Rows[0].Split.String(), c.Rows[0].Split.String())
	rows := ownRows(again)
	for _, row := range rows {
		if row.Share != 0.5 || !row.Same || row.MeetPercent != 0 || row.CostPercent != 0 {
			t.Errorf("the best plan as own split: share %g, same %t, %g, %g", row.Share, row.Same, row.MeetPercent, row.CostPercent)
		}
	}
	if rows[0].Gains[0] != rows[1].Gains[0] || rows[0].Gains[0] != again.Rows[0].Gains[0] {
		t.Error("one plan, two gains")
	}
}

// TestIntervalMass: masses are rounded to the step of the bar, 2.5 kg.
func TestIntervalMass(t *testing.T) {
	low, high := Interval{Low: -0.3, Median: 1, High: 1.13}.Mass(500 * planner.Kilogram)
	if low != planner.Kilograms(-2.5) || high != planner.Kilograms(5) {
		t.Errorf("-1.5 to 5.65 kg is %s to %s", low.Text(planner.KG), high.Text(planner.KG))
	}
}

// plainGain plays H7 S6 P3 through week by week as the model is described, without
// the planner's code.
func plainGain(m Model) (whole, strength float64) {
	muscle, skill, s, e := m.Start.M, m.Start.C, m.Start.S, m.Start.E
	s0, e0 := s, e
	phi := func(w int, acc float64) float64 {
		return (1 - math.Exp(-float64(w+1)/m.TauOn)) * math.Exp(-float64(w)/acc)
	}
	for w := range 7 {
		muscle += m.Rm * phi(w, m.TauAcc[0])
		s -= m.DS
		e += (m.ET[0] - e) / m.ETau[0]
	}
	for w := range 6 {
		skill += m.Rc * phi(w, m.TauAcc[1])
		s += (muscle + skill - s) / m.TauG
		e += (m.ET[1] - e) / m.ETau[1]
	}
	for w := range 3 {
		if w >= m.Grace {
			muscle -= m.Dm
		}
		s += (muscle + skill - s) / m.TauP
		e += (m.ET[2] - e) / m.ETau[2]
	}
	return 100 * (math.Exp(s+e-s0-e0) - 1), 100 * (math.Exp(s-s0) - 1)
}

// TestIntervalMatchesPlainCount: the median has half of the draws on each side, and
// the ends a tenth outside, counted over gains that were worked out plainly.
func TestIntervalMatchesPlainCount(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	s, _, _ := drawnPlan(t, r)
	row := ownRows(mustCompare(t, r, "H7 S6 P3"))[0]
	models := s.models(sampleSize, Ranges())
	var whole, strength []float64
	for _, m := range models {
		w, st := plainGain(m.Model)
		whole, strength = append(whole, w), append(strength, st)
	}
	for _, c := range []struct {
		name string
		list []float64
		got  Interval
	}{{"whole", whole, row.Gains[0].Whole}, {"strength", strength, row.Gains[0].Stronger}} {
		below := func(x float64) (n int) {
			for _, v := range c.list {
				if v < x {
					n++
				}
			}
			return n
		}
		if a, b, z := below(c.got.Low), below(c.got.Median), below(c.got.High); a != sampleSize/10 || b != sampleSize/2 || z != sampleSize*9/10 {
			t.Errorf("%s %+v: %d below the low end, %d below the median, %d below the high end, of %d", c.name, c.got, a, b, z, sampleSize)
		}
	}
	if w, _ := plainGain(s.model); math.Abs(w-row.Gains[0].Percent) > 1e-9 {
		t.Errorf("gain %g, worked out %g", row.Gains[0].Percent, w)
	}
}
