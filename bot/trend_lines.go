package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

const (
	// stalledDays is how many days a reading says something about today.
	stalledDays = 28
	// fitDays, fitSets and fitShare say when work does not match its block: two whole
	// training weeks with at least so many hard sets and less than this share inside
	// the block's range (common practice). Who trains by own weeks is judged by a wider
	// one.
	fitDays  = 14
	fitSets  = 12
	fitShare = 0.6
	ownShare = 0.4
)

// stalled lists the lifts of a lifter that stand still or fall, by a log that still
// speaks of today.
func (t *turn) stalled(c course) (lifts []string, err error) {
	all, err := t.tx.Readings(c.lifter.ID)
	for _, r := range all {
		if !r.Stalled.IsZero() && r.Day.DaysUntil(c.today) <= stalledDays {
			lifts = append(lifts, string(r.Lift))
		}
	}
	return lifts, err
}

// trendLines say to captains which lifts of a lifter stand still, and where work does
// not match the block; empty where nothing is to be said.
func (t *turn) trendLines(c course) (out [2]string, err error) {
	lifts, err := t.stalled(c)
	if err != nil {
		return out, err
	}
	if len(lifts) > 0 {
		out[0] = strings.Join(lifts, ", ") + " (/lift " + lifts[0] + " lifter:\"" + render.Called(c.lifter) + "\")"
	}
	out[1], err = t.misfit(c)
	return out, err
}

// misfit says how much of the last two whole training weeks matched the running block,
// where that is little.
func (t *turn) misfit(c course) (string, error) {
	last := c.today.OnOrBefore(t.club.WeekStart).AddDays(-1)
	from := last.AddDays(1 - fitDays)
	if c.at.Index < 0 || c.at.Block.Kind == planner.Recovery || c.at.Block.Start > from {
		return "", nil
	}
	tr, err := t.tx.Training(c.lifter.ID)
	if err != nil {
		return "", err
	}
	share := fitShare
	switch t.weeksOf(tr) {
	case store.OwnWeeks:
		share = ownShare
	case store.ClubWeeks:
		return "", nil // the club's own week is the measure there, and it has no range
	}
	sets, err := t.tx.Sets(c.lifter.ID, from, last)
	if err != nil {
		return "", err
	}
	fit := load.Fit(sets, c.at.Block.Kind)
	if fit.Hard < fitSets || fit.Share >= share && !fit.Mixing {
		return "", nil
	}
	return fmt.Sprintf("%d of %d hard sets of the last two weeks, %s", fit.Inside, fit.Hard, render.BlockShort(c.at.Block.Kind)), nil
}
