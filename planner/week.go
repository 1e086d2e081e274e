package planner

// WeekOf returns the training week, from 1, in which today falls for a block
// that started on start. Training weeks begin on weekStart; odd days before the
// first of them belong to week 1.
func WeekOf(start, today Date, weekStart Weekday) int {
	first := start.OnOrAfter(weekStart)
	if today < first {
		return 1
	}
	return first.DaysUntil(today)/7 + 1
}

// WeeksDone returns how many training weeks have begun in [start, today), which
// is what counts as done when a plan is made on today.
func WeeksDone(start, today Date, weekStart Weekday) int {
	first := start.OnOrAfter(weekStart)
	if today <= first {
		return 0
	}
	return (first.DaysUntil(today)-1)/7 + 1
}
