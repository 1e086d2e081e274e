package render

import (
	"fmt"
	"math"
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

// The picture names its unit, its range widens towards the meet, and what it shows on
// the day of the meet is about what the words say, after a course that turned of late.
func TestPictureOfABodyweightThatTurned(t *testing.T) {
	today := planner.NewDate(2027, 3, 1)
	var all []bodyweight.Weighing
	for ago := 42; ago >= 0; ago -= 2 {
		all = append(all, bodyweight.Weighing{Day: today.AddDays(-ago), Mass: planner.Kilograms(66 + 0.06*math.Abs(float64(ago)-20))})
	}
	for unit, name := range map[planner.Unit]string{planner.KG: "in kilograms", planner.LB: "in pounds"} {
		v := WeightView{Lifter: planner.Lifter{Unit: unit, Class: planner.Class{Limit: 66 * planner.Kilogram}}, Today: today, Weighings: all, Trend: bodyweight.Read(all, today),
			HasMeet: true, Meet: planner.Meet{Name: "River Open", Date: today.AddDays(41)}}
		view := v.drawn()
		now, meet := view.Trend[len(view.Trend)-1], view.Ahead[len(view.Ahead)-1]
		if view.Under != name || now.Day != today || view.Ahead[0].Day != today || meet.Day != v.Meet.Date {
			t.Errorf("%s from %s to %s", view.Under, now.Day, meet.Day)
		}
		if meet.High-meet.Low < 3*(now.High-now.Low) {
			t.Errorf("from %.1f to %.1f now, from %.1f to %.1f at the meet", now.Low, now.High, meet.Low, meet.High)
		}
		kg, _ := v.Trend.On(v.Meet.Date)
		if want := fmt.Sprintf("about %s at River Open", v.mass(kg)); !strings.Contains(Bodyweight(v).Text, want) {
			t.Errorf("%q lacks %q", Bodyweight(v).Text, want)
		}
	}
}
