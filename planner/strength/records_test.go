package strength_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// told writes records shortly: kind, repetitions, kg.
func told(records []strength.Record) []string {
	var out []string
	for _, r := range records {
		out = append(out, string(r.Kind)+" "+planner.Kilograms(r.Kg).Number(planner.KG)+" x"+string(rune('0'+r.Reps)))
	}
	return out
}

func TestRecordsOfALog(t *testing.T) {
	gear := squat(4, 200, 1, nil)
	gear.Gear = planner.SinglePly
	front := squat(5, 110, 1, nil)
	front.Variant = "front"
	pending := squat(6, 300, 1, nil)
	pending.Pending = true
	sets := []planner.Set{
		squat(0, 140, 5, left(2)), squat(1, 150, 1, nil), squat(2, 160, 1, nil), squat(3, 160, 1, nil),
		missed(3, 180), gear, front, pending, squat(7, 60, 13, nil),
	}
	got := strength.Records(strength.Default, sets)
	want := []string{
		"single 160 x1", "reps 140 x5", "estimate 168 x5", // raw
		"single 200 x1", "estimate 200 x1", // in gear
		"single 110 x1", "estimate 110 x1", // front squat
	}
	if diff := cmp.Diff(want, told(got)); diff != "" {
		t.Error(diff)
	}
	if got[0].Day != monday.AddDays(2) {
		t.Errorf("the first of equals keeps the record: %s", got[0].Day)
	}
}

// A record is told once: by the set that sets it, and not again; a first best is
// none, and of two in one message only the better.
func TestNewRecordsAreToldOnce(t *testing.T) {
	log := []planner.Set{squat(0, 150, 1, nil)}
	for _, c := range []struct {
		what  string
		added []planner.Set
		want  []string
	}{
		{"same again", []planner.Set{squat(1, 150, 1, nil)}, nil},
		{"missed", []planner.Set{missed(2, 170)}, nil},
		{"first triple", []planner.Set{squat(3, 135, 3, nil)}, nil},
		{"two in one message", []planner.Set{squat(4, 155, 1, nil), squat(4, 160, 1, nil)}, []string{"single 160 x1", "estimate 160 x1"}},
		{"told already", []planner.Set{squat(5, 160, 1, nil)}, nil},
		{"more in a triple", []planner.Set{squat(6, 140, 3, nil)}, []string{"reps 140 x3"}},
	} {
		got := told(strength.New(strength.Default, log, c.added))
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: %s", c.what, diff)
		}
		log = append(log, c.added...)
	}
}

// A correction takes a record back, and the next best holds it again.
func TestCorrectionTakesARecordBack(t *testing.T) {
	log := []planner.Set{squat(0, 150, 1, nil), squat(1, 510, 1, nil)}
	if got := strength.Records(strength.Default, log); got[0].Kg != 510 {
		t.Fatalf("%+v", got)
	}
	log[1].Weight = planner.Kilograms(151)
	if got := strength.Records(strength.Default, log); got[0].Kg != 151 {
		t.Errorf("%+v", got)
	}
	log[1].Missed = true
	if got := strength.Records(strength.Default, log); got[0].Kg != 150 {
		t.Errorf("%+v", got)
	}
}

// The records do not depend on the order in which a log is given, and every one is
// the largest of its kind.
func TestRecordsAreTheLargest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sets []planner.Set
		for i := range rapid.IntRange(0, 30).Draw(t, "sets") {
			s := squat(i, float64(rapid.IntRange(40, 200).Draw(t, "kg")), rapid.IntRange(0, 14).Draw(t, "reps"), nil)
			s.Missed = s.Reps == 0 || rapid.IntRange(0, 5).Draw(t, "missed") == 0
			sets = append(sets, s)
		}
		got := strength.Records(strength.Default, sets)
		best := map[int]float64{}
		for _, s := range sets {
			if !s.Missed && s.Reps <= strength.RecordReps {
				best[s.Reps] = math.Max(best[s.Reps], s.Weight.Kg())
			}
		}
		for _, r := range got {
			if r.Kind != strength.BestEstimate {
				if best[r.Reps] != r.Kg {
					t.Fatalf("%d repetitions: %g, want %g", r.Reps, r.Kg, best[r.Reps])
				}
				delete(best, r.Reps)
			}
		}
		if len(best) != 0 {
			t.Fatalf("no record for %v", best)
		}
		slices.Reverse(sets)
		if diff := cmp.Diff(told(got), told(strength.Records(strength.Default, sets))); diff != "" {
			t.Fatal(diff)
		}
	})
}
