package render

import (
	"fmt"
	"math"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// NewRecord is one line about a record that was just set. Was is what it beat, in kg.
func NewRecord(r strength.Record, was float64, unit planner.Unit, own bool) string {
	name := load.Movement{Lift: r.Lift, Variant: r.Variant}.Name()
	more := " /lift " + name + " shows all."
	switch r.Gear {
	case "", planner.Raw:
	case planner.Wraps:
		name += " in wraps"
	default:
		name += " in " + string(r.Gear) + " gear"
	}
	your := "Your best"
	if !own {
		your, more = "Best", ""
	}
	before := planner.Kilograms(was).Text(unit)
	switch r.Kind {
	case strength.BestSingle:
		return fmt.Sprintf("%s %s so far: %s; it was %s.%s", your, name, r.Weight.Text(unit), before, more)
	case strength.BestReps:
		return fmt.Sprintf("%s %s for %d so far: %s; it was %s.%s", your, name, r.Reps, r.Weight.Text(unit), before, more)
	}
	return fmt.Sprintf("%s %s so far by estimated max (what you could lift once): about %s; it was %s.%s",
		your, name, Estimate(r.Kg, unit), Estimate(was, unit), more)
}

// Estimate writes an estimate to the half kilogram or the pound: more digits would
// claim more than is known.
func Estimate(kg float64, unit planner.Unit) string {
	if unit == planner.LB {
		return fmt.Sprintf("%.0f lb", planner.Kilograms(kg).Lb())
	}
	return planner.Kilograms(math.Round(kg*2) / 2).Text(planner.KG)
}
