package nudge

import (
	"blockbell/planner/blocks"
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

// fromHere is what the planner is asked on the nudge's day.
func (f *Facts) fromHere(n *Nudge) blocks.Request {
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
	return r
}
