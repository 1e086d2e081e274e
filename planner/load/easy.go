package load

import "blockbell/planner"

// Easy is a deload: its first and last day, both inclusive.
type Easy struct{ From, To planner.Date }

// Deloads lists the deload weeks of a season's blocks for a lifter, oldest first.
// Week plans the same weeks easy: weeks of the given times away are left out, and
// who has just come back has no deload, for that week is easy anyway.
func Deloads(season []planner.Block, l planner.Lifter, weekStart planner.Weekday, away []planner.Away) []Easy {
	var easy []Easy
	trained := counted(season, weekStart, away)
	for i, b := range trained {
		var before, next planner.Block
		if i > 0 {
			before = trained[i-1]
		}
		if i+1 < len(trained) {
			next = trained[i+1]
		}
		gap := 99
		if next.Kind == planner.Peaking && !next.TaperStart.IsZero() {
			gap = b.End.DaysUntil(next.TaperStart)
		}
		marks := deloads(before, b, next.Kind, l.PlannedLevel(), planner.Age(l.Born, b.Start), gap)
		easy = append(easy, easyWeeks(b, marks, weekStart, away)...)
	}
	return easy
}

// easyWeeks are the dates of the marked training weeks of a block.
func easyWeeks(b planner.Block, marks []bool, ws planner.Weekday, away []planner.Away) (easy []Easy) {
	for d, seen := b.Start, 0; d <= b.End; {
		last := min(b.End, d.OnOrBefore(ws).AddDays(6))
		if d < b.Start.OnOrAfter(ws) { // odd days in front belong to the first week
			last = min(b.End, b.Start.OnOrAfter(ws).AddDays(6))
		}
		week, _ := planner.WeekIn(b, last, ws, away)
		if week > seen && week <= len(marks) && marks[week-1] {
			if _, back := planner.ReturnOn(away, last, ws); !back {
				easy = append(easy, Easy{d, last})
			}
		}
		seen, d = week, last.AddDays(1)
	}
	return easy
}
