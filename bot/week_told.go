package bot

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// movedBy says which loads to come move, to what and why, now that the log holds the
// sets of is in the place of those of was; down tells whether one of them goes down.
// Nothing where no work was shown for the day, or where what was shown goes on.
func (t *turn) movedBy(was, is []planner.Set) (lines []string, down bool, err error) {
	day, lifted := lastLifted(slices.Concat(was, is))
	if !lifted {
		return nil, false, nil
	}
	c, err := t.course(t.about)
	if err != nil || c.at.Index < 0 || day > c.today || day < weekStart(c.at.Block, c.today, t.club.WeekStart) {
		return nil, false, err
	}
	shown, has, err := t.tx.TrainingWeek(c.lifter.ID, weekStart(c.at.Block, day, t.club.WeekStart))
	if err != nil || !has {
		return nil, false, err
	}
	w, none, err := t.weekFor(c, day)
	if err != nil || none != nil {
		return nil, false, err
	}
	before, then := follow(w.edited(), append(without(w.sets, is), was...), w.made.Counted, w.request)
	v := t.weekView(w)
	for _, lift := range planner.CompetitionLifts() {
		if m, first, err := t.movedByFirst(&w, shown, lift, day, len(was) > 0); err != nil || first {
			if err != nil {
				return nil, false, err
			}
			lines, down = append(lines, v.LoadMoved(m)), true // it tells an estimate
			continue
		}
		if w.moved.factor[lift] == then.factor[lift] {
			continue
		}
		step, steps := w.moved.steps[lift]
		m := render.LoadMove{Lift: lift, Back: !steps, Up: step.factor > 1, Top: step.top, To: step.to}
		m.Day, m.Was, m.Is = nextChanged(before, w.plan, lift, day)
		lines, down = append(lines, v.LoadMoved(m)), down || !m.Up
	}
	return lines, down, nil
}

// movedByFirst tells what the first log of a lift does to the loads that were shown:
// from then on they rest on it and no more on a max that was told. Each load is told
// once, whatever else of that day is logged; after a correction the load is told as it
// is now, since another may have been told before.
func (t *turn) movedByFirst(w *weekNow, shown store.TrainingWeek, lift planner.Lift, day planner.Date, corrected bool) (m render.LoadMove, first bool, err error) {
	var was madeWeek
	if json.Unmarshal(shown.Plan, &was) != nil || was.Sources[lift] == w.made.Sources[lift] || w.made.Sources[lift] != load.Trend {
		return m, false, nil
	}
	days, err := t.tx.Prescribed(w.course.lifter.ID, day.AddDays(1), w.plan.End)
	if err != nil {
		return m, false, err
	}
	m = render.LoadMove{Lift: lift, First: true}
	m.Day, m.Was, m.Is = nextChanged(load.Plan{Days: days}, w.plan, lift, day)
	if m.Up = m.Is.Weight > m.Was.Weight; corrected {
		m.Was = load.Work{}
		m.Day, m.Is = nextWork(w.plan, lift, day)
	}
	if m.Day.IsZero() {
		return m, false, nil
	}
	told := sha256.Sum256(fmt.Appendf(nil, "%d/%s/%s/%d", w.course.lifter.ID, m.Day, lift, m.Is.Weight)) // no weight stays among the events
	fresh, err := t.tx.FreshEvent("moved/"+hex.EncodeToString(told[:8]), t.now)
	return m, fresh || corrected, err
}

// lastLifted is the last day on which one of the sets is of a competition lift.
func lastLifted(sets []planner.Set) (day planner.Date, ok bool) {
	for _, s := range sets {
		if s.Lift.Competition() && !s.Pending {
			day, ok = max(day, s.Day), true
		}
	}
	return day, ok
}

// without takes sets out of others.
func without(all, out []planner.Set) []planner.Set {
	return slices.DeleteFunc(slices.Clone(all), func(s planner.Set) bool {
		return slices.ContainsFunc(out, func(o planner.Set) bool { return o.Day == s.Day && o.Seq == s.Seq })
	})
}

// edited is the week as it was made, with what the lifter changed in it.
func (w *weekNow) edited() load.Plan {
	p := w.made.Plan
	for _, e := range w.edits {
		p = e.apply(p)
	}
	return p
}

// nextWork finds the first work of a lift behind a day; a zero day where none is left.
func nextWork(p load.Plan, lift planner.Lift, day planner.Date) (planner.Date, load.Work) {
	for _, d := range p.Days {
		for _, w := range d.Work {
			if d.Date > day && w.Lift == lift && w.Weight > 0 {
				return d.Date, w
			}
		}
	}
	return 0, load.Work{}
}

// nextChanged finds the first work of a lift behind a day whose load differs between
// two versions of a week; a zero day where none does.
func nextChanged(before, after load.Plan, lift planner.Lift, day planner.Date) (on planner.Date, was, is load.Work) {
	for _, d := range after.Days {
		old, same := before.On(d.Date)
		if d.Date <= day || !same || len(old.Work) != len(d.Work) {
			continue
		}
		for i, w := range d.Work {
			if w.Lift == lift && w.Weight != old.Work[i].Weight {
				return d.Date, old.Work[i], w
			}
		}
	}
	return 0, load.Work{}, load.Work{}
}
