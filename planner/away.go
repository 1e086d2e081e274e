package planner

import "slices"

// Away is a time without training, as it was told: its first and its last day. To
// is zero for somebody who is not back yet.
type Away struct{ From, To Date }

// On tells whether a day lies in the time away.
func (a Away) On(d Date) bool { return a.From <= d && (a.To.IsZero() || d <= a.To) }

// awayWeekDays is how many days of a training week make it a week away.
const awayWeekDays = 4

// WeekIn tells which training week of a block a day falls in, and how many training
// weeks the block has. Weeks away are none: those of which a time away of a week or
// more takes at least four days (common practice). A day of a week away belongs to
// the training week before it, and odd days in front of the first week to week 1.
// Past the block's end the count goes on. This is the only place that counts it.
func WeekIn(b Block, today Date, weekStart Weekday, told []Away) (week, weeks int) {
	spans := longAways(told, today)
	week, weeks = WeekOf(b.Start, today, weekStart), b.Weeks
	for d := b.Start.OnOrAfter(weekStart); d <= max(today, b.End); d = d.AddDays(7) {
		if !awayWeek(spans, d) {
			continue
		}
		if d <= today {
			week--
		}
		if d <= b.End {
			weeks = -1 // not all of its weeks are trained, so they are counted
		}
	}
	if weeks < 0 {
		weeks = 0
		for d := b.Start.OnOrAfter(weekStart); d <= b.End; d = d.AddDays(7) {
			if !awayWeek(spans, d) {
				weeks++
			}
		}
	}
	return max(1, week), max(weeks, min(1, b.Weeks))
}

// longAways joins times away that overlap or follow each other, and leaves out
// those of less than a week. Somebody who is not back is away up to today.
func longAways(told []Away, today Date) (joined []Away) {
	all := slices.Clone(told)
	slices.SortFunc(all, func(a, b Away) int { return int(a.From - b.From) })
	for _, a := range all {
		if a.To.IsZero() {
			a.To = max(a.From, today)
		}
		if n := len(joined); n > 0 && a.From <= joined[n-1].To.AddDays(1) {
			joined[n-1].To = max(joined[n-1].To, a.To)
			continue
		}
		joined = append(joined, a)
	}
	return slices.DeleteFunc(joined, func(a Away) bool { return a.From.DaysUntil(a.To) < shortestAway-1 })
}

// awayWeek tells whether the training week that begins on d is a week away.
func awayWeek(spans []Away, d Date) bool {
	return slices.ContainsFunc(spans, func(a Away) bool {
		return max(a.From, d).DaysUntil(min(a.To, d.AddDays(6)))+1 >= awayWeekDays
	})
}
