package load

import "blockbell/planner"

// recentDays is how old last week's plan may be to compare loads with it.
const recentDays = 14

// holdToPrevious keeps loads within one step of the plan that was shown last week,
// after what other repetitions and reserve make of it: an estimate that leapt is
// followed over some weeks (common practice).
func (j *job) holdToPrevious(days []Day) {
	p := j.Previous
	if p == nil || p.Start.IsZero() || p.Start >= j.start || p.Start.DaysUntil(j.start) > recentDays || p.Deload {
		return
	}
	for i := range days {
		for k, w := range days[i].Work {
			old, ok := p.like(w)
			if !ok {
				continue
			}
			same := planner.Kilograms(old.Weight.Kg() * w.Percent / old.Percent)
			if limit := same + j.rack.stepOf(same, w.Lift); w.Weight > limit {
				days[i].Work[k].Weight = j.rack.below(limit)
			}
		}
	}
}

// like is the heaviest work of the plan in the same movement and role.
func (p Plan) like(w Work) (best Work, ok bool) {
	for _, d := range p.Days {
		for _, o := range d.Work {
			if o.Movement() == w.Movement() && o.Role == w.Role && o.Percent > 0 && !o.Find && !w.Find && o.Weight > best.Weight {
				best, ok = o, true
			}
		}
	}
	return best, ok
}
