package blocks

import "blockbell/planner"

// lapse is a week away in the time of the plan: ahead is the strength weight of the
// marks that come after it, express the weight of e at the marks it ends before.
type lapse struct {
	start   planner.Date
	week    int
	ahead   float64
	express float64
}

// lapse adds a week away behind the training weeks so far.
func (c *calendar) lapse(d planner.Date, week int) {
	for len(c.lapses) <= len(c.weeks) {
		c.lapses = append(c.lapses, nil)
	}
	c.lapses[len(c.weeks)] = append(c.lapses[len(c.weeks)], lapse{start: d, week: week})
	c.aways = append(c.aways, AwayWeek{Start: d, Week: week})
}

// weighLapses gives every week away the weights of the marks after it.
func (s *season) weighLapses() {
	for t := range s.lapses {
		for j := range s.lapses[t] {
			l := &s.lapses[t][j]
			l.ahead, l.express = 0, 0
			for i, m := range s.marks {
				if s.after[i] > t || s.after[i] == t && s.lapsed[i] > j {
					l.ahead += m.Strength
				}
				if s.after[i] == t && s.lapsed[i] == j+1 {
					l.express += m.Expression
				}
			}
		}
	}
}

// rest extends a flow by the weeks away that follow t training weeks. They are
// fixed by the calendar and the same for every plan, whatever blocks it has.
func (s *season) rest(f flow, t int) flow {
	if t >= len(s.lapses) {
		return f
	}
	for _, l := range s.lapses[t] {
		if l.week >= 2 {
			f.b -= layoffM
			f.c -= s.model.Lambda * layoffM
		}
		if l.week >= 4 {
			f.b += layoffS
			f.c -= l.ahead * layoffS
		}
		f.f *= 1 - 1/layoffTau
		f.h = f.h*(1-1/layoffTau) + layoffE/layoffTau
		f.k += l.express * f.f
		f.c += l.express * f.h
	}
	return f
}
