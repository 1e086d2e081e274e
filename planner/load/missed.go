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
