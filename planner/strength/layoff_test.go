package strength_test

import (
	"testing"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// returning is a lifter who was away in weeks 30 to 34, came back by loss weaker, and
// has changed by after a week since; read in week until.
func returning(seed uint64, loss, after float64, until int, level planner.Level) strength.Reading {
	a := newAthlete(seed, func(week float64) float64 {
		up := 5 + 0.002*min(week, 30)
		if week < 35 {
			return up
		}
		return up - loss + after*(week-35)
	})
	h := strength.History{
		Lift: planner.Squat, Today: monday.AddDays(7 * until), Level: level,
		Sets:     append(a.train(0, 30), a.train(35, until)...),
		Away:     []strength.Span{{From: monday.AddDays(210), To: monday.AddDays(244)}},
		Expected: func(planner.Date) float64 { return 0.002 },
	}
	return strength.Read(h)
}

// What was lost in a layoff is no fall, however the climb since goes; a fall of 1 % a
// week since the return is told after fourteen weeks: four more than in a log without a
// layoff, since only days after the return speak of it. Force falls by some 2 % a week of a long
// break (McMaster et al. 2013), so 7 % and more are lost in five weeks.
func TestLossOfALayoffIsNoFall(t *testing.T) {
	n := lifters(t, 60)
	for _, c := range []struct{ loss, after float64 }{{0.07, 0.001}, {0.07, 0.003}, {0.12, 0.002}} {
		got := share(n, func(seed uint64) bool {
			for _, week := range []int{41, 44, 48, 54} {
				r := returning(seed, c.loss, c.after, week, planner.Intermediate)
				if r.Verdict == strength.Falling || c.after >= 0.002 && plateau(r) {
					return true
				}
			}
			return false
		})
		t.Logf("%.0f %% lost in a layoff of five weeks, then %+.1f %% a week: told a plateau to %.1f %% of %d, seeds 1 to %d", 100*c.loss, 100*c.after, 100*got, n, n)
		if got > 0.05+slack(0.05, n) {
			t.Errorf("lost %g, %g a week: %.1f %% told a plateau", c.loss, c.after, 100*got)
		}
	}
	got := share(n, func(seed uint64) bool {
		return returning(seed, 0.07, -0.01, 49, planner.Intermediate).Verdict == strength.Falling
	})
	t.Logf("falling by 1 %% a week since the return: told after 14 weeks to %.1f %% of %d", 100*got, n)
	if got < 0.80-slack(0.80, n) {
		t.Errorf("%.1f %% of falls after a layoff seen", 100*got)
	}
}
