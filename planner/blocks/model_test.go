package blocks

import (
	"encoding/json"
	"math"
	"testing"

	"blockbell/planner"
)

// exact is a tolerance for sums of a few dozen floating-point terms.
const exact = 1e-12

// TestWeekByHand follows two weeks of each kind with numbers worked out by hand
// from the published update.
func TestWeekByHand(t *testing.T) {
	m := Model{Rm: 0.002, Rc: 0.001, TauOn: 3, TauAcc: [3]float64{20, 16, 12}, TauG: 5, TauP: 10, Dm: 0.002, DS: 0.001, Grace: 0,
		ET: [4]float64{-0.04, -0.02, 0, -0.03}, ETau: [4]float64{4, 4, 4, 3}, StaleAfter: 16, StaleLoss: 0.0005}
	first := 1 - math.Exp(-1.0/3)
	tests := []struct {
		kind planner.BlockKind
		w    int
		want State
	}{
		{planner.Hypertrophy, 0, State{M: 0.01 + 0.002*first, C: 0.01, S: -0.001, E: -0.02 - 0.005}},
		{planner.Strength, 0, State{M: 0.01, C: 0.01 + 0.001*first, S: (0.02 + 0.001*first) / 5, E: -0.02}},
		{planner.Peaking, 0, State{M: 0.008, C: 0.01, S: 0.0018, E: -0.015}},
		{planner.Peaking, 16, State{M: 0.008, C: 0.01, S: 0.0013, E: -0.015}},
		{planner.Recovery, 0, State{M: 0.01, C: 0.01, E: -0.02 - 0.01/3}},
		{Layoff, 0, State{M: 0.01, C: 0.01, E: -0.02 - 0.04/3}},
		{Layoff, 4, State{M: -0.005, C: 0.01, S: -0.02, E: -0.02 - 0.04/3}},
	}
	for _, c := range tests {
		got := m.Week(State{M: 0.01, C: 0.01, S: 0, E: -0.02}, c.kind, c.w)
		for _, d := range []float64{got.M - c.want.M, got.C - c.want.C, got.S - c.want.S, got.E - c.want.E} {
			if math.Abs(d) > exact {
				t.Errorf("%s week %d: %+v, want %+v", c.kind, c.w, got, c.want)
				break
			}
		}
	}
}

// TestFlowEqualsWeeks: the affine form of a block, with which labels are carried,
// gives what the weeks give one by one.
func TestFlowEqualsWeeks(t *testing.T) {
	r := fresh(planner.Novice, 30)
	s, err := newSeason(r)
	if err != nil {
		t.Fatal(err)
	}
	s.weigh()
	for kind := range 4 {
		x := State{M: 0.013, C: 0.007, S: 0.011, E: -0.017}
		gap, e := x.M+x.C-x.S, x.E
		y := s.model.Lambda*x.M + x.S
		f := still
		for w := range 20 {
			x = s.model.Week(x, kindOf[kind], w)
			f = s.week(f, kind, w, w)
			wantY := s.model.Lambda*x.M + x.S
			for _, d := range []float64{f.a*gap + f.b - (x.M + x.C - x.S), f.f*e + f.h - x.E, y + f.c + f.d*gap + f.k*e - wantY} {
				if math.Abs(d) > exact {
					t.Fatalf("%s, %d weeks: off by %g", kindOf[kind], w+1, d)
				}
			}
		}
	}
}

func TestHistory(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	if got := mustBuild(t, r).Model.Start; got.State != (State{E: -0.02}) || got.Block != "" {
		t.Errorf("nothing known: %+v", got)
	}
	r.Running = &Running{planner.Strength, monday.AddDays(-21)}
	start := mustBuild(t, r).Model.Start
	e := -0.02
	for range 3 {
		e += (-0.018 - e) / 3
	}
	if start.Block != planner.Strength || start.Week != 3 || math.Abs(start.E-e) > exact || start.S != 0 || start.Hypertrophy {
		t.Errorf("3 weeks of strength: %+v, want e %g", start, e)
	}
	r.History = []Past{{planner.Hypertrophy, 40}, {planner.Recovery, 3}, {planner.Hypertrophy, 6}}
	start = mustBuild(t, r).Model.Start
	if !start.Hypertrophy || start.S != 0 || start.M+start.C <= 0 {
		t.Errorf("hypertrophy before the running strength: %+v", start)
	}
	// Only 52 weeks count, and each keeps its place in its block: what lies
	// before changes nothing.
	r.History = append([]Past{{planner.Peaking, 30}}, r.History...)
	r.History[1].Weeks = 40
	if again := mustBuild(t, r).Model.Start; again != start {
		t.Errorf("older weeks changed the start: %+v, %+v", again, start)
	}
}

