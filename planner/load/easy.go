package load

import "blockbell/planner"

// Easy is a deload: its first and last day, both inclusive.
type Easy struct{ From, To planner.Date }

// Deloads lists the deload weeks of a season's blocks for a lifter, oldest first.
// Week plans the same weeks easy.
func Deloads(season []planner.Block, l planner.Lifter, weekStart planner.Weekday) []Easy {
	var easy []Easy
	for i, b := range season {
		var before, next planner.Block
		if i > 0 {
			before = season[i-1]
		}
		if i+1 < len(season) {
			next = season[i+1]
		}
		gap := 99
		if next.Kind == planner.Peaking && !next.TaperStart.IsZero() {
			gap = b.End.DaysUntil(next.TaperStart)
		}
		for week, deload := range deloads(before, b, next.Kind, l.PlannedLevel(), planner.Age(l.Born, b.Start), gap) {
			if deload {
				first := b.Start.OnOrAfter(weekStart).AddDays(7 * week)
				if week == 0 {
					first = b.Start
				}
				easy = append(easy, Easy{first, min(b.End, b.Start.OnOrAfter(weekStart).AddDays(7*week+6))})
			}
		}
	}
	return easy
}
