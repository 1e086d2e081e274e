package load

import "blockbell/planner"

// comeback is the return after time away: sets and maxes are taken lower.
type comeback struct {
	sets    float64           // share of the week's sets
	load    float64           // share of the max
	kind    planner.BlockKind // what is trained instead; empty: the block's own
	heavy   bool              // sets at 85 % and more are allowed
	repeats bool              // the week before the absence is done again
	why     string
}

// rows of the return, by days away (common practice). Each pair is the share of
// sets and of the load in the weeks since the return.
var comebacks = []struct {
	from  int
	weeks [][2]float64
}{
	{56, [][2]float64{{0.5, 0.80}, {0.7, 0.85}, {0.9, 0.90}, {1, 0.95}}},
	{28, [][2]float64{{0.5, 0.85}, {0.7, 0.90}, {0.9, 0.95}}},
	{14, [][2]float64{{0.6, 0.90}, {0.8, 0.95}}},
	{7, [][2]float64{{1, 0.95}}},
}

// comebackAfter returns the row for an absence in a given week since the return,
// from 0; false where training goes on as planned.
func comebackAfter(days, week int) (sets, load float64, ok bool) {
	for _, c := range comebacks {
		if days >= c.from {
			if week < 0 || week >= len(c.weeks) {
				return 1, 1, false
			}
			return c.weeks[week][0], c.weeks[week][1], true
		}
	}
	return 1, 1, false
}

// returning is what a time away asks of the week that holds a day behind it; false
// where training goes on as planned.
func returning(a planner.Away, day planner.Date, ws planner.Weekday) (sets, load float64, ok bool) {
	days := a.From.DaysUntil(a.To) + 1
	if a.To.IsZero() || days < 7 {
		return 1, 1, false
	}
	return comebackAfter(days, weeksBetween(a.To.AddDays(1), day, ws))
}

// weeksBetween is how many training weeks began after the one that holds d, up to
// the one that holds to.
func weeksBetween(d, to planner.Date, ws planner.Weekday) int {
	return d.OnOrBefore(ws).DaysUntil(to.OnOrBefore(ws)) / 7
}

// weeksSince is how many training weeks began after the one that holds d.
func (j *job) weeksSince(d planner.Date) int {
	return weeksBetween(d, j.Today, j.WeekStart)
}

// comeback looks up what an absence asks of this week; nil for nothing.
func (j *job) comeback() *comeback {
	sets, load, ok := returning(j.away, j.end, j.WeekStart)
	if !ok {
		return nil
	}
	days, back := j.away.From.DaysUntil(j.away.To)+1, j.away.To.AddDays(1)
	c := &comeback{sets: sets, load: load, heavy: true, repeats: days < 14}
	c.why = "You were away for " + plural(days, "day") + ": "
	switch {
	case days >= 56:
		c.kind, c.heavy = planner.Hypertrophy, false
		c.why += "begin again with easy weeks of base work."
	case days >= 14:
		c.heavy = back.DaysUntil(j.start) >= 10
		c.why += "fewer sets and lighter loads at first; nothing at 85 % or more before day 10."
		if j.block.Kind == planner.Peaking && j.meet.IsZero() || !j.meet.IsZero() && j.Today.DaysUntil(j.meet) >= 35 {
			c.kind = planner.Strength
		}
	default:
		c.why += "last week again, 5 % lighter."
	}
	return c
}

// weekAfter returns the week of the block to plan: the one before the absence
// again where that is the rule.
func (j *job) weekAfter(week int) int {
	if j.back == nil || !j.back.repeats || j.away.From < j.block.Start {
		return week
	}
	before, _ := planner.WeekIn(j.block, j.away.From.AddDays(-1), j.WeekStart, j.Aways)
	return max(1, min(week, before))
}

// liftBack is the comeback of one lift that was off the plan; 1, 1 where none.
func (j *job) liftBack(l planner.Lift) (sets, load float64) {
	sets, load = 1, 1
	for _, o := range j.Off {
		if o.Lift != l || o.Until > j.end || o.From.IsZero() {
			continue
		}
		if s, k, ok := comebackAfter(o.From.DaysUntil(o.Until), j.weeksSince(o.Until)); ok {
			sets, load = min(sets, s), min(load, k)
		}
	}
	if j.back != nil {
		sets, load = min(sets, j.back.sets), min(load, j.back.load)
	}
	return sets, load
}

// off tells whether a lift is off the plan on a day.
func (j *job) off(l planner.Lift, on planner.Date) bool {
	for _, o := range j.Off {
		if o.Lift == l && on < o.Until && (o.From.IsZero() || on >= o.From) {
			return true
		}
	}
	return false
}
