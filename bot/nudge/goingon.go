package nudge

import (
	"fmt"
	"math"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// aheadWeeks is how far the cost of going on is told where no meet is ahead.
const aheadWeeks = 4

// alikePercent is a difference at a meet that is none to nature, in percent (common
// practice).
const alikePercent = 0.5

// goingOn says what peaking on would cost by the planner's model: in another week, and
// by the next main meet, against the plan that the planner would make.
func goingOn(n *Nudge, p blocks.Plan) string {
	muscle, single := peakOn(p.Model, 1)
	text := "If you go on peaking: in one more week " + lost(muscle) + " and " + move(single)
	meet, ok := n.nextMain()
	if !ok {
		muscle, single = peakOn(p.Model, aheadWeeks)
		return fmt.Sprintf("%s; in %d weeks %s and %s. No meet is ahead that it would be for.", text, aheadWeeks, lost(muscle), move(single))
	}
	muscle, single = peakOn(p.Model, weeksTo(p.Model, meet.Date))
	text += fmt.Sprintf("; by %s (%s) %s and %s", called(meet.Name), render.InDays(n.Day.DaysUntil(meet.Date)), lost(muscle), move(single))
	for _, g := range p.MeetGains {
		if g.Date != meet.Date {
			continue
		}
		if behind := g.Percent - single; behind >= alikePercent {
			text += fmt.Sprintf(", %.1f %% less on the day than with the first plan below", behind)
		}
	}
	return text + ". The planner's model; a rough guess."
}

// nextMain is the next main meet after the nudge's day.
func (n *Nudge) nextMain() (next planner.Meet, ok bool) {
	for _, m := range n.Member.Meets {
		if m.Date > n.Day && m.Kind == planner.Main && (!ok || m.Date < next.Date) {
			next, ok = m, true
		}
	}
	return next, ok
}

// weeksTo counts the training weeks that begin from the model's day on and before
// another.
func weeksTo(m blocks.Model, to planner.Date) (weeks int) {
	for d := m.Start.Date.OnOrAfter(m.WeekStart); d < to; d = d.AddDays(7) {
		weeks++
	}
	return weeks
}

// peakOn is what so many more weeks of peaking do, in percent: to muscle and to the
// single.
func peakOn(m blocks.Model, weeks int) (muscle, single float64) {
	x := m.Start.State
	for w := range weeks {
		x = m.Week(x, planner.Peaking, m.Start.Week+w)
	}
	from := m.Start.State
	return percent(x.M - from.M), percent(x.S + x.E - from.S - from.E)
}

// lost says what becomes of muscle, in percent.
func lost(percent float64) string {
	if percent > -0.05 {
		return "muscle stays"
	}
	return fmt.Sprintf("about %.1f %% of muscle goes", -percent)
}

// move says what becomes of the single, in percent.
func move(percent float64) string {
	if math.Abs(percent) < 0.05 {
		return "the single stays about where it is"
	}
	return fmt.Sprintf("the single moves by about %+.1f %%", percent)
}

// percent turns a difference of logarithms into percent.
func percent(log float64) float64 { return 100 * math.Expm1(log) }

// ways tells the two best ways on from the nudge's day; where there is one only, why
// there is no other.
func ways(n *Nudge, p blocks.Plan) string {
	text := "From here I would plan: " + shape(p.Blocks, n.Day)
	if len(p.RunnersUp) == 0 {
		return text + ". There is no other way: " + n.noOther() + "."
	}
	text += "; or: " + shape(p.RunnersUp[0].Blocks, n.Day)
	if behind := p.RunnersUp[0].CostPercent; behind >= alikePercent {
		return text + fmt.Sprintf(", %.1f %% behind by the planner's measure.", behind)
	}
	return text + ". No real difference; choose by the calendar."
}

// shortestRound is the shortest strength block with the shortest peaking behind it, in
// weeks (common practice).
const shortestRound = 6

// noOther says why one way is left.
func (n *Nudge) noOther() string {
	meet, ok := n.nextMain()
	if days := n.Day.DaysUntil(meet.Date); ok && days < 7*shortestRound {
		return fmt.Sprintf("%s left to %s, and a new strength block with peaking behind it takes %d weeks at least",
			left(days), called(meet.Name), shortestRound)
	}
	return "the rules for the order and length of blocks leave none until then"
}

// left says how much time is left, in full weeks from two on.
func left(days int) string {
	text, one := render.Count(days, "day"), days == 1
	if days >= 14 {
		text, one = render.Count(days/7, "full week"), false
	}
	if one {
		return text + " is"
	}
	return text + " are"
}

// shape is a run of blocks in words, from a day on.
func shape(all []planner.Block, from planner.Date) string {
	var parts []string
	for _, b := range all {
		if b.End >= from {
			parts = append(parts, render.BlockShort(b.Kind)+" to "+b.End.Short())
		}
	}
	return strings.Join(parts, ", ")
}
