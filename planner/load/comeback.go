package load

import "blockbell/planner"

// comeback is the return after time away: sets and maxes are taken lower.
type comeback struct {
	planner.Return
	kind  planner.BlockKind // what is trained instead; empty: the block's own
	heavy bool              // sets at 85 % and more are allowed
	why   string
}

// sets and load are the shares of the week's sets and of the max.
func (c *comeback) sets() float64 { return float64(c.SetsPercent) / 100 }
func (c *comeback) load() float64 { return float64(c.LoadPercent) / 100 }

// comeback looks up what time away asks of this week; nil for nothing.
func (j *job) comeback() *comeback {
	r, ok := planner.ReturnOn(j.Aways, j.end, j.WeekStart)
	if !ok {
		return nil
	}
	c := &comeback{Return: r, heavy: r.LightUntil.IsZero() && (r.Repeat || r.Back().DaysUntil(j.start) >= 10)}
	c.why = "You were away for " + plural(r.Days(), "day") + ": "
	switch {
	case r.Anew:
		c.kind, c.heavy = planner.Hypertrophy, false
		c.why += "begin again with easy weeks of base work."
	case r.Repeat:
		c.why += "last week again, 5 % lighter."
	default:
		c.why += "fewer sets and lighter loads at first; nothing at 85 % or more before day 10."
		if j.block.Kind == planner.Peaking && j.meet.IsZero() || !j.meet.IsZero() && j.Today.DaysUntil(j.meet) >= 35 {
			c.kind = planner.Strength
		}
	}
	return c
}

// weekAfter returns the week of the block to plan: the one before the absence
// again where that is the rule.
func (j *job) weekAfter(week int) int {
	if j.back == nil || !j.back.Repeat || j.back.From < j.block.Start {
		return week
	}
	before, _ := planner.WeekIn(j.block, j.back.From.AddDays(-1), j.WeekStart, j.Aways)
	return max(1, min(week, before))
}

// liftBack is the comeback of one lift that was off the plan; 1, 1 where none.
func (j *job) liftBack(l planner.Lift) (sets, load float64) {
	sets, load = 1, 1
	for _, o := range j.Off {
		if o.Lift != l || o.Until > j.end || o.From.IsZero() {
			continue
		}
		if r, ok := planner.ReturnOn([]planner.Away{{From: o.From, To: o.Until.AddDays(-1)}}, j.end, j.WeekStart); ok {
			sets, load = min(sets, float64(r.SetsPercent)/100), min(load, float64(r.LoadPercent)/100)
		}
	}
	if j.back != nil {
		sets, load = min(sets, j.back.sets()), min(load, j.back.load())
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
