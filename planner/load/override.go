package load

import (
	"slices"

	"blockbell/planner"
)

// Override is a coach's change for one lifter. It names a movement and not a
// week, so it is kept when the plan is made again.
type Override struct {
	Of      Movement // what is changed, wherever it stands
	Drop    bool     // leave it out
	Instead Movement // do this in its place; zero: nothing else
	Sets    int      // more sets (fewer where negative) each time, at least one stays
	Load    float64  // percent more load (less where negative), -30 to 10
	Why     string   // shown to the lifter; may be empty
}

// Bounds of a coach's change of load, in percent.
const (
	leastLoadChange = -30
	mostLoadChange  = 10
)

// check refuses changes of load that no week can hold.
func (o Override) check() error {
	if o.Load < leastLoadChange || o.Load > mostLoadChange || o.Load != o.Load {
		return planner.Errorf(planner.Invalid, "Change the max instead.", "A change of load by %g %% is outside %d to %d %%",
			o.Load, leastLoadChange, mostLoadChange)
	}
	if o.Of == (Movement{}) {
		return planner.Errorf(planner.Invalid, "", "A coach's change names no movement")
	}
	return nil
}

// override applies the coach's changes. The ceilings of age and first meet hold. Sets
// come and go behind the heaviest one, which stays the one that it is.
func (j *job) override(days []Day) []Day {
	for _, o := range j.Overrides {
		for i := range days {
			days[i].Work = slices.DeleteFunc(days[i].Work, func(w Work) bool { return o.Drop && w.Movement() == o.Of })
			for k, w := range days[i].Work {
				if w.Movement() != o.Of {
					continue
				}
				x := o
				if (w.Role == Top || w.Role == FirstHeavy) && slices.ContainsFunc(days[i].Work, func(b Work) bool { return b.Movement() == o.Of && b.Role == BackOff }) {
					x.Sets = 0
				}
				days[i].Work[k] = j.overridden(w, x)
			}
		}
	}
	return days
}

func (j *job) overridden(w Work, o Override) Work {
	n := max(1, w.Sets+o.Sets)
	switch {
	case w.Find && o.Instead == (Movement{}):
		w.Sets = n
	case o.Instead != (Movement{}):
		w = j.replaced(w, o.Instead, n)
	case w.Role == Accessory:
		w.Sets = n
	case o.Load != 0:
		d := j.nearest(w.Reps, w.Percent*(1+o.Load/100), 30, 100)
		top, _ := j.ceiling(w.Lift)
		w = j.work(w.Movement(), w.Role, n, j.under(d, top))
	default:
		w.Sets = n
	}
	if o.Why != "" {
		w.Why = join(w.Why, "Your coach: "+o.Why)
	}
	return w
}

// replaced is work of another movement in the place of w: the same dose where its
// max is known, else as an accessory.
func (j *job) replaced(w Work, m Movement, sets int) Work {
	if !m.Lift.Competition() || j.Estimates[m.Lift].Kg == 0 {
		a := j.accessory(m.Lift, sets)
		a.Variant, a.Name = m.Variant, m.Name()
		return a
	}
	d := dose{w.Reps, w.Reserve}
	if w.Percent == 0 {
		d = j.fitted(j.stage, m.Lift, dose{8, 3}, hypertrophyCeiling)
	}
	role := w.Role
	if role == Accessory {
		role = WorkSets
	}
	return j.work(m, role, sets, d)
}
