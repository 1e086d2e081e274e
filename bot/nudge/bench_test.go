package nudge_test

import (
	"fmt"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// hundred is a club of a hundred lifters with a season and a meet each.
func hundred() nudge.Facts {
	f := club()
	for i := range 100 {
		m := ana()
		m.Lifter.ID, m.Lifter.Handle, m.Lifter.Name = planner.LifterID(i+1), fmt.Sprintf("lifter%02d", i), fmt.Sprintf("Lifter %02d", i)
		f.Members = append(f.Members, m)
	}
	return f
}

// One look back over a fortnight, as each minute's run makes it.
func BenchmarkDueHundredLifters(b *testing.B) {
	f := hundred()
	now := time.Date(2027, 6, 5, 8, 0, 0, 0, time.UTC)
	for b.Loop() {
		nudge.Due(f, now.AddDate(0, 0, -14), now)
	}
}

// A run of a club of a hundred in a minute in which nothing is due.
func BenchmarkRunNothingDue(b *testing.B) {
	h := newHouse(b, hundred())
	now := time.Date(2027, 6, 6, 12, 0, 0, 0, time.UTC)
	h.run(now)
	for b.Loop() {
		h.run(now)
	}
}
