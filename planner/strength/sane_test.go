package strength_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// drawHistory makes any log: warm-ups, misses, gear, pending sets, typing slips, in
// any order.
func drawHistory(t *rapid.T) strength.History {
	h := history()
	h.Level = rapid.SampledFrom(append(planner.Levels(), "")).Draw(t, "level")
	h.Today = monday.AddDays(rapid.IntRange(-5, 500).Draw(t, "today"))
	for range rapid.IntRange(0, 60).Draw(t, "sets") {
		s := squat(rapid.IntRange(0, 450).Draw(t, "day"), float64(rapid.IntRange(1, 700).Draw(t, "kg")), rapid.IntRange(0, 20).Draw(t, "reps"), nil)
		if rapid.Bool().Draw(t, "rated") {
			s.Reserve = left(float64(rapid.IntRange(0, 12).Draw(t, "left")) / 2)
		}
		s.Missed, s.Pending = rapid.IntRange(0, 9).Draw(t, "missed") == 0, rapid.IntRange(0, 9).Draw(t, "pending") == 0
		s.Seq = len(h.Sets)
		h.Sets = append(h.Sets, s)
	}
	h.Blocks, h.Deloads = cycles(3), []strength.Span{{From: monday.AddDays(49), To: monday.AddDays(55)}}
	h.Meets = []planner.Meet{{Date: monday.AddDays(200)}}
	h.Away = []strength.Span{{From: monday.AddDays(210), To: monday.AddDays(250)}, {From: monday.AddDays(460)}}
	if rapid.Bool().Draw(t, "claims") {
		h.Claim = &strength.Claim{Max: planner.Kilograms(150), Told: monday.AddDays(rapid.IntRange(-100, 300).Draw(t, "told"))}
	}
	return h
}

// Whatever is in a log, a reading is finite, says something and contradicts itself
// nowhere; the order of the log does not matter.
func TestReadingsAreSane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t)
		r := strength.Read(h)
		for _, x := range []float64{r.Kg, r.SD, r.Slope, r.SlopeSD, r.Test.Plateau, r.Test.Fall, r.Test.Rise} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%+v", r)
			}
		}
		if r.Reason == "" || r.Verdict == "" || r.Known != (r.Kg > 0 && r.SD > 0) || len(r.Trend) != len(r.Points) {
			t.Fatalf("%+v", r)
		}
		slices.Reverse(h.Sets)
		if again := strength.Read(h); again.Kg != r.Kg || again.Reason != r.Reason {
			t.Fatalf("the order of the log matters: %+v and %+v", r, again)
		}
		for i, p := range r.Points {
			if i > 0 && !p.Claim && !r.Points[i-1].Claim && p.Day <= r.Points[i-1].Day {
				t.Fatalf("two observations on %s", p.Day)
			}
			if !(p.SD > 0) || p.Weight <= 0 || p.Weight > 1 {
				t.Fatalf("%+v", p)
			}
		}
	})
}
