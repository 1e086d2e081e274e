package render

import (
	"fmt"
	"math"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
)

// WeekDoneView is what was done in one training week.
type WeekDoneView struct {
	Lifter     planner.Lifter
	Who        string // the lifter's name where somebody else asks
	Today      planner.Date
	Start, End planner.Date
	Block      planner.Block // zero: none ran
	Week       int           // of the block, from 1
	Easy       bool          // an easy week or the taper
	Own        bool          // trains by own weeks, so nothing was planned
	Volume     load.WeekVolume
	Fit        load.Fitting
	Kept       []load.Kept // against what keeps muscle; empty where that is not asked
	FromLog    bool        // Kept compares with the lifter's own muscle block
	Jumps      []load.Change
	Overload   []load.Progress
	Done       load.Adhered
}

// WeekDone shows what a training week held: sets by lift and muscle, how they match
// the block, what of the plan was done, and whether the bar got heavier.
func WeekDone(v WeekDoneView) chat.Message {
	m := chat.Message{Title: v.title(), Data: v.data()}
	switch {
	case v.Volume.Start.IsZero() && v.End < v.Today:
		m.Text = "Nothing logged in that week."
	case v.Volume.Start.IsZero():
		m.Text = "Nothing logged in this week yet."
	}
	add := func(name, value string) {
		if value != "" {
			m.Fields = append(m.Fields, chat.Field{Name: name, Value: clip(value, chat.MaxFieldValue)})
		}
	}
	add("Hard sets (work, no warm-ups)", v.lifts())
	add("By muscle (sets that help only a bit count half)", v.muscles())
	add("Does it match the block?", v.fits())
	add("Done of the plan", v.done())
	add("Heavier at the same effort", v.heavier())
	return m
}

func (v WeekDoneView) title() string {
	title := "Week from " + v.Start.Short()
	if v.Who != "" {
		title += ", " + v.Who
	}
	if v.Block.Kind != "" {
		title += fmt.Sprintf(": %s, week %d", BlockShort(v.Block.Kind), v.Week)
	}
	if v.Easy {
		title += ", an easy one"
	}
	return title
}

// lifts lists the hard sets of each lift with what is usual in the block.
func (v WeekDoneView) lifts() string {
	var lines []string
	for _, l := range planner.CompetitionLifts() {
		n := v.Volume.Lifts[l]
		if n == 0 {
			continue
		}
		line := fmt.Sprintf("%s: %d", l, n)
		if lo, hi, ok := load.SetRange(v.Lifter.PlannedLevel(), v.Block.Kind, l); ok && !v.Easy {
			line += fmt.Sprintf(" (usual %d to %d)", lo, hi)
		}
		if top, ok := v.Volume.Top[l]; ok {
			line += fmt.Sprintf("; heaviest %s x %d", top.Weight.Text(v.Lifter.Unit), top.Reps)
		}
		lines = append(lines, line)
	}
	for _, j := range v.Jumps {
		lines = append(lines, j.Text)
	}
	return strings.Join(lines, "\n")
}

// muscles lists the sets of each group, and those that got less than keeps them.
func (v WeekDoneView) muscles() string {
	if len(v.Volume.Muscles) == 0 {
		return ""
	}
	var all, short []string
	for _, g := range load.Groups() {
		all = append(all, fmt.Sprintf("%s %g", g, v.Volume.Muscles[g]))
	}
	for _, k := range v.Kept {
		if k.Short() && math.Round(k.Need) > k.Sets {
			short = append(short, fmt.Sprintf("%s %g of about %.0f", k.Muscle, k.Sets, k.Need))
		}
	}
	text := strings.Join(all, ", ") + "."
	share := "a third"
	if load.UpkeepShare(planner.Age(v.Lifter.Born, v.Start)) >= 0.5 {
		share = "half"
	}
	of := share + " of what a muscle block usually holds"
	if v.FromLog {
		of = share + " of your last muscle block"
	}
	switch running := v.End >= v.Today; {
	case v.Block.Kind == planner.Hypertrophy && !v.Easy:
		lo, hi := load.MuscleRange(v.Lifter.PlannedLevel())
		text += fmt.Sprintf("\nUsual in a muscle block: %d to %d each.", lo, hi)
	case len(v.Kept) == 0 || v.Easy:
	case len(short) == 0:
		text += "\nEnough everywhere to keep the muscle you have (" + of + ")."
	case running:
		text += "\nStill to come this week, to keep the muscle you have (" + of + "): " + strings.Join(short, ", ") + "."
	default:
		text += "\nLess than keeps the muscle you have (" + of + "): " + strings.Join(short, ", ") + "."
	}
	return text
}

