package bot

import (
	"blockbell/planner"
	"blockbell/planner/bodyweight"
	"blockbell/store"
)

// weighed is a lifter with the bodyweight that the weighings up to a day come to: one
// heavy evening takes no room in the class. It stays what was told where there is no
// weighing of the last weeks, and where something else than the last one is tried out.
func (t *turn) weighed(l planner.Lifter, day planner.Date) (planner.Lifter, error) {
	rows, err := t.tx.Bodyweights(l.ID, day.AddDays(-weightReach), day)
	if err != nil || len(rows) == 0 || rows[len(rows)-1].Mass != l.Bodyweight {
		return l, err
	}
	all := mapped(rows, func(r store.Bodyweight) bodyweight.Weighing { return bodyweight.Weighing(r) })
	if trend := bodyweight.Read(all, day); trend.Known {
		l.Bodyweight = planner.Kilograms(trend.Kg)
	}
	return l, nil
}
