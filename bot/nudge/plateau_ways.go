package nudge

import (
	"fmt"
	"math"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
	"blockbell/store"
)

const (
	// planDone is the share of planned sets below which doing them comes first.
	planDone = 0.8
	// soon is how many days before its beginning the next block is worth naming as
	// the way out.
	soon = 21
)

// fillStall reads what the ways out hang on: what was done of the plan in the last
// four weeks.
func (n *Nudge) fillStall(tx *store.Tx) (err error) {
	from := n.Day.AddDays(-readFresh)
	if n.Sets, err = tx.Sets(n.Member.Lifter.ID, from, n.Day.AddDays(-1)); err != nil {
		return err
	}
	n.Shown, err = tx.Prescribed(n.Member.Lifter.ID, from, n.Day.AddDays(-1))
	return err
}

// toldPlateau says what the log shows, and the ways out that fit this lifter.
func (f *Facts) toldPlateau(n *Nudge) []string {
	what := "Your " + string(n.Stall.Lift) + " stands still for now."
	if n.Stall.Verdict == strength.Falling {
		what = "Your " + string(n.Stall.Lift) + " has gone back a little."
	}
	lines := []string{what + " " + n.Stall.Reason}
	if ways := f.waysOut(n); len(ways) > 0 {
		lines = append(lines, "What usually helps: "+strings.Join(ways, "; ")+".")
	}
	return append(lines, "This happens to everybody who trains for long, and nothing changes unless you want it.")
}

// waysOut lists at most two ways out of a halt, the first one first (common
// practice): do what is planned, rest where rest is short, then another amount or
// another form of the work, or the next block, which changes it anyway.
func (f *Facts) waysOut(n *Nudge) (ways []string) {
	if a := load.Adherence(ofLift(n.Shown, n.Stall.Lift), n.Sets, n.Day); a.Sets > 0 && a.Share < planDone {
		ways = append(ways, fmt.Sprintf("first the plan as it stands (%d of %d planned sets of it are in the log of the last four weeks)", a.SetsDone, a.Sets))
	}
	if n.Member.veryTired(n.Day) {
		ways = append(ways, "rest before more work, since you said 'very tired' twice")
	}
	if next := n.Index + 1; next < len(n.Member.Season.Blocks) {
		if b := n.Member.Season.Blocks[next]; b.Kind != planner.Recovery && n.Day.DaysUntil(b.Start) <= soon {
			ways = append(ways, "the next block, which changes the work anyway ("+render.BlockName(b.Kind)+" from "+b.Start.Short()+")")
		}
	}
	if len(ways) == 0 {
		ways = append(ways, f.moreWork(n))
	}
	return ways[:min(len(ways), 2)]
}

// closeVariant is another form of a competition lift that keeps it trained.
var closeVariant = map[planner.Lift]string{planner.Squat: "paused squat", planner.Bench: "close-grip bench", planner.Deadlift: "paused deadlift"}

// moreWork compares the weekly sets of the lift with what is usual, and says which
// way a change would go.
func (f *Facts) moreWork(n *Nudge) string {
	sets := 0
	for _, w := range load.Volume(n.Sets, f.WeekStart) {
		sets += w.Lifts[n.Stall.Lift]
	}
	weekly := float64(sets) / (readFresh / 7)
	lo, hi, ok := load.SetRange(n.Member.Lifter.PlannedLevel(), n.block().Kind, n.Stall.Lift)
	variant := "a close variant in its place for four weeks, such as " + closeVariant[n.Stall.Lift]
	if !n.Member.Making.Own {
		variant += " (/week override lift:" + string(n.Stall.Lift) + " instead:\"" + closeVariant[n.Stall.Lift] + "\")"
	}
	switch {
	case n.block().Kind == planner.Peaking:
		return "to leave the work as it is: less of it and practised singles bring out what is there by the meet"
	case !ok || weekly >= float64(hi)-0.5:
		return variant
	case weekly < float64(lo)-0.5:
		return fmt.Sprintf("more of it (about %s a week in your log, %d to %d are usual in this block)", render.Count(int(math.Round(weekly)), "hard set"), lo, hi)
	}
	return fmt.Sprintf("one more hard set of it a week (about %.0f now, %d to %d are usual in this block; your coach can set it)", weekly, lo, hi)
}

// ofLift leaves only the work of one lift in planned days.
func ofLift(days []load.Day, l planner.Lift) (out []load.Day) {
	for _, d := range days {
		var work []load.Work
		for _, w := range d.Work {
			if w.Lift == l {
				work = append(work, w)
			}
		}
		if d.Work = work; len(work) > 0 {
			out = append(out, d)
		}
	}
	return out
}
