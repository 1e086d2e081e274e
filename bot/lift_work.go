package bot

import (
	"fmt"
	"math"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
)

// workDays is over how many days the work on a lift is looked at.
const workDays = 28

// workOn says how much was done of a lift in the last four weeks of the running block,
// how that matches the block, and whether its main muscle group is kept. Empty where no
// block of work runs or it has run for less than a week.
func (t *turn) workOn(c course, lift planner.Lift, sets []planner.Set) string {
	if c.at.Index < 0 || c.at.Block.Kind == planner.Recovery {
		return ""
	}
	from := max(c.today.AddDays(1-workDays), c.at.Block.Start)
	days := from.DaysUntil(c.today) + 1
	all := load.Within(sets, from, c.today)
	var own []planner.Set
	for _, s := range all {
		if s.Lift == lift {
			own = append(own, s)
		}
	}
	fit := load.Fit(own, c.at.Block.Kind)
	if days < 7 || fit.Hard == 0 {
		return ""
	}
	perWeek := 7 / float64(days)
	text := fmt.Sprintf("About %s a week since %s", render.Count(int(math.Round(float64(fit.Hard)*perWeek)), "hard set"), from.Short())
	if lo, hi, ok := load.SetRange(c.lifter.PlannedLevel(), c.at.Block.Kind, lift); ok {
		text += fmt.Sprintf(" (%d to %d are usual in your %s)", lo, hi, render.BlockShort(c.at.Block.Kind))
	}
	text += fmt.Sprintf("; %d of %d have the %d to %d repetitions that it is for.", fit.Inside, fit.Hard, fit.Low, fit.High)
	return text + t.keeps(c, lift, all, perWeek)
}

// keeps says whether the main muscle group of a lift gets what keeps it, in blocks that
// are not for muscle.
func (t *turn) keeps(c course, lift planner.Lift, sets []planner.Set, perWeek float64) string {
	if c.at.Block.Kind == planner.Hypertrophy {
		return ""
	}
	_, hi := load.MuscleRange(c.lifter.PlannedLevel())
	need := load.UpkeepShare(planner.Age(c.lifter.Born, c.today)) * float64(hi)
	for group, share := range load.Muscles(load.Movement{Lift: lift}) {
		if share < 1 {
			continue
		}
		done := 0.0
		for _, w := range load.Volume(sets, t.club.WeekStart) {
			done += w.Muscles[group] * perWeek
		}
		text := "\n" + render.Label(string(group)) + ": about " + render.Count(int(math.Round(done)), "set") + " a week from all lifts"
		if done < need {
			return text + fmt.Sprintf("; about %.0f keep the muscle you have.", need)
		}
		return text + ", enough to keep the muscle you have."
	}
	return ""
}
