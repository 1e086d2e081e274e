package nudge

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
	"blockbell/store"
)

// upkeepReach is how many days back sets are read to compare a week's work with that
// of the last muscle block: half a year.
const upkeepReach = 182

// fill adds what the words of a nudge need and the rules do not: it costs a look
// into the log, so only what is about to be said gets it.
func fill(tx *store.Tx, n *Nudge) (err error) {
	switch n.Kind {
	case PeakingLong:
		n.Sets, err = tx.Sets(n.Member.Lifter.ID, n.Day.AddDays(-upkeepReach), n.Day)
	case Plateau:
		err = n.fillStall(tx)
	}
	return err
}

// upkeep says which muscle groups got less work in the last seven days than keeps
// them; empty where none did or nothing is known.
func (f *Facts) upkeep(n *Nudge) string {
	before := n.lastMuscleBlock()
	if before.Start.IsZero() || len(n.Sets) == 0 {
		return ""
	}
	then := load.UsualWeek(load.Volume(between(n.Sets, before.Start, before.End), f.WeekStart))
	now := load.UsualWeek(load.Volume(between(n.Sets, n.Day.AddDays(-6), n.Day), n.Day.AddDays(-6).Weekday()))
	var short []string
	for _, k := range load.Upkeep(now, then, planner.Age(n.Member.Lifter.Born, n.Day)) {
		if k.Short() && k.Need >= 1 { // less is no log to judge by
			short = append(short, fmt.Sprintf("%s %.0f of %.0f", k.Muscle, k.Sets, k.Need))
		}
	}
	if len(short) == 0 {
		return ""
	}
	slices.Sort(short)
	return "Short of what keeps muscle, in hard sets of the last seven days: " + strings.Join(short[:min(len(short), 3)], ", ") + "."
}

// lastMuscleBlock is the last muscle block before the nudge's block; zero where there
// is none.
func (n *Nudge) lastMuscleBlock() planner.Block {
	for i := n.Index - 1; i >= 0; i-- {
		if b := n.Member.Season.Blocks[i]; b.Kind == planner.Hypertrophy {
			return b
		}
	}
	return planner.Block{}
}

func between(sets []planner.Set, from, to planner.Date) []planner.Set {
	var in []planner.Set
	for _, s := range sets {
		if s.Day >= from && s.Day <= to {
			in = append(in, s)
		}
	}
	return in
}

// ways says what the planner would do from the nudge's day on, and the best other
// shape beside it; empty where it finds nothing.
func (f *Facts) ways(n *Nudge) string {
	r := blocks.Request{
		Today: n.Day, Lifter: n.Member.Lifter, Rules: blocks.Rules{WeekStart: f.WeekStart, WomenShorter: f.WomenShorter},
		Running: &blocks.Running{Kind: n.block().Kind, Start: n.block().Start},
	}
	for _, m := range n.Member.Meets {
		if m.Date > n.Day {
			r.Meets = append(r.Meets, m)
		}
	}
	for _, b := range n.Member.Season.Blocks[:n.Index] {
		r.History = append(r.History, blocks.Past{Kind: b.Kind, Weeks: b.Weeks})
	}
	p, err := blocks.Build(r)
	if err != nil || len(p.Blocks) == 0 {
		return ""
	}
	text := "From here I would plan: " + shape(p.Blocks, n.Day)
	if len(p.RunnersUp) > 0 {
		text += fmt.Sprintf("; or: %s, %.1f %% behind by the planner's measure", shape(p.RunnersUp[0].Blocks, n.Day), p.RunnersUp[0].CostPercent)
	}
	return text + "."
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
