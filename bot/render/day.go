package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
)

// Day shows one session so that it can be done from the phone: how to warm up, what
// to lift, what goes on each side, how long to rest.
func Day(v WeekView, d load.Day) chat.Message {
	m := chat.Message{Title: v.Who + v.dayTitle(d), Data: v.Data(d)}
	lines := []string{fmt.Sprintf("%s. About %d minutes.", v.weekTitle(), d.Minutes)}
	if v.Done[d.Date] {
		lines = append(lines, "There are sets of this day in your log.")
	}
	if d.Note != "" {
		lines = append(lines, Sentence(d.Note))
	}
	lifts := map[planner.Lift]bool{}
	for _, w := range d.Work {
		lifts[w.Lift] = true
	}
	lines = append(lines, v.moved(lifts)...)
	lines = append(lines, leftHint)
	if heavy(d) {
		lines = append(lines, "Spotter or safety bars, collars closed.")
	}
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	warmed := map[planner.Lift]bool{}
	for i, group := range grouped(d.Work) {
		if i >= chat.MaxFields {
			break
		}
		f := chat.Field{Name: fmt.Sprintf("%d. %s", i+1, strings.TrimSuffix(Sentence(group[0].Name), "."))}
		f.Value = clip(strings.Join(v.groupLines(group, warmed), "\n"), chat.MaxFieldValue)
		m.Fields = append(m.Fields, f)
	}
	return m
}

// heavyFrom is the percent from which a set wants help at hand (common practice).
const heavyFrom = 85

func heavy(d load.Day) bool {
	for _, w := range d.Work {
		if w.Percent >= heavyFrom && w.Lift != planner.Deadlift {
			return true
		}
	}
	return false
}

func (v WeekView) dayTitle(d load.Day) string {
	day := d.Date.Short()
	switch {
	case d.Date == v.Today && v.Who != "":
		day = "today"
	case d.Date == v.Today:
		day = "Today"
	}
	return day + ": " + SessionName(d)
}

// SessionName names a session by its lifts: "squat and bench".
func SessionName(d load.Day) string {
	var names []string
	seen := map[planner.Lift]bool{}
	for _, w := range d.Work {
		if w.Role != load.Accessory && !seen[w.Lift] {
			seen[w.Lift] = true
			names = append(names, string(w.Lift))
		}
	}
	if len(names) == 0 {
		return "accessories"
	}
	return List(names)
}

// grouped puts neighbouring work of the same movement together.
func grouped(work []load.Work) (groups [][]load.Work) {
	for _, w := range work {
		if n := len(groups); n > 0 && groups[n-1][0].Movement() == w.Movement() {
			groups[n-1] = append(groups[n-1], w)
			continue
		}
		groups = append(groups, []load.Work{w})
	}
	return groups
}

// groupLines are the lines of one movement. The ramp of a lift stands before its
// first work only.
func (v WeekView) groupLines(group []load.Work, warmed map[planner.Lift]bool) []string {
	var lines []string
	first := group[0]
	if !warmed[first.Lift] {
		if ramp := v.ramp(first); ramp != "" {
			lines, warmed[first.Lift] = append(lines, ramp), true
		}
	}
	for i, w := range group {
		line := v.setLine(w)
		if i > 0 {
			line = "Then " + lowerFirst(line)
		}
		lines = append(lines, line)
		if side := v.perSide(w); side != "" {
			lines = append(lines, side)
		}
	}
	if rest := restText(first.Rest); rest != "" {
		lines = append(lines, rest)
	}
	return lines
}