// fits says how many sets have the repetitions that the block is for.
func (v WeekDoneView) fits() string {
	if v.Block.Kind == "" || v.Fit.Hard == 0 {
		return ""
	}
	text := fmt.Sprintf("Hard sets of %d to %d repetitions do: %d of %d.", v.Fit.Low, v.Fit.High, v.Fit.Inside, v.Fit.Hard)
	if v.Fit.Mixing {
		text += " Long sets and very heavy ones stand side by side: two aims far apart, and each takes from the other."
	}
	return text
}

// done says how much of what was shown as planned was done.
func (v WeekDoneView) done() string {
	if v.Own || v.Done.Sets == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %s, %d of %s.", v.Done.SessionsDone, Count(v.Done.Sessions, "session"), v.Done.SetsDone, Count(v.Done.Sets, "set"))
}

// heavier says how the load moved at equal repetitions and effort in the last six
// weeks: of each lift the pair furthest apart.
func (v WeekDoneView) heavier() string {
	var lines []string
	told := map[planner.Lift]bool{}
	for _, p := range v.Overload {
		if told[p.Lift] {
			continue
		}
		told[p.Lift] = true
		moved := "the same"
		if p.After != p.Before {
			moved = fmt.Sprintf("%+.1f %% a week", p.PercentPerWeek)
		}
		lines = append(lines, fmt.Sprintf("%s, sets of %d with %g left: %s on %s, %s on %s (%s)", p.Lift, p.Reps, p.Reserve,
			p.Before.Text(v.Lifter.Unit), p.From.Short(), p.After.Text(v.Lifter.Unit), p.To.Short(), moved))
	}
	return strings.Join(lines, "\n")
}

// data is the week for programs.
func (v WeekDoneView) data() map[string]any {
	lifts, muscles, overload := []map[string]any{}, []map[string]any{}, []map[string]any{}
	for _, l := range planner.CompetitionLifts() {
		if n := v.Volume.Lifts[l]; n > 0 {
			lifts = append(lifts, map[string]any{"lift": l, "hard_sets": n, "tonnage_kg": v.Volume.Tonnage[l], "top_kg": v.Volume.Top[l].Weight.Kg()})
		}
	}
	need := map[load.Muscle]float64{}
	for _, k := range v.Kept {
		need[k.Muscle] = k.Need
	}
	for _, g := range load.Groups() {
		row := map[string]any{"muscle": g, "sets": v.Volume.Muscles[g], "keeps": nil}
		if len(v.Kept) > 0 {
			row["keeps"] = need[g]
		}
		muscles = append(muscles, row)
	}
	for _, p := range v.Overload {
		overload = append(overload, map[string]any{"lift": p.Lift, "reps": p.Reps, "rir": p.Reserve, "from": p.From, "to": p.To,
			"before_kg": p.Before.Kg(), "after_kg": p.After.Kg(), "percent_per_week": p.PercentPerWeek})
	}
	return map[string]any{
		"start": v.Start, "end": v.End, "block": orNull(string(v.Block.Kind)), "lifts": lifts, "muscles": muscles, "overload": overload,
		"fit":  map[string]any{"hard_sets": v.Fit.Hard, "inside": v.Fit.Inside, "mixing": v.Fit.Mixing},
		"done": map[string]any{"sessions": v.Done.Sessions, "sessions_done": v.Done.SessionsDone, "sets": v.Done.Sets, "sets_done": v.Done.SetsDone},
	}
}
