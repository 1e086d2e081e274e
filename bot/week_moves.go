package bot

import (
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// moves is how the log moves the loads of a week: the factor on each lift's max, and
// what was said.
type moves struct {
	factor map[planner.Lift]float64
	said   []render.Moved
	steps  map[planner.Lift]step // the last of each lift
}

// step is what one logged top set leads to.
type step struct {
	factor float64 // on the lift's max; 1 where nothing is known or it went as planned
	top    load.Work
	to     load.Adjustment
}

// follow moves the loads of the days behind each logged top set by the step rule.
// Sets in counted were in the log before the week was made, so its loads know them.
func follow(p load.Plan, sets []planner.Set, counted []setRef, r load.Request) (load.Plan, moves) {
	m := moves{factor: map[planner.Lift]float64{}, steps: map[planner.Lift]step{}}
	p.Days = slices.Clone(p.Days)
	for i := range p.Days {
		for _, lift := range planner.CompetitionLifts() {
			s := stepAfter(p.Days[i], lift, sets, counted, r)
			if !m.take(p.Days[i].Date, lift, s, p) {
				continue
			}
			for j := i + 1; j < len(p.Days); j++ {
				p.Days[j] = scaled(p.Days[j], lift, s.factor, r.Gym)
			}
		}
	}
	return p, m
}

// take takes in what a day's top set of a lift leads to, if it leads anywhere.
func (m *moves) take(day planner.Date, lift planner.Lift, s step, p load.Plan) bool {
	if s.factor == 1 || s.factor > 1 && (p.Deload || p.Taper) {
		return false // an easy week is meant to feel easy
	}
	if m.factor[lift] == 0 {
		m.factor[lift] = 1
	}
	m.factor[lift] *= s.factor
	m.steps[lift] = s
	m.said = append(m.said, render.Moved{Lift: lift, Text: render.Sentence(string(lift) + ", " + day.Short() + ": " + lower(s.to.Why))})
	return true
}

// stepAfter is what a lift's top set of a day, as it was logged, leads to; nothing
// where it is one of those counted already.
func stepAfter(d load.Day, lift planner.Lift, sets []planner.Set, counted []setRef, r load.Request) step {
	top, ok := topOf(d, lift)
	if !ok || top.Find || top.Weight == 0 || top.Max == 0 {
		return step{factor: 1}
	}
	s, ok := loggedTop(d.Date, top, sets)
	if !ok || slices.Contains(counted, setRef{s.Day, s.Seq}) {
		return step{factor: 1}
	}
	a, err := load.Adjust(top, s, r.Equation, r.Gym)
	if err != nil || a.Weight == top.Weight && a.Reps == top.Reps {
		return step{factor: 1}
	}
	max := a.Weight.Kg() * 100 / strength.Percent(r.Equation, float64(a.Reps)+top.Reserve)
	return step{max / top.Max, top, a}
}

// topOf is the heaviest work of a lift in a session, in the form of the competition
// where it has that.
func topOf(d load.Day, lift planner.Lift) (best load.Work, ok bool) {
	for _, w := range d.Work {
		if w.Lift != lift || w.Role == load.Accessory || w.Role == load.Technique {
			continue
		}
		nearer := ok && w.Variant == "" && best.Variant != ""
		further := ok && w.Variant != "" && best.Variant == ""
		if !ok || nearer || !further && w.Percent > best.Percent {
			best, ok = w, true
		}
	}
	return best, ok
}

// loggedTop is the logged set that answers to a top set: the one with its weight
// and, where there is none, the heaviest of the movement. Rated ones come first.
func loggedTop(day planner.Date, w load.Work, sets []planner.Set) (best planner.Set, ok bool) {
	rank := func(s planner.Set) (n int) {
		if s.Weight == w.Weight {
			n += 2
		}
		if s.Reserve != nil || s.Missed {
			n++
		}
		return n
	}
	for _, s := range sets {
		if s.Day != day || s.Lift != w.Lift || s.Variant != w.Variant || s.Pending {
			continue
		}
		if !ok || rank(s) > rank(best) || rank(s) == rank(best) && s.Weight > best.Weight {
			best, ok = s, true
		}
	}
	if ok && best.Weight < w.Weight*85/100 && !best.Missed {
		return best, false // a warm-up, or another session than the one that was planned
	}
	return best, ok
}

// scaled is a session with the max of a lift moved by a factor; the percent stays,
// the load follows.
func scaled(d load.Day, lift planner.Lift, factor float64, g load.Gym) load.Day {
	d.Work = slices.Clone(d.Work)
	for i, w := range d.Work {
		if w.Lift != lift || w.Find || w.Weight == 0 || w.Max == 0 {
			continue
		}
		w.Max *= factor
		if p, err := load.Plates(planner.Kilograms(w.Max*w.Percent/100), g); err == nil {
			w.Weight = p.Load
		}
		d.Work[i] = w
	}
	return d
}

// carried moves the estimates of a new week by what last week's top sets said,
// where the trend does not say as much already: the larger step counts, never both.
func carried(r *load.Request, max map[planner.Lift]float64, m moves) {
	for lift, f := range m.factor {
		e, known := r.Estimates[lift]
		if !known || e.Source != load.Trend || max[lift] == 0 {
			continue
		}
		to := max[lift] * f
		if f > 1 && to > e.Kg || f < 1 && to < e.Kg {
			e.Kg = to
			r.Estimates[lift] = e
		}
	}
}

// lower begins with a small letter.
func lower(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	if r[0] >= 'A' && r[0] <= 'Z' {
		r[0] += 'a' - 'A'
	}
	return string(r)
}
