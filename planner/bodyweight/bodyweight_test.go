package bodyweight_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"blockbell/planner"
	"blockbell/planner/bodyweight"
)

var today = planner.NewDate(2027, 3, 1)

func weighings(days int, f func(daysAgo int) float64) (all []bodyweight.Weighing) {
	for ago := days; ago >= 0; ago-- {
		all = append(all, bodyweight.Weighing{Day: today.AddDays(-ago), Mass: planner.Kilograms(f(ago))})
	}
	return all
}

// On a straight line the trend is that line, but for the faint belief that most people
// change slowly: levels hold to five grams and changes to ten grams a week.
func TestStraightLine(t *testing.T) {
	x := bodyweight.Read(weighings(40, func(ago int) float64 { return 80 + 0.05*float64(ago) }), today)
	if !x.Known || !x.Moves || math.Abs(x.Kg-80) > 0.005 || math.Abs(x.Weekly+0.35) > 0.01 {
		t.Errorf("%.4f kg, %+.4f a week, moves %v; want 80 kg and -0.35 kg a week", x.Kg, x.Weekly, x.Moves)
	}
	if kg, sd := x.On(today.AddDays(28)); math.Abs(kg-78.6) > 0.05 || sd < x.SD {
		t.Errorf("in four weeks %.2f give or take %.2f, want 78.6", kg, sd)
	}
	if at, _ := x.At(today.AddDays(-20)); math.Abs(at-81) > 0.01 {
		t.Errorf("twenty days ago %.2f, want 81", at)
	}
}

func TestTooFewWeighingsForALine(t *testing.T) {
	for name, all := range map[string][]bodyweight.Weighing{
		"one":        weighings(0, func(int) float64 { return 62.4 }),
		"a week":     weighings(7, func(int) float64 { return 62.4 }),
		"two, apart": {{Day: today.AddDays(-30), Mass: 62400}, {Day: today, Mass: 62400}},
	} {
		x := bodyweight.Read(all, today)
		if !x.Known || x.Moves || x.Weekly != 0 || math.Abs(x.Kg-62.4) > 0.001 || x.SD <= 0 {
			t.Errorf("%s: %+v", name, x)
		}
	}
	if x := bodyweight.Read(weighings(0, func(int) float64 { return 62 }), today.AddDays(60)); x.Known {
		t.Errorf("a weighing of two months ago says something about today: %+v", x)
	}
	if x := bodyweight.Read(nil, today); x.Known {
		t.Errorf("%+v out of nothing", x)
	}
}

// The stated errors are honest: over many simulated lifters, who turn every eight weeks
// on average, the true level and change lie within two standard deviations about as often
// as they should.
func TestErrorsAreHonest(t *testing.T) {
	const seed, lifters = 11, 1000
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, seed))
	level, change := 0, 0
	for range lifters {
		truth := body(r, 44, func(int) bool { return r.Float64() < 1.0/56 })
		var all []bodyweight.Weighing
		for ago := 42; ago >= 0; ago -= 1 + r.IntN(4) {
			kg := truth[42-ago] * (1 + 0.006*r.NormFloat64())
			all = append(all, bodyweight.Weighing{Day: today.AddDays(-ago), Mass: planner.Kilograms(kg)})
		}
		x := bodyweight.Read(all, today)
		if math.Abs(x.Kg-truth[42]) < 2*x.SD {
			level++
		}
		if math.Abs(x.Weekly-7*(truth[43]-truth[42])) < 2*x.WeeklySD {
			change++
		}
	}
	// 95 % by the normal law; scatter and bends are estimated from few weighings, so a
	// little off is expected, and a turn of the last days cannot be seen yet.
	for name, n := range map[string]int{"level": level, "change": change} {
		share := float64(n) / lifters
		t.Logf("the %s lies within two errors in %.1f %% of %d", name, 100*share, lifters)
		if share < 0.88 || share > 0.99 {
			t.Errorf("the %s lies within two errors in %.1f %% of cases, want 95", name, 100*share)
		}
	}
}

// Limits: a gentle loss is 0.7 % a week (Garthe et al. 2011); at the end at most 2 %
// for a weigh-in two hours before, 3 % for one a day before (judgement).
func TestClassAdvice(t *testing.T) {
	class := planner.Class{Limit: 83 * planner.Kilogram}
	grown := planner.Lifter{HasCompeted: true, Born: planner.NewDate(1995, 1, 1)}
	meet := func(days, hours int) planner.Meet {
		return planner.Meet{Date: today.AddDays(days), WeighInHours: hours}
	}
	for _, c := range []struct {
		name   string
		kg     float64
		class  planner.Class
		meet   planner.Meet
		lifter planner.Lifter
		want   bodyweight.Advice
	}{
		{"below", 82, class, meet(70, 2), grown, bodyweight.Fits},
		{"at the limit", 83, class, meet(1, 2), grown, bodyweight.Fits},
		{"no upper limit", 130, planner.Class{Limit: 120 * planner.Kilogram, Plus: true}, meet(10, 2), grown, bodyweight.Fits},
		{"no class", 130, planner.Class{}, meet(10, 2), grown, bodyweight.Fits},
		{"4 % in ten weeks", 86.4, class, meet(70, 2), grown, bodyweight.Slowly},
		{"8 % in ten weeks", 90, class, meet(70, 2), grown, bodyweight.MoveUp},
		{"1.5 % at ten days, 2 h", 84.2, class, meet(10, 2), grown, bodyweight.Slowly},
		{"2.5 % at ten days, 2 h", 85.1, class, meet(10, 2), grown, bodyweight.MoveUp},
		{"2.5 % at ten days, 24 h", 85.1, class, meet(10, 24), grown, bodyweight.Slowly},
		{"first meet", 83.5, class, meet(70, 2), planner.Lifter{Born: grown.Born}, bodyweight.AsWeighs},
		{"under 18", 83.5, class, meet(70, 2), planner.Lifter{HasCompeted: true, Born: planner.NewDate(2010, 1, 1)}, bodyweight.AsWeighs},
	} {
		if got := bodyweight.Compare(c.kg, c.class, c.meet, c.lifter, today); got.Advice != c.want {
			t.Errorf("%s: %+v, want %s", c.name, got, c.want)
		}
	}
	if r := bodyweight.Compare(86.4, class, meet(70, 2), grown, today); math.Abs(r.Weekly-3.4/86.4/10) > 1e-9 || math.Abs(r.Kg+3.4) > 1e-9 {
		t.Errorf("%+v, want 3.4 kg above and a tenth of it a week", r)
	}
}
