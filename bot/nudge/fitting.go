package nudge

import (
	"fmt"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

const (
	// fitDays is over how many days work is compared with its block: two training
	// weeks, so that one odd session proves nothing (common practice).
	fitDays = 14
	// fitSets is how few hard sets in them say nothing.
	fitSets = 12
	// fitShare is the share of hard sets inside the block's range below which work does
	// not fit it.
	fitShare = 0.6
	// recentReach is how many days before the last one logged are looked at.
	recentReach = 28
)

// loadRecent reads the last weeks of the member's log, counted back from its last
// day and not from today.
func (m *Member) loadRecent(tx *store.Tx) (err error) {
	if !m.LastLogged.IsZero() {
		m.Recent, err = tx.Sets(m.Lifter.ID, m.LastLogged.AddDays(-recentReach), m.LastLogged)
	}
	return err
}

// findMisfits: two whole weeks of a block hold little of the work that the block is
// for. It is told on the first day of the next week, once for each block. Who trains
// by own weeks is not told: that is for the coach to see.
func findMisfits(s *search) {
	if s.member.Making.Own || len(s.member.Recent) == 0 {
		return
	}
	easy := s.easyWeeks()
	first := s.member.LastLogged.AddDays(-6).OnOrAfter(s.facts.WeekStart)
	for _, day := range []planner.Date{first, first.AddDays(7)} {
		at := s.on(day)
		if !s.near(day) || s.spared(day, at, easy) || s.spared(day.AddDays(-1), s.on(day.AddDays(-1)), easy) {
			continue
		}
		b := s.member.Season.Blocks[at.Index]
		from := day.AddDays(-fitDays)
		if at.Block.Start > from || s.member.Making.Tables[b.Kind] {
			continue
		}
		fit := load.Fit(load.Within(s.member.Recent, from, day.AddDays(-1)), b.Kind)
		if fit.Hard < fitSets || fit.Share >= fitShare && !fit.Mixing {
			continue
		}
		s.add(Nudge{Day: day, Index: at.Index, Fit: fit}, blockObject(b), b.Start, "fit")
		return
	}
}

// toldFit says what does not match, with numbers, and what follows.
func (n *Nudge) toldFit() []string {
	what := fmt.Sprintf("%d of your %d hard sets (no warm-ups) of the last two weeks have the %d to %d repetitions that your %s is for.",
		n.Fit.Inside, n.Fit.Hard, n.Fit.Low, n.Fit.High, render.BlockName(n.block().Kind))
	if n.Fit.Mixing {
		what = fmt.Sprintf("Your %d hard sets (no warm-ups) of the last two weeks hold many of 8 and more repetitions and many of 3 and fewer: two aims far apart, and each takes from the other. Your %s is for %d to %d.",
			n.Fit.Hard, render.BlockName(n.block().Kind), n.Fit.Low, n.Fit.High)
	}
	return []string{
		what,
		"Nothing of it is lost, but it builds something else than what comes next asks for. Your week as planned: /week.",
		"If you train by a plan of your own, say so below, and I stop comparing.",
	}
}
