package bot

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// madeWeek is a training week as it is kept: the plan of the day it was made, the
// maxes in kg it rests on, and the sets those maxes know already.
type madeWeek struct {
	Plan    load.Plan                    `json:"plan"`
	Max     map[planner.Lift]float64     `json:"max"`
	Sources map[planner.Lift]load.Source `json:"sources"` // of the maxes; none: not known
	Counted []setRef                     `json:"counted"`
	// Began are the maxes the week rested on when it was first made, Before the sets
	// they knew.
	Began  map[planner.Lift]float64 `json:"began"`
	Before []setRef                 `json:"before"`
	// Steps is what its own top sets moved before it was made again: factors on Began,
	// and what was said.
	Steps     map[planner.Lift]float64 `json:"steps"`
	StepsSaid []render.Moved           `json:"steps_said"`
	Said      []render.Moved           `json:"said"` // what top sets moved before the week was made
}

// weekNow is a lifter's training week as it stands.
type weekNow struct {
	course  course
	request load.Request
	made    madeWeek
	edits   []weekEdit
	basis   string
	plan    load.Plan      // made, edited, and moved by the log
	sets    []planner.Set  // logged in it
	said    []render.Moved // what the log moved
	moved   moves
	preview bool // of a week to come: nothing of it is kept
}

// weekOn returns the training week that holds a day of the running or a coming
// block. It is made once and then stays, but for what the lifter changes, what is
// set anew, and what the log moves.
func (t *turn) weekOn(c course, tr store.Training, b planner.Block, on planner.Date) (weekNow, error) {
	w := weekNow{course: c}
	var err error
	if w.request, err = t.weekRequest(c, tr, b, on); err != nil {
		return w, err
	}
	start := weekStart(b, on, t.club.WeekStart)
	w.preview = start > c.today
	if w.sets, err = t.tx.Sets(c.lifter.ID, start, start.AddDays(6)); err != nil {
		return w, err
	}
	if w.basis, err = basisOf(w.request); err != nil {
		return w, err
	}
	if err := t.makeWeek(&w, start); err != nil {
		return w, err
	}
	w.plan = w.edited()
	w.plan, w.moved = follow(w.plan, w.sets, w.made.Counted, w.request)
	w.said = slices.Concat(w.made.Said, w.made.StepsSaid, w.moved.said)
	return w, t.asShown(&w)
}

// weekStart is the first day of the training week of a block that holds a day.
func weekStart(b planner.Block, on planner.Date, ws planner.Weekday) planner.Date {
	return max(on.OnOrBefore(ws), b.Start)
}

// makeWeek reads the week that was made, or makes it.
func (t *turn) makeWeek(w *weekNow, start planner.Date) error {
	kept, has, err := t.tx.TrainingWeek(w.course.lifter.ID, start)
	if err != nil {
		return err
	}
	if has {
		edits, week := json.Unmarshal(kept.Edits, &w.edits), json.Unmarshal(kept.Plan, &w.made)
		if edits == nil && week == nil && kept.Basis == w.basis {
			if stands, err := t.stands(w); err != nil || stands {
				return err
			}
		}
	}
	if err := t.addStrength(&w.request, w.course); err != nil {
		return err
	}
	was := *w // without sessions where it was not made before
	w.made = madeWeek{Max: map[planner.Lift]float64{}, Sources: sourcesOf(w.request)}
	if err := t.fromLastWeek(w, start); err != nil {
		return err
	}
	if err := t.fromThisWeek(w, was); err != nil {
		return err
	}
	if w.made.Plan, err = load.Week(w.request); err != nil {
		return err
	}
	w.made.know(w.request.Estimates, w.sets)
	if len(was.made.Plan.Days) > 0 {
		w.keepPast(was.made)
	}
	return nil
}

// stands tells whether a week still rests on what its maxes come from: the first log
// of a lift is worth more than a told max, so it is made again then, and once only.
func (t *turn) stands(w *weekNow) (bool, error) {
	trends := 0
	for _, s := range w.made.Sources {
		if s == load.Trend {
			trends++
		}
	}
	if trends == len(planner.CompetitionLifts()) {
		return true, nil
	}
	if err := t.addStrength(&w.request, w.course); err != nil {
		return false, err
	}
	return maps.Equal(w.made.Sources, sourcesOf(w.request)), nil
}

// sourcesOf says where the max of each lift comes from.
func sourcesOf(r load.Request) map[planner.Lift]load.Source {
	sources := map[planner.Lift]load.Source{}
	for lift, e := range r.Estimates {
		sources[lift] = e.Source
	}
	return sources
}

// fromLastWeek carries over what was shown and logged in the week before.
func (t *turn) fromLastWeek(w *weekNow, start planner.Date) error {
	i := planner.At(w.request.Season, start.AddDays(-1))
	if i < 0 {
		return nil
	}
	before := weekStart(w.request.Season[i], start.AddDays(-1), t.club.WeekStart)
	kept, has, err := t.tx.TrainingWeek(w.course.lifter.ID, before)
	var last madeWeek
	if err != nil || !has || json.Unmarshal(kept.Plan, &last) != nil {
		return err
	}
	var edits []weekEdit
	if json.Unmarshal(kept.Edits, &edits) == nil {
		for _, e := range edits {
			last.Plan = e.apply(last.Plan)
		}
	}
	sets, err := t.tx.Sets(w.course.lifter.ID, before, start.AddDays(-1))
	if err != nil {
		return err
	}
	plan, moved := follow(last.Plan, sets, last.Counted, w.request)
	w.request.Previous = &plan
	for lift, f := range last.Steps {
		moved.factor[lift] = f * cmp.Or(moved.factor[lift], 1)
	}
	carried(&w.request, last.Began, moved)
	w.made.Said = append(last.StepsSaid, moved.said...)
	return nil
}

// asShown puts days back as they were shown that are past, or that the log has
// begun to answer: what was asked for does not change behind the lifter's back.
func (t *turn) asShown(w *weekNow) error {
	shown, err := t.tx.Prescribed(w.course.lifter.ID, w.plan.Start, min(w.plan.End, w.course.today))
	if err != nil {
		return err
	}
	for _, d := range shown {
		if d.Date == w.course.today && !w.logged(d.Date) {
			continue
		}
		at := slices.IndexFunc(w.plan.Days, func(x load.Day) bool { return x.Date >= d.Date })
		inPlan := at >= 0 && w.plan.Days[at].Date == d.Date
		switch {
		case !inPlan && !w.logged(d.Date): // its work has moved to another day
		case at < 0:
			w.plan.Days = append(w.plan.Days, d)
		case inPlan:
			w.plan.Days[at] = d
		default:
			w.plan.Days = slices.Insert(w.plan.Days, at, d)
		}
	}
	return nil
}

// logged tells whether a set of a competition lift or a variant was logged on a day.
func (w *weekNow) logged(d planner.Date) bool {
	return slices.ContainsFunc(w.sets, func(s planner.Set) bool { return s.Day == d && s.Lift.Competition() })
}

// missed lists the sessions of the week before today that nothing was logged for.
func (w *weekNow) missed() (days []load.Day) {
	for _, d := range w.plan.Days {
		if d.Date < w.course.today && !w.logged(d.Date) {
			days = append(days, d)
		}
	}
	return days
}

// keepWeek keeps the week and what of it was shown just now: the days from today on
// that nothing was logged for yet.
func (t *turn) keepWeek(w *weekNow) error {
	if w.preview || w.plan.End < w.course.today {
		return nil
	}
	plan, err := json.Marshal(w.made)
	if err != nil {
		return err
	}
	edits, err := json.Marshal(append([]weekEdit{}, w.edits...))
	if err != nil {
		return err
	}
	id := w.course.lifter.ID
	if err := t.tx.SaveTrainingWeek(id, store.TrainingWeek{Start: w.made.Plan.Start, Basis: w.basis, Plan: plan, Edits: edits}, t.now); err != nil {
		return err
	}
	for d := max(w.course.today, w.plan.Start); d <= w.plan.End; d = d.AddDays(1) {
		day, has := w.plan.On(d)
		switch {
		case w.logged(d):
			continue
		case has:
			err = t.tx.Prescribe(id, day, t.now)
		default:
			err = t.tx.Unprescribe(id, d)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// changeWeek adds an edit to the week and keeps it.
func (t *turn) changeWeek(w *weekNow, e weekEdit) error {
	w.edits = append(w.edits, e)
	w.plan = e.apply(w.plan)
	return t.keepWeek(w)
}
