package render

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// gainLine tells what the plan should bring, in two parts and as a range.
func (v SeasonView) gainLine() string {
	p := v.Plan
	if p.GainPercent == nil || p.SharpeningPercent == nil || p.StrengthPercent == nil {
		return ""
	}
	parts := gainParts(*p.SharpeningPercent, *p.StrengthPercent)
	amount := percent(*p.GainPercent)
	if *p.GainPercent < 0.5 {
		return "No real change expected: this plan keeps what you have (" + parts + "). Plans are ranked by this; it is no promise."
	}
	if total := v.total(); total > 0 && p.GainLow != nil && p.GainHigh != nil {
		amount = gainRange(total, *p.GainLow, *p.GainHigh, v.Lifter.Unit)
	}
	return "What it should bring: " + amount + " (" + parts + "). This ranks plans; it is no promise."
}

// total is the total that a gain is told as a share of; 0 where it is unknown, or
// where fewer lifts count at a meet ahead.
func (v SeasonView) total() planner.Grams {
	for _, m := range v.Events {
		if m.Event != "" && m.Event != planner.Full {
			return 0
		}
	}
	return v.Lifter.Total()
}

// gainParts tells where a gain comes from. A part too small to see is not told.
func gainParts(sharpening, strength float64) string {
	var parts []string
	if math.Abs(sharpening) >= 0.05 {
		parts = append(parts, "about "+percent(sharpening)+" from rest and practised singles")
	}
	if math.Abs(strength) >= 0.05 || len(parts) == 0 {
		parts = append(parts, "about "+percent(strength)+" from new strength")
	}
	return List(parts)
}

func percent(x float64) string { return fmt.Sprintf("%+.1f %%", x) }

// gainRange turns percents into a range of the total, each end rounded to 2.5 kg
// (5 lb), the step of a meet.
func gainRange(total planner.Grams, low, high float64, unit planner.Unit) string {
	a, b := stepped(total, low, unit), stepped(total, high, unit)
	if a == b {
		return "about " + a + " on your total"
	}
	return a + " to " + b + " on your total"
}

func stepped(total planner.Grams, percent float64, unit planner.Unit) string {
	gain := float64(total) * percent / 100
	step := 2500.0
	if unit == planner.LB {
		return fmt.Sprintf("%+g lb", 5*math.Round(planner.Grams(math.Round(gain)).Lb()/5))
	}
	return fmt.Sprintf("%+g kg", step*math.Round(gain/step)/1000)
}
