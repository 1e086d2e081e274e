package render

import (
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// notTold stands where a lifter has not told something.
const notTold = "not told"

// Profile shows what is known about a lifter.
func Profile(l planner.Lifter, public bool) chat.Message {
	fields := []chat.Field{
		{Name: "Category you compete in", Value: orNotTold(string(l.Category))},
		{Name: "Level", Value: orNotTold(string(l.Level))},
		{Name: "Date of birth", Value: orNotTold(dateOrEmpty(l.Born))},
		{Name: "Best singles", Value: maxima(l)},
		{Name: "Competition form in training", Value: formPhrase(l)},
		{Name: "Bodyweight and class", Value: massOrNotTold(l.Bodyweight, l.Unit) + ", class " + orNotTold(l.Class.String())},
		{Name: "Training days a week", Value: daysOrNotTold(l.Days)},
		{Name: "Zone and unit", Value: orElse(l.Zone, "the club's zone") + ", " + orElse(string(l.Unit), "kg")},
		{Name: "Where I tell you things", Value: WherePhrase(l.Nudges)},
	}
	return chat.Message{Title: "About " + Called(l), Fields: fields, Data: map[string]any{"profile": profileData(l, public)}}
}

// Called is what a lifter is called on screen.
func Called(l planner.Lifter) string {
	if l.Name != "" {
		return l.Name
	}
	return l.Handle
}

func profileData(l planner.Lifter, public bool) map[string]any {
	return map[string]any{
		"name": Called(l), "handle": l.Handle, "captain": l.Captain,
		"category": orNull(string(l.Category)), "born": orNull(dateOrEmpty(l.Born)),
		"bodyweight_kg": kgOrNull(l.Bodyweight), "class": orNull(l.Class.String()), "level": orNull(string(l.Level)),
		"zone": orNull(l.Zone), "unit": l.Unit, "days": intOrNull(l.Days),
		"squat_kg": kgOrNull(l.Squat), "bench_kg": kgOrNull(l.Bench), "deadlift_kg": kgOrNull(l.Deadlift),
		"bench_style": orNull(string(l.BenchStyle)), "deadlift_style": orNull(string(l.DeadliftStyle)),
		"nudges": orNull(string(l.Nudges)), "competed": l.HasCompeted, "long_blocks": l.LongBlocks, "public": public,
	}
}

func maxima(l planner.Lifter) string {
	return "squat " + massOrNotTold(l.Squat, l.Unit) + ", bench " + massOrNotTold(l.Bench, l.Unit) +
		", deadlift " + massOrNotTold(l.Deadlift, l.Unit)
}

// formPhrase says which forms of the lifts count as the competition ones, also
// where that is only taken for granted.
func formPhrase(l planner.Lifter) string {
	return "bench " + orElse(string(l.BenchStyle), "paused (not told)") + ", deadlift " + orElse(string(l.DeadliftStyle), "conventional (not told)")
}

// StyleLabel names an answer to the question which form of a lift is trained.
func StyleLabel(option, value string) string {
	lift, _, _ := strings.Cut(option, "_")
	return "My " + lift + ": " + value
}

// WherePhrase says where a lifter is told things.
func WherePhrase(w planner.Where) string {
	switch w {
	case planner.Direct:
		return "directly to you"
	case planner.Ask:
		return "only when you ask"
	}
	return "in the channel, without your name where it is personal"
}

func orNotTold(s string) string { return orElse(s, notTold) }

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

func massOrNotTold(g planner.Grams, unit planner.Unit) string {
	if g == 0 {
		return notTold
	}
	return g.Text(unit)
}

func daysOrNotTold(n int) string {
	if n == 0 {
		return notTold
	}
	return strconv.Itoa(n)
}

// The functions below make a JSON null of what was not told.

func orNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}

func kgOrNull(g planner.Grams) any {
	if g == 0 {
		return nil
	}
	return g.Kg()
}

func intOrNull(n int) any {
	if n == 0 {
		return nil
	}
	return n
}

func dateOrEmpty(d planner.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}
