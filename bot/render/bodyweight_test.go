package render

import (
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/bodyweight"
)

// Words and picture agree: a line that visibly rises is not called level, and what is
// not clear is not called a change.
func TestWordsOfAnUnclearBodyweight(t *testing.T) {
	today := planner.NewDate(2027, 3, 1)
	weighed := func(kg ...float64) []bodyweight.Weighing {
		var all []bodyweight.Weighing
		for i, x := range kg {
			all = append(all, bodyweight.Weighing{Day: today.AddDays(7 * (i - len(kg) + 1)), Mass: planner.Kilograms(x)})
		}
		return all
	}
	for _, c := range []struct {
		kg   []float64
		want string
	}{
		{[]float64{63, 62.9, 63, 63.6, 63.4, 63.6}, "No clear change yet: +0."},
		{[]float64{63, 63.1, 62.9, 63, 63.1, 63}, "It stays about where it is."},
		{[]float64{63, 63.5, 64, 64.5, 65, 65.5}, "It changes by about +0.5 kg a week"},
	} {
		all := weighed(c.kg...)
		v := WeightView{Lifter: planner.Lifter{Unit: planner.KG}, Today: today, Weighings: all, Trend: bodyweight.Read(all, today)}
		if got := strings.Join(v.level(), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%v: %q lacks %q", c.kg, got, c.want)
		}
	}
}
