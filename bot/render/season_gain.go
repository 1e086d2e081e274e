package render

import (
	"fmt"
	"math"
	"strings"

	"blockbell/planner"
	"blockbell/planner/blocks"
)

// leastRegained is the least that is worth telling apart as won back, in percent: below
// it nobody could notice.
const leastRegained = 0.5

// gainLine tells what the plan should bring, in its parts and as a range. What only
// makes up for a time away is told apart from what lies beyond.
func (v SeasonView) gainLine() string {
	p := v.gains()
	if p.GainPercent == nil || p.SharpeningPercent == nil || p.StrengthPercent == nil {
		return ""
	}
	if p.RegainedPercent != nil && *p.RegainedPercent >= leastRegained {
		return "What it should bring: " + v.wonBack() + ". This ranks plans; it is no promise."
	}
	parts := gainParts(*p.SharpeningPercent, *p.StrengthPercent)
	amount := percent(*p.GainPercent)
	if *p.GainPercent < 0.5 {
		return "No real change expected: this plan keeps what you have (" + parts + "). Plans are ranked by this; it is no promise."
	}
	if total := v.total(); p.GainLow != nil && p.GainHigh != nil {
		if amount = percent(*p.GainLow) + " to " + percent(*p.GainHigh); total > 0 {
			amount = gainRange(total, *p.GainLow, *p.GainHigh, v.Lifter.Unit)
		}
	}
	return "What it should bring: " + amount + " (" + parts + "). This ranks plans; it is no promise."
}

// gainLines tell what the plan should bring, what that is reckoned from, and which
// lifts are off the plan.
func (v SeasonView) gainLines() []string {
	var lines []string
	if g := v.gainLine(); g != "" {
		lines = append(lines, g)
		m := v.Maxima
		g := v.gains()
		m.Before = m.Before && g.RegainedPercent != nil && *g.RegainedPercent >= leastRegained
		if from := maximaLine(v.Lifter, m); v.outdated() {
			lines = append(lines, inPercent)
		} else if from != "" && v.total() > 0 {
			lines = append(lines, from)
		}
	}
	for _, o := range v.Off {
		lines = append(lines, "Off the plan: "+string(o.Lift)+" until "+o.Until.Short()+". The lengths of blocks do not hang on one lift.")
	}
	return lines
}

// wonBack tells a gain after a time away: first back to where the lifter was, then what
// lies beyond.
func (v SeasonView) wonBack() string {
	p := v.gains()
	beyond := blocks.Interval{Low: *p.GainPercent - *p.RegainedPercent, High: *p.GainPercent - *p.RegainedPercent}
	if p.BeyondLow != nil && p.BeyondHigh != nil {
		beyond.Low, beyond.High = *p.BeyondLow, *p.BeyondHigh
	}
	return v.wonBackOf(*p.RegainedPercent, beyond, p.Model.Start.Lost)
}

// wonBackOf says how much is won back of what was lost, and what comes beyond it.
// Everything is in percent of today; a total from before the time away is brought down
// to that.
func (v SeasonView) wonBackOf(regained float64, beyond blocks.Interval, l blocks.Lost) string {
	total, unit, lost := v.total(), v.Lifter.Unit, 100*math.Expm1(l.S+l.E)
	if v.Maxima.Before {
		total = planner.Grams(math.Round(float64(total) / (1 + lost/100)))
	}
	amount := func(x float64) string {
		if total == 0 {
			return fmt.Sprintf("%.1f %%", x)
		}
		return strings.TrimPrefix(stepped(total, x, unit), "+")
	}
	if lost-regained >= leastRegained {
		return "about " + amount(regained) + " of the way back to where you were before the time away, about " + amount(lost-regained) + " short of it"
	}
	back := "about " + amount(regained) + " back to where you were before the time away, then "
	switch {
	case total > 0:
		return back + gainSpan(total, beyond.Low, beyond.High, unit) + " beyond it"
	case beyond.High < 0.5:
		return back + "no real change beyond it"
	}
	return back + percent(beyond.Low) + " to " + percent(beyond.High) + " beyond it"
}

// gains is the plan that gains are told from.
func (v SeasonView) gains() blocks.Plan {
	if v.Gains != nil {
		return *v.Gains
	}
	return v.Plan
}

// inPercent says why a gain is told in percent.
const inPercent = "That is from what you could lift today, as the blocks so far have left you. Once your log shows what all three lifts are worth, I tell it in kilos."

// outdated tells whether the maxima were told before blocks that were trained, in which they
// have moved: a gain from today on is no share of them. Those from before a time away
// are brought down to today.
func (v SeasonView) outdated() bool {
	told := len(v.Maxima.Logged) < len(planner.CompetitionLifts())
	start := v.gains().Model.Start
	return told && !v.Maxima.Before && v.Lifter.Total() > 0 && (start.M != 0 || start.C != 0)
}

// total is the total that a gain is told as a share of; 0 where it is unknown or
// outdated, or where fewer lifts count at a meet ahead.
func (v SeasonView) total() planner.Grams {
	if v.outdated() {
		return 0
	}
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
	return gainSpan(total, low, high, unit) + " on your total"
}

// gainSpan is a range of a total without naming that.
func gainSpan(total planner.Grams, low, high float64, unit planner.Unit) string {
	a, b := stepped(total, low, unit), stepped(total, high, unit)
	if a == b {
		return "about " + a
	}
	return a + " to " + b
}

func stepped(total planner.Grams, percent float64, unit planner.Unit) string {
	gain := float64(total) * percent / 100
	step := 2500.0
	if unit == planner.LB {
		return fmt.Sprintf("%+g lb", 5*math.Round(planner.Grams(math.Round(gain)).Lb()/5))
	}
	return fmt.Sprintf("%+g kg", step*math.Round(gain/step)/1000)
}