func TestGainParts(t *testing.T) {
	for _, level := range trained {
		p := mustBuild(t, fresh(level, 16, 40))
		if math.Abs(*p.SharpeningPercent+*p.StrengthPercent-*p.GainPercent) > exact*100 {
			t.Errorf("%s: %g + %g is not %g", level, *p.SharpeningPercent, *p.StrengthPercent, *p.GainPercent)
		}
		if !(*p.GainLow < *p.GainPercent && *p.GainPercent < *p.GainHigh) {
			t.Errorf("%s: %g to %g around %g", level, *p.GainLow, *p.GainHigh, *p.GainPercent)
		}
		if len(p.MeetGains) != 2 || p.MeetGains[1].Percent != *p.GainPercent {
			t.Errorf("%s: gains %+v, whole %g", level, p.MeetGains, *p.GainPercent)
		}
	}
}

// TestModelKeys: other programs read these names.
func TestModelKeys(t *testing.T) {
	text, err := json.Marshal(mustBuild(t, fresh(planner.Novice, 16)))
	if err != nil {
		t.Fatal(err)
	}
	var plan struct {
		Model   map[string]json.RawMessage `json:"model"`
		Relaxed []string                   `json:"relaxed"`
	}
	if err := json.Unmarshal(text, &plan); err != nil {
		t.Fatal(err)
	}
	for _, k := range []string{"level", "rm", "rc", "tauOn", "tauAcc", "tauG", "tauH", "tauP", "dm", "dS", "grace", "eT", "eTau", "lambda", "kappa", "L0", "limit", "start"} {
		if _, ok := plan.Model[k]; !ok {
			t.Errorf("the model has no %q", k)
		}
	}
	var start map[string]any
	if err := json.Unmarshal(plan.Model["start"], &start); err != nil {
		t.Fatal(err)
	}
	for _, k := range []string{"m", "c", "s", "e", "block", "week"} {
		if _, ok := start[k]; !ok {
			t.Errorf("the start has no %q: %v", k, start)
		}
	}
	if plan.Relaxed == nil {
		t.Error("an empty list reads as null")
	}
}

// TestFactors: what of a lifter scales which number.
func TestFactors(t *testing.T) {
	neutral := NewModel(planner.Lifter{Level: planner.Advanced, HasCompeted: true}, monday, Rules{})
	l := planner.Lifter{Level: planner.Advanced, HasCompeted: true, Born: monday.AddDays(-61 * 366), Category: planner.Women,
		Bodyweight: planner.Kilograms(68), Class: planner.Class{Limit: planner.Kilograms(69)}}
	got := NewModel(l, monday, Rules{WomenShorter: true})
	room := 0.5 + 0.5*(1/(0.04*69))
	for what, d := range map[string]float64{
		"rm": got.Rm - neutral.Rm*room*0.6, "rc": got.Rc - neutral.Rc*0.8, "dm": got.Dm - neutral.Dm*1.5, "eTau": got.ETau[iP] - neutral.ETau[iP]*0.85,
	} {
		if math.Abs(d) > exact {
			t.Errorf("%s is off by %g", what, d)
		}
	}
	l.Class = planner.Class{Limit: planner.Kilograms(84), Plus: true}
	if got := NewModel(l, monday, Rules{}); math.Abs(got.Rm-neutral.Rm*0.6) > exact {
		t.Errorf("an open class has no room to count: rm %g", got.Rm)
	}
}
