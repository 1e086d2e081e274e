package bot

import (
	"slices"

	"blockbell/planner"
	"blockbell/planner/load"
)

// know notes the maxes that a week rests on and the sets they come from.
func (m *madeWeek) know(estimates map[planner.Lift]load.Estimate, sets []planner.Set) {
	m.Began = map[planner.Lift]float64{}
	for lift, e := range estimates {
		m.Max[lift], m.Began[lift] = e.Max(), e.Max()
	}
	for _, s := range sets {
		if s.Lift.Competition() {
			m.Counted = append(m.Counted, setRef{s.Day, s.Seq})
		}
	}
	m.Before = m.Counted
}

// keepPast leaves a week that is made again its sessions before today and one that was
// begun today as they were asked for, and what it rested on at first.
func (w *weekNow) keepPast(was madeWeek) {
	from := w.course.today
	if w.logged(from) {
		from = from.AddDays(1)
	}
	past := slices.DeleteFunc(slices.Clone(was.Plan.Days), func(d load.Day) bool { return d.Date >= from })
	w.made.Plan.Days = append(past, slices.DeleteFunc(w.made.Plan.Days, func(d load.Day) bool { return d.Date < from })...)
	w.made.Began, w.made.Before = was.Began, was.Before
}

// fromThisWeek carries over what top sets of the week said before it is made again: the
// larger of that and of what the trend makes of them counts.
func (t *turn) fromThisWeek(w *weekNow, was weekNow) error {
	was.plan = was.edited()
	if len(was.plan.Days) == 0 {
		return nil
	}
	if err := t.asShown(&was); err != nil {
		return err
	}
	moved := moves{factor: map[planner.Lift]float64{}, steps: map[planner.Lift]step{}}
	for _, d := range was.plan.Days {
		for _, lift := range planner.CompetitionLifts() {
			moved.take(d.Date, lift, stepAfter(d, lift, was.sets, was.made.Before, w.request), was.plan)
		}
	}
	carried(&w.request, was.made.Began, moved)
	w.made.Steps, w.made.StepsSaid = moved.factor, moved.said
	return nil
}
