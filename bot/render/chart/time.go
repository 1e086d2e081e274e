package chart

import (
	"time"

	"gonum.org/v1/plot"

	"blockbell/planner"
)

// months are ticks at the first of each month, thinned out over long times.
type months struct{ from, to planner.Date }

// Ticks marks months by name, and by year at each January and at the first mark.
func (m months) Ticks(_, _ float64) []plot.Tick {
	step := 1
	for days := m.from.DaysUntil(m.to); days/(30*step) > 9; step++ {
	}
	var ticks []plot.Tick
	year, month, _ := m.from.Civil()
	for d := planner.NewDate(year, month, 1); d <= m.to; d = nextMonth(d) {
		_, mo, _ := d.Civil()
		if d < m.from || (int(mo)-1)%step != 0 {
			continue
		}
		label := mo.String()[:3]
		if len(ticks) == 0 || mo == time.January {
			label += " " + d.String()[:4]
		}
		ticks = append(ticks, plot.Tick{Value: float64(d), Label: label})
	}
	return ticks
}

func nextMonth(d planner.Date) planner.Date {
	year, month, _ := d.Civil()
	if month == time.December {
		return planner.NewDate(year+1, time.January, 1)
	}
	return planner.NewDate(year, month+1, 1)
}
