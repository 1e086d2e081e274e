package load

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// explain adds to each load where it comes from.
func (j *job) explain(days []Day) {
	for i := range days {
		for k, w := range days[i].Work {
			if w.Percent > 0 && !w.Find {
				days[i].Work[k].Why = join(j.why(w), w.Why)
			}
		}
	}
}

// why tells where a load comes from, to be read behind its percent and max, which may
// move later: "79 % of 102 kg, your estimated max: 6 repetitions with 3 left."
func (j *job) why(w Work) string {
	share := find(w.Movement()).share
	_, load := j.liftBack(w.Lift)
	of := "your estimated max"
	if j.Estimates[w.Lift].Source == Claimed {
		of = "95 % of the max you told"
	}
	if w.Variant != "" {
		of = fmt.Sprintf("since the %s is taken at %.0f %% of the %s", w.Name, share*100, w.Lift)
	}
	if load < 1 {
		of += fmt.Sprintf(", %.0f %% lower for now", (1-load)*100)
	}
	text := fmt.Sprintf("%s: %s with %s left.", of, plural(w.Reps, "repetition"), half(w.Reserve))
	if w.Max > 0 && planner.Kilograms(w.Max*w.Percent/100) < j.rack.gym.Bar {
		text += " The empty bar is the lightest there is: slow, exact repetitions."
	}
	if exact := planner.Kilograms(w.Max * w.Percent / 100); exact > w.Weight+j.rack.step() {
		text += " Held back to one step above last week's load."
	}
	if top, why := j.ceiling(w.Lift); why != "" && w.Percent > top-2 {
		text += " " + sentence(why)
	}
	return text
}

// restAfter is the pause between sets in seconds, longer for heavier work (common
// practice).
func restAfter(w Work) int {
	switch {
	case w.Role == Accessory:
		return 90
	case w.Percent >= 88:
		return 240
	case w.Percent >= 80:
		return 210
	case w.Percent >= 75:
		return 180
	}
	return 150
}

// half writes repetitions left in halves as a lifter says them.
func half(r float64) string {
	if r >= 6 {
		return "6 or more"
	}
	if r == math.Trunc(r) {
		return fmt.Sprintf("%.0f", r)
	}
	return fmt.Sprintf("%.0f-%.0f", math.Floor(r), math.Ceil(r))
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// sentence makes a clause a sentence.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return string(s[0]-'a'+'A') + s[1:] + "."
}
