package bot

import (
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/bodyweight"
	"blockbell/planner/load"
	"blockbell/planner/strength"
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

// measured is the course's lifter with the maxima that kilos are told from: what the log
// comes to where there is one, else what was told. A maximum that is only tried out
// stays as it is.
func (t *turn) measured(c course) (planner.Lifter, render.Maxima, error) {
	l, sources := c.lifter, render.Maxima{}
	for _, lift := range planner.CompetitionLifts() {
		told := c.lifter.Best(lift)
		if told != t.about.Best(lift) {
			continue
		}
		h, err := t.history(c, lift, "")
		if err != nil {
			return l, sources, err
		}
		r := strength.Read(h)
		if e, known := estimateOf(r, 0); known && e.Source == load.Trend {
			setBest(&l, lift, planner.Kilograms(r.Kg))
			sources.Logged = append(sources.Logged, lift)
		}
	}
	before, err := t.measuredBefore(c)
	sources.Before = before
	return l, sources, err
}

// measuredBefore tells whether the maxima are from before the last time away: nothing was
// logged since.
func (t *turn) measuredBefore(c course) (bool, error) {
	var back planner.Date
	for _, a := range c.aways {
		if a.From <= c.today && !a.To.IsZero() && a.To < c.today {
			back = max(back, a.To.AddDays(1))
		}
	}
	if back.IsZero() {
		return false, nil
	}
	last, err := t.tx.LastLogged(c.lifter.ID)
	return last < back, err
}

// inKilos fills in what a plan's gain is told in, and what else was told that bears on
// its picture.
func (t *turn) inKilos(c course, v *render.SeasonView) (err error) {
	if v.Lifter, v.Maxima, err = t.measured(c); err != nil {
		return err
	}
	v.Away = c.told()
	off, err := t.tx.LiftsOff(c.lifter.ID, c.today)
	for _, o := range off {
		v.Off = append(v.Off, render.LiftAway{Lift: o.Lift, Until: o.Until})
	}
	return err
}

// fromToday is the plan that gains are told from: they count from today, so a plan that
// runs and was made on an earlier day is laid out again. Where that leads to other
// blocks, none is told.
func (t *turn) fromToday(c course, p blocks.Plan) *blocks.Plan {
	runs := c.has && sameBlocks(upcoming(p.Blocks, c.today), upcoming(c.agreed.Season.Blocks, c.today))
	if p.Model.Start.Date == c.today || !runs {
		return &p
	}
	now, err := t.build(c)
	if err != nil || !c.stays(now) {
		return &blocks.Plan{}
	}
	return &now
}

// setMaxima gives a lifter the maxima of another.
func setMaxima(l *planner.Lifter, from planner.Lifter) {
	l.Squat, l.Bench, l.Deadlift = from.Squat, from.Bench, from.Deadlift
}

func setBest(l *planner.Lifter, lift planner.Lift, max planner.Grams) {
	switch lift {
	case planner.Squat:
		l.Squat = max
	case planner.Bench:
		l.Bench = max
	case planner.Deadlift:
		l.Deadlift = max
	}
}