// setLine is one line of work in words.
func (v WeekView) setLine(w load.Work) string {
	sets := Count(w.Sets, "set") + " of " + fmt.Sprint(w.Reps)
	switch {
	case w.Find && w.Weight > 0:
		return fmt.Sprintf("%s: start with %s and add until a set leaves %s. Log it, and I set the next ones.", sets, v.Weight(w.Weight), strings.TrimSuffix(spare(w.Reserve), " left"))
	case w.Find:
		return fmt.Sprintf("%s: start light and add until a set leaves %s. Log it, and I set the next ones.", sets, strings.TrimSuffix(spare(w.Reserve), " left"))
	case w.Weight == 0:
		line := sets + ", a weight that leaves " + strings.TrimSuffix(spare(w.Reserve), " left")
		if s, ok := v.Last[w.Movement()]; ok {
			line += fmt.Sprintf("; last time %s x %d", v.Weight(s.Weight), s.Reps)
		}
		return line
	}
	return sets + " with " + v.Weight(w.Weight) + ", " + spare(w.Reserve)
}

// ramp is the way to the first work set.
func (v WeekView) ramp(w load.Work) string {
	sets, err := load.WarmUp(w, v.Gym)
	if err != nil || len(sets) == 0 {
		return ""
	}
	var steps []string
	for _, s := range sets {
		weight := s.Weight.Number(v.gymUnit())
		if len(s.Plates.PerSide) == 0 && (!s.Plates.Collars || !v.withCollars()) {
			weight = "bar"
		}
		steps = append(steps, fmt.Sprintf("%s x %d", weight, s.Reps))
	}
	lead := "Warm up: "
	if unit := v.foreign(); unit != "" {
		lead = "Warm up, in" + unit + ": "
	}
	return lead + strings.Join(steps, ", ")
}

func (v WeekView) gymUnit() planner.Unit {
	if v.Gym.Unit == "" {
		return planner.KG
	}
	return v.Gym.Unit
}

// restText writes seconds of rest as minutes.
func restText(seconds int) string {
	switch {
	case seconds <= 0:
		return ""
	case seconds%60 == 0:
		return "Rest " + Count(seconds/60, "minute")
	case seconds%30 == 0:
		return fmt.Sprintf("Rest %g minutes", float64(seconds)/60)
	}
	return fmt.Sprintf("Rest %d seconds", seconds)
}

// DayWhy tells where the sets and loads of a session come from.
func DayWhy(v WeekView, d load.Day) chat.Message {
	m := chat.Message{Title: "Why: " + d.Date.Short(), Data: v.Data(d)}
	lines := v.moved(nil)
	for _, c := range v.Plan.Changed {
		lines = append(lines, c.Text)
	}
	m.Text = clip(strings.Join(append(lines, "Estimated max: what you could lift once."), "\n"), chat.MaxText)
	for i, w := range d.Work {
		if i >= chat.MaxFields-1 {
			break
		}
		value := v.why(w)
		if value == "" {
			value = "Accessory: choose the weight by what is left."
		}
		m.Fields = append(m.Fields, chat.Field{Name: fmt.Sprintf("%s %d x %d", strings.TrimSuffix(Sentence(w.Name), "."), w.Sets, w.Reps), Value: clip(value, chat.MaxFieldValue)})
	}
	if know := append(append([]string{}, v.Plan.Notes...), v.Plan.LeftOut...); len(know) > 0 {
		m.Fields = append(m.Fields, chat.Field{Name: "This week", Value: clip(strings.Join(know, "\n"), chat.MaxFieldValue)})
	}
	return m
}

// why tells where a load comes from, with the max as it stands now.
func (v WeekView) why(w load.Work) string {
	if w.Percent > 0 && w.Max > 0 && !w.Find {
		return fmt.Sprintf("%.1f %% of %s, %s", w.Percent, v.about(w.Max), w.Why)
	}
	return w.Why
}

// about writes an estimate to the half kilogram.
func (v WeekView) about(kg float64) string {
	if v.Lifter.Unit == planner.LB {
		return fmt.Sprintf("about %.0f lb", planner.Kilograms(kg).Lb())
	}
	return "about " + planner.Kilograms(float64(int(kg*2+0.5))/2).Text(planner.KG)
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }
