package bot

import (
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// logReach is how many days of a log an estimate looks back on: five years. What is
// older says nothing about today.
const logReach = 5 * 365

// history is what is known about one lift of the course's lifter, for reading its
// level.
func (t *turn) history(c course, lift planner.Lift, variant planner.Variant) (strength.History, error) {
	sets, err := t.longLog(c)
	if err != nil {
		return strength.History{}, err
	}
	return t.historyIn(sets, c, lift, variant)
}

// longLog is the part of a log that says something about today.
func (t *turn) longLog(c course) ([]planner.Set, error) {
	return t.tx.Sets(c.lifter.ID, c.today.AddDays(-logReach), c.today)
}

// historyIn is history with the log read before, for whoever asks about several lifts.
func (t *turn) historyIn(sets []planner.Set, c course, lift planner.Lift, variant planner.Variant) (h strength.History, err error) {
	h = strength.History{
		Lift: lift, Variant: variant, Today: c.today, Level: c.lifter.PlannedLevel(), Equation: strength.Equation(t.club.Equation),
		BenchStyle: c.lifter.BenchStyle, DeadliftStyle: c.lifter.DeadliftStyle, Meets: c.meets, Sets: sets,
	}
	if h.Away, err = t.awaySpans(c.lifter); err != nil {
		return h, err
	}
	if h.Prescribed, err = t.prescribed(c, lift, variant); err != nil {
		return h, err
	}
	if best := c.lifter.Best(lift); best > 0 && variant == "" {
		h.Claim = &strength.Claim{Max: best}
	}
	if !c.has {
		return h, nil
	}
	h.Blocks = c.agreed.Season.Blocks
	for _, e := range load.Deloads(h.Blocks, c.lifter, t.club.WeekStart, c.told()) {
		h.Deloads = append(h.Deloads, strength.Span(e))
	}
	d, err := detailOf(c.agreed)
	h.Expected = expected(d.Plan, h.Level)
	return h, err
}

// awaySpans are the times a lifter said they were away.
func (t *turn) awaySpans(l planner.Lifter) ([]strength.Span, error) {
	aways, err := t.tx.Aways(l.ID)
	var spans []strength.Span
	for _, a := range aways {
		spans = append(spans, strength.Span{From: a.From, To: a.To})
	}
	return spans, err
}

// expected is the weekly change that a plan allows for; before and after it the
// level's usual one.
func expected(p blocks.Plan, level planner.Level) func(planner.Date) float64 {
	changes := p.Model.Changes(p.Blocks)
	return func(d planner.Date) float64 {
		for i := len(changes) - 1; i >= 0; i-- {
			if c := changes[i]; c.Start <= d {
				if d >= c.Start.AddDays(7) {
					break
				}
				return c.Strength
			}
		}
		return strength.Usual(level)
	}
}

// prescribed is what was shown to the lifter of one lift: an unrated set that matches
// it counts with the reserve it was planned with.
func (t *turn) prescribed(c course, lift planner.Lift, variant planner.Variant) ([]strength.Prescription, error) {
	days, err := t.tx.Prescribed(c.lifter.ID, c.today.AddDays(-logReach), c.today)
	var all []strength.Prescription
	for _, d := range days {
		for _, w := range d.Work {
			if w.Lift == lift && w.Variant == variant && w.Weight > 0 && !w.Find {
				all = append(all, strength.Prescription{Day: d.Date, Lift: lift, Variant: variant, Weight: w.Weight, Reps: w.Reps, Reserve: w.Reserve})
			}
		}
	}
	return all, err
}
