package render

import (
	"fmt"
	"math"
	"slices"

	"blockbell/planner"
)

// Maxima says which of a lifter's maxima come from the log; the others were told.
type Maxima struct {
	Logged []planner.Lift
	// Before tells that they are from before the last time away: nothing was logged since.
	Before bool
}

// maximaLine says what total kilos are told as a share of, and where it comes from;
// empty where it is unknown.
func maximaLine(l planner.Lifter, m Maxima) string {
	if l.Total() == 0 {
		return ""
	}
	var logged, told []string
	for _, lift := range planner.CompetitionLifts() {
		max := string(lift) + " " + halves(l.Best(lift), l.Unit)
		if slices.Contains(m.Logged, lift) {
			logged = append(logged, max)
		} else {
			told = append(told, max)
		}
	}
	total := "Reckoned from a total of " + halves(l.Total(), l.Unit)
	if m.Before {
		total += " before the time away"
	}
	switch {
	case len(logged) == 0:
		return total + ", as told: " + List(told) + "."
	case len(told) == 0:
		return total + ", estimated from your log: " + List(logged) + "."
	}
	return total + ": " + List(logged) + " estimated from your log, " + List(told) + " as told."
}

// halves is a mass to half a kilo, or to a pound: an estimate is no finer.
func halves(g planner.Grams, unit planner.Unit) string {
	if unit == planner.LB {
		return fmt.Sprintf("%.0f lb", g.Lb())
	}
	return fmt.Sprintf("%g kg", math.Round(2*g.Kg())/2)
}
