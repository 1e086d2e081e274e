package nudge

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"blockbell/planner"
	"blockbell/planner/load"
)

// How long what a block built lasts once it is no longer trained.
const (
	// muscleLasts is in days without enough work, of a range of 7 to 21 (Ogasawara et
	// al. 2011; Mujika and Padilla 2001; weak evidence).
	muscleLasts = "about 14 days without enough muscle work (anything from 7 to 21; Ogasawara et al. 2011, Mujika and Padilla 2001)"
	// strengthLasts is 30 days with a spread of 5 (Issurin 2008, a table by experts).
	strengthLasts = "about 30 days (25 to 35; Issurin 2008)"
	// strengthLastsOld is for 60 years and more.
	strengthLastsOld = "about 21 days (from 60 years on; common practice)"
)

// fading says what fades in a peaking block that runs long: how much muscle work there
// was against what keeps muscle, and how long what the earlier blocks built lasts.
func (f *Facts) fading(n *Nudge) []string {
	age := planner.Age(n.Member.Lifter.Born, n.Day)
	strength := strengthLasts
	if age >= 60 {
		strength = strengthLastsOld
	}
	return []string{
		f.upkeep(n, age),
		"What a muscle block built lasts " + muscleLasts + n.since(planner.Hypertrophy) +
			". What a strength block built lasts " + strength + n.since(planner.Strength) + ".",
	}
}

// since says how long ago the last block of a kind before the nudge's ended; empty
// where there was none.
func (n *Nudge) since(k planner.BlockKind) string {
	b := n.lastBlock(k)
	if b.Start.IsZero() {
		return ""
	}
	return fmt.Sprintf("; yours ended %d days ago", b.End.DaysUntil(n.Day))
}

// upkeep says how many hard sets each muscle group got in the last seven days against
// what keeps it: a third, from 60 years a half, of the sets of the last muscle block
// (Bickel et al. 2011; Spiering et al. 2021), where none was logged of what the table
// of sets has for the level.
func (f *Facts) upkeep(n *Nudge, age int) string {
	share := "a third"
	if age >= 60 {
		share = "half"
	}
	then, whose := f.usual(n, age)
	now := load.UsualWeek(load.Volume(load.Within(n.Sets, n.Day.AddDays(-6), n.Day), n.Day.AddDays(-6).Weekday()))
	head := fmt.Sprintf("To keep muscle you need %s of %s, in hard sets a week", share, whose)
	var short, all []load.Kept
	for _, k := range load.Upkeep(now, then, age) {
		if k.Need < 1 { // never worked hard, so nothing to keep
			continue
		}
		all = append(all, k)
		if k.Short() {
			short = append(short, k)
		}
	}
	least := func(a, b load.Kept) int { return cmp.Compare(a.Sets/a.Need, b.Sets/b.Need) }
	if len(short) == 0 {
		return head + ": the last seven days had enough (least: " + inSets(slices.MinFunc(all, least)) + ")."
	}
	slices.SortStableFunc(short, least)
	var parts []string
	for _, k := range short[:min(len(short), 3)] {
		parts = append(parts, inSets(k))
	}
	return fmt.Sprintf("%s. Short in the last seven days: %s (%d of %d muscle groups).", head, strings.Join(parts, ", "), len(short), len(all))
}

// inSets says how many sets of those needed a muscle group got.
func inSets(k load.Kept) string {
	return fmt.Sprintf("%s %g of %.0f", k.Muscle, math.Floor(2*k.Sets)/2, math.Ceil(k.Need-1e-9))
}

// usual is a week's hard sets by muscle group in the last muscle block, and whose they
// are; where hardly any was logged, the least that the table has for the level.
func (f *Facts) usual(n *Nudge, age int) (map[load.Muscle]float64, string) {
	if b := n.lastBlock(planner.Hypertrophy); !b.Start.IsZero() {
		week := load.UsualWeek(load.Volume(load.Within(n.Sets, b.Start, b.End), f.WeekStart))
		if slices.ContainsFunc(load.Upkeep(nil, week, age), func(k load.Kept) bool { return k.Need >= 1 }) {
			return week, "what you did in your muscle block"
		}
	}
	level := n.Member.Lifter.PlannedLevel()
	lo, hi := load.MuscleRange(level)
	week := map[load.Muscle]float64{}
	for _, g := range load.Groups() {
		week[g] = float64(lo)
	}
	return week, fmt.Sprintf("a usual muscle block, %d to %d for each muscle group (common practice for %s lifters; your log has no or hardly any sets of one)", lo, hi, level)
}

// lastBlock is the last block of a kind before the nudge's block; zero where there is
// none.
func (n *Nudge) lastBlock(k planner.BlockKind) planner.Block {
	for i := n.Index - 1; i >= 0; i-- {
		if b := n.Member.Season.Blocks[i]; b.Kind == k {
			return b
		}
	}
	return planner.Block{}
}
