package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blockbell/planner"
	"blockbell/planner/blocks"
)

// change shows the agreed plan and a new one side by side by their dates, why it is
// proposed, and what it costs to stay.
func (v SeasonView) change() []string {
	if len(v.Old) == 0 {
		return nil
	}
	old, now := notOver(v.Old, v.Today), notOver(v.Blocks, v.Today)
	if len(old) == 0 || slices.EqualFunc(old, now, sameDays) {
		return nil
	}
	lines := Beside(old, now)
	if why := v.Plan.KeepWhy; why != "" {
		return append(lines, why)
	}
	if v.Plan.Kept {
		return append(lines, "It is the agreed plan with the time away taken out.")
	}
	if v.Plan.KeepCostPercent != nil {
		lines = append(lines, v.staying(*v.Plan.KeepCostPercent))
	}
	return lines
}

func sameDays(a, b planner.Block) bool {
	return a.Kind == b.Kind && a.Start == b.Start && a.End == b.End
}

// Beside sets the agreed blocks against new ones: block by block where the order is
// the same, as two lists where it is not.
func Beside(old, now []planner.Block) []string {
	same := slices.EqualFunc(old, now, func(a, b planner.Block) bool { return a.Kind == b.Kind })
	if !same {
		return []string{"Agreed so far: " + Until(old) + ".", "New: " + Until(now) + "."}
	}
	lines := []string{"Last days, as agreed so far and new:"}
	for i := range old {
		lines = append(lines, Sentence(shift(old[i], now[i])))
	}
	return lines
}

// shift is one line: how the last day of a block moves.
func shift(old, now planner.Block) string {
	name := BlockShort(old.Kind)
	if sameDays(old, now) {
		return name + ": " + old.End.Short() + ", as before"
	}
	if old.End == now.End {
		return fmt.Sprintf("%s: to %s as before, from %s instead of %s", name, now.End.Short(), now.Start.Short(), old.Start.Short())
	}
	days := old.End.DaysUntil(now.End)
	moved := ""
	switch {
	case days > 0:
		moved = fmt.Sprintf(" (%s later)", Count(days, "day"))
	case days < 0:
		moved = fmt.Sprintf(" (%s earlier)", Count(-days, "day"))
	}
	return fmt.Sprintf("%s: %s, new: %s%s", name, old.End.Short(), now.End.Short(), moved)
}

// Until lists blocks by their last days.
func Until(bs []planner.Block) string {
	var out []string
	for _, b := range bs {
		out = append(out, BlockShort(b.Kind)+" to "+b.End.Short())
	}
	return strings.Join(out, ", ")
}

// notOver are the blocks that are not over.
func notOver(bs []planner.Block, today planner.Date) []planner.Block {
	var out []planner.Block
	for _, b := range bs {
		if b.End >= today {
			out = append(out, b)
		}
	}
	return out
}

// ahead lists the blocks that are not over as short phrases.
func ahead(bs []planner.Block, today planner.Date) []string {
	var out []string
	for _, b := range notOver(bs, today) {
		out = append(out, BlockShort(b.Kind)+" to "+b.End.Short())
	}
	return out
}

// A difference below one of these is none that a lifter could notice: plans that
// near are chosen by the calendar (common practice: half of what a good lifter's
// meets vary by).
const (
	noPercent = 0.5
	noKilos   = 2.5
)

// Noticed tells whether a percentage of the prediction is one that a lifter could
// notice.
func Noticed(percent float64, l planner.Lifter) bool {
	return percent >= noPercent && (l.Total() == 0 || l.Total().Kg()*percent/100 >= noKilos)
}

// staying says what it costs to keep the agreed plan.
func (v SeasonView) staying(percent float64) string {
	if !Noticed(percent, v.Lifter) {
		return "Staying with the agreed plan makes no real difference (" + amount(percent, v.Lifter) + "); choose by the calendar."
	}
	return "Staying with the agreed plan costs about " + amount(percent, v.Lifter) + "."
}

// amount is a percentage of the prediction in the lifter's unit, else in percent.
func amount(percent float64, l planner.Lifter) string {
	if l.Total() == 0 {
		return fmt.Sprintf("%.1f %%", percent)
	}
	gain := planner.Grams(math.Round(float64(l.Total()) * percent / 100))
	if l.Unit == planner.LB {
		return fmt.Sprintf("%.0f lb of your total", gain.Lb())
	}
	return fmt.Sprintf("%.1f kg of your total", gain.Kg())
}

// Stays says that the agreed plan goes on, and what a new one would have gained.
func Stays(p blocks.Plan, l planner.Lifter) string {
	return "Your plan stays as it is. " + StaysWhy(p, l)
}

// StaysWhy says why the agreed plan goes on.
func StaysWhy(p blocks.Plan, l planner.Lifter) string {
	if p.KeepCostPercent == nil || *p.KeepCostPercent < 0.005 {
		return "It still fits best."
	}
	return "Another one would gain " + amount(*p.KeepCostPercent, l) + ", too little to change it for."
}
