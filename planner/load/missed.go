package load

import (
	"math"
	"slices"

	"blockbell/planner"
)

// Left lays the sessions of a week that are not done over its training days from
// today on, a missed one first. Where there are more sessions than days the
// lightest is left out; where heavy squats and deadlifts would come to lie on
// neighbouring days, the missed session is. done holds the days of done sessions.
// It also says what moved and what is left out.
func (p Plan) Left(done []planner.Date, today planner.Date) (days []Day, said []string) {
	var open []Day
	var free []planner.Date
	for _, d := range p.Days {
		if slices.Contains(done, d.Date) {
			continue
		}
		open = append(open, d)
		if d.Date >= today {
			free = append(free, d.Date)
		}
	}
	for len(open) > len(free) {
		i := lightest(open)
		said = append(said, open[i].Date.Short()+" is left out: the days that are left do not hold it.")
		open = slices.Delete(open, i, i+1)
	}
	moved := slices.Clone(open)
	for i := range moved {
		moved[i].Date = free[i]
	}
	if p.crowded(moved, done) {
		said = nil
		moved = slices.DeleteFunc(slices.Clone(p.Days), func(d Day) bool { return d.Date < today || slices.Contains(done, d.Date) })
		return moved, append(said, "What was missed is left out, so that heavy days keep a day between them.")
	}
	for i, d := range moved {
		if d.Date != open[i].Date {
			said = append(said, open[i].Date.Short()+" moves to "+d.Date.Short()+".")
		}
	}
	return moved, said
}

// lightest is the session whose loss costs least: heavy work of a lift counts more
// the fewer other sessions have the lift, then all sets count.
func lightest(days []Day) int {
	best, least := 0, math.Inf(1)
	for i, d := range days {
		weight := float64(d.sets())
		for _, w := range d.Work {
			if w.Role == Top || w.Role == FirstHeavy {
				weight += 100 / float64(sessionsWith(days, w.Lift))
			}
		}
		if weight < least {
			best, least = i, weight
		}
	}
	return best
}

func sessionsWith(days []Day, l planner.Lift) (n int) {
	for _, d := range days {
		if slices.ContainsFunc(d.Work, func(w Work) bool { return w.Lift == l }) {
			n++
		}
	}
	return n
}

// crowded tells whether two sessions with heavy squats or deadlifts lie on
// neighbouring days, done ones included.
func (p Plan) crowded(days []Day, done []planner.Date) bool {
	var heavy []planner.Date
	for _, d := range p.Days {
		if slices.Contains(done, d.Date) && d.heavyLower() {
			heavy = append(heavy, d.Date)
		}
	}
	for _, d := range days {
		if d.heavyLower() {
			heavy = append(heavy, d.Date)
		}
	}
	slices.Sort(heavy)
	for i := 1; i < len(heavy); i++ {
		if heavy[i]-heavy[i-1] == 1 {
			return true
		}
	}
	return false
}

// heavyLower tells whether the session has a top or first heavy set of squat or
// deadlift.
func (d Day) heavyLower() bool {
	return slices.ContainsFunc(d.Work, func(w Work) bool {
		return (w.Lift == planner.Squat || w.Lift == planner.Deadlift) && (w.Role == Top || w.Role == FirstHeavy)
	})
}

// Exchange moves the session of one day of the week to another; where that has a
// session too, the two change places. It warns where heavy squats or deadlifts
// come to lie on neighbouring days. Days outside the week and days without a
// session are an Invalid error.
func (p Plan) Exchange(from, to planner.Date) (Plan, string, error) {
	i := slices.IndexFunc(p.Days, func(d Day) bool { return d.Date == from })
	if i < 0 {
		return p, "", planner.Errorf(planner.Invalid, "Choose a day with a session.", "Nothing is planned on %s", from.Short())
	}
	if to < p.Start || to > p.End {
		return p, "", planner.Errorf(planner.Invalid, "Choose a day of the same week.", "%s is outside the week from %s to %s", to.Short(), p.Start.Short(), p.End.Short())
	}
	p.Days = slices.Clone(p.Days)
	if k := slices.IndexFunc(p.Days, func(d Day) bool { return d.Date == to }); k >= 0 {
		p.Days[k].Date = from
	}
	p.Days[i].Date = to
	slices.SortFunc(p.Days, func(a, b Day) int { return int(a.Date - b.Date) })
	if p.crowded(p.Days, nil) {
		return p, "Heavy squats and deadlifts now lie on neighbouring days; a day between them would be better.", nil
	}
	return p, "", nil
}

// Prescribed is the log of a session done exactly as planned, in order; the
// reserve is not told, so that it counts as planned and not as rated. Work whose
// weight the lifter chooses is not in it.
func (d Day) Prescribed() (sets []planner.Set) {
	for _, w := range d.Work {
		if w.Weight > 0 && !w.Find && w.Role != Accessory {
			sets = append(sets, planner.Set{Day: d.Date, Seq: len(sets) + 1, Lift: w.Lift, Variant: w.Variant, Weight: w.Weight, Reps: w.Reps, Sets: w.Sets})
		}
	}
	return sets
}
