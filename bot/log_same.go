package bot

import "blockbell/planner"

// lastTimeReach is how many days ago the last time of a lift may lie: after eight weeks
// hardly anybody means to have done the same again (common practice).
const lastTimeReach = 8 * 7

// lastDay returns the sets of the last day before the given one on which the lifter
// logged a lift in a form.
func (t *turn) lastDay(lift planner.Lift, variant planner.Variant, day planner.Date) ([]planner.Set, error) {
	if t.about.ID == 0 {
		return nil, nil
	}
	sets, err := t.tx.Sets(t.about.ID, day.AddDays(-lastTimeReach), day.AddDays(-1))
	var last []planner.Set
	for _, s := range sets {
		if s.Lift != lift || s.Variant != variant {
			continue
		}
		if len(last) > 0 && s.Day != last[0].Day {
			last = nil
		}
		last = append(last, s)
	}
	return last, err
}
