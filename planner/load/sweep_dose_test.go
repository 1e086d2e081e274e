package load_test

import (
	"fmt"
	"slices"

	"blockbell/planner"
	"blockbell/planner/load"
)

// checkDose holds repetitions, reserve and percent against the ranges of the
// block: hypertrophy 6 to 12 with 1 to 3 left, strength 3 to 6 with 2 to 4, singles
// 90 to 93 %, doubles 87 to 90, triples 84 to 87, back-offs 75 to 85 (common
// practice).
func (s *sweep) checkDose(p load.Plan, w load.Work) {
	extra := 0.0
	if s.old() {
		extra = 1
	}
	counts := load.EventCounts(s.c.event, w.Lift)
	beginner := s.c.level == planner.New || s.c.level == planner.Novice
	switch {
	case p.Deload || !counts || s.c.kind == planner.Recovery:
	case w.Role == load.FirstHeavy:
		if w.Reps < 4 || w.Reps > 6 || w.Percent < 77 || w.Percent > 82 || w.Reserve < 2+extra || w.Reserve > 3+extra {
			s.fail("first heavy set", "%s %d x %g %%, %g left", w.Name, w.Reps, w.Percent, w.Reserve)
		}
	case s.c.kind == planner.Hypertrophy:
		lo, hi, most := 6, 12, 3.0
		if beginner {
			lo, hi, most = 5, 8, 4 // sets of 5 to 8, easier ones on the lighter days
		}
		if w.Reps < lo || w.Reps > hi || w.Reserve < 1+extra || w.Reserve > most+extra || w.Percent > 78 {
			s.fail("hypertrophy dose", "%s %d x %.1f %%, %g left", w.Name, w.Reps, w.Percent, w.Reserve)
		}
	case s.c.kind == planner.Strength:
		light := w.Lift == planner.Deadlift && s.lightDeadlift(p)
		if w.Reps < 3 || w.Reps > 6 || w.Reserve < 2+extra || w.Reserve > 4+extra || w.Percent > 88 || w.Percent < 70 && !light {
			s.fail("strength dose", "%s %d x %.1f %%, %g left", w.Name, w.Reps, w.Percent, w.Reserve)
		}
	case w.Role == load.Top && !s.old() && s.c.age >= 18:
		ranges := map[int][2]float64{1: {85, 94}, 2: {87, 90}, 3: {84, 87}}
		if !s.c.first {
			ranges[1] = [2]float64{90, 94}
		}
		if r := ranges[w.Reps]; w.Percent < r[0] || w.Percent > r[1] {
			s.fail("peaking top set", "%s %d x %.1f %%", w.Name, w.Reps, w.Percent)
		}
	case w.Role == load.BackOff && s.c.age < 60 && (w.Percent < 75 || w.Percent > 85):
		s.fail("peaking back-off", "%s %d x %.1f %%", w.Name, w.Reps, w.Percent)
	}
}

// checkSteps compares the same place of the week with the last loading week: the
// load rises by at most 5 % or one step of the plates (common practice).
func (s *sweep) checkSteps(p load.Plan) {
	now := map[string]load.Work{}
	for _, d := range p.Days {
		for _, w := range d.Work {
			key := fmt.Sprint(d.Date.Weekday(), w.Name, w.Role)
			now[key] = w
			old, ok := s.before[key]
			light := w.Lift == planner.Deadlift && s.old()
			rounding := 0.0
			if s.c.kind == planner.Peaking {
				rounding = 1.25 // the percents of peaking are fixed, so only their rounding may add to it
			}
			if step := (w.Weight - old.Weight).Kg(); ok && w.Role != load.Accessory && !light && step > max(2.5, 0.05*old.Weight.Kg())+rounding+1e-9 {
				s.fail("step of a load", "%s %s %s after %s", d.Date.Weekday(), w.Name, w.Weight.Text(planner.KG), old.Weight.Text(planner.KG))
			}
		}
	}
	s.before = now
}

// checkBlock looks at the whole block: its first week has 70 to 75 % of its top,
// where the steps allow it to get there.
func (s *sweep) checkBlock() {
	if s.c.kind != planner.Hypertrophy && s.c.kind != planner.Strength || len(s.totals) < 5 || s.c.days < 3 || s.c.event != planner.Full || s.c.level == planner.New {
		return
	}
	top := slices.Max(s.totals)
	if share := float64(s.totals[0]) / float64(top); share < 0.695 || share > 0.765 {
		s.fail("start of a block", "%v: %.0f %%", s.totals, 100*share)
	}
}
