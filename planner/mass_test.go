package planner_test

import (
	"testing"

	"blockbell/planner"
)

func TestPoundsConvertByTheInternationalPound(t *testing.T) {
	// 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959);
	// 225 lb = 102.05828325 kg.
	if got := planner.Pounds(225); got != 102058 {
		t.Errorf("225 lb = %d g", got)
	}
	if got := planner.In(planner.LB, 1000); got != 453592 {
		t.Errorf("1000 lb = %d g", got)
	}
	for lb := 1; lb <= 1500; lb++ {
		if got := planner.Pounds(float64(lb)).Text(planner.LB); got != planner.In(planner.LB, float64(lb)).Text(planner.LB) || planner.Pounds(planner.Pounds(float64(lb)).Lb()) != planner.Pounds(float64(lb)) {
			t.Fatalf("%d lb does not come back: %s", lb, got)
		}
	}
}

func TestMassIsWrittenWithoutNoise(t *testing.T) {
	for g, want := range map[planner.Grams]string{92500: "92.5 kg", 100000: "100 kg", 61250: "61.25 kg", 102058: "102.06 kg", 0: "0 kg"} {
		if got := g.Text(""); got != want {
			t.Errorf("%d g is written %q, want %q", g, got, want)
		}
	}
	if got := planner.Pounds(315).Text(planner.LB); got != "315 lb" {
		t.Errorf("315 lb is written %q", got)
	}
	if got := planner.Kilograms(-2.5); got != -2500 {
		t.Errorf("-2.5 kg = %d g", got)
	}
}

func TestClassesReadAsOnAScoresheet(t *testing.T) {
	// The class names of the IPF table: 63, 84+ and so on.
	for text, want := range map[string]string{"63": "63", "84+": "84+", "+84": "84+", "-63": "63", "63 kg": "63", " 120+ ": "120+", "": "", "67,5": "67.5"} {
		c, err := planner.ParseClass(text)
		if err != nil || c.String() != want {
			t.Errorf("%q read as %q, %v", text, c, err)
		}
	}
	for _, text := range []string{"heavy", "0", "-5", "500", "6 3", "NaN", "1e2", "0x40", "63++", "Inf"} {
		if c, err := planner.ParseClass(text); err == nil {
			t.Errorf("%q was taken as class %s", text, c)
		}
	}
}
