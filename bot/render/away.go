package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// AwaySpan says a time away; a zero last day: not back yet.
func AwaySpan(from, to planner.Date) string {
	switch {
	case to.IsZero():
		return "from " + from.Short() + " on"
	case from == to:
		return "on " + from.Short()
	}
	return fmt.Sprintf("from %s to %s (%s)", from.Short(), to.Short(), Count(from.DaysUntil(to)+1, "day"))
}

// ReturnLine says in one line how training goes on, on a day after time away; empty
// where it goes on as planned.
func ReturnLine(told []planner.Away, day planner.Date, weekStart planner.Weekday) string {
	r, ok := planner.ReturnOn(told, day, weekStart)
	if !ok {
		return ""
	}
	parts := []string{fmt.Sprintf("Back after %s, week %d of %d:", Count(r.Days(), "day"), r.Week, r.Weeks)}
	switch {
	case r.Repeat:
		parts = append(parts, "repeat your last week before the break at about 5 % less weight.")
	case r.SetsPercent == 100:
		parts = append(parts, "all your sets again, none of them heavy yet.")
	default:
		parts = append(parts, fmt.Sprintf("about %d %% of your sets, weights about %d %% lower.", r.SetsPercent, 100-r.LoadPercent))
	}
	if !r.LightUntil.IsZero() {
		parts = append(parts, "Nothing at 85 % or more before "+r.LightUntil.Short()+".")
	}
	if r.Anew && r.Week == 1 {
		parts = append(parts, "After so long you build up anew: many, lighter sets for four weeks, then heavier ones.")
	}
	return strings.Join(parts, " ") + " (Common practice.)"
}

// nearMeet is how many days before a meet a lift should be back, so that a peak can
// be built with it (common practice: three weeks is the shortest peaking).
const nearMeet = 21

// LiftOff confirms that a lift is off the plan, and says what that means for meets
// soon after.
func LiftOff(lift planner.Lift, today, until planner.Date, meets []planner.Meet, who string) chat.Message {
	your := "your"
	if who != "" {
		your = who + "'s"
	}
	lines := []string{
		fmt.Sprintf("The %s is off %s plan until %s, %s. The blocks and the other lifts stay.", lift, your, until.Long(), InDays(today.DaysUntil(until))),
		"Nobody is told why, and I do not ask.",
	}
	for _, m := range meets {
		if m.Date >= today && counts(m.Event, lift) && until.DaysUntil(m.Date) < nearMeet {
			lines = append(lines, fmt.Sprintf("%s is on %s: too near to peak with the %s. Talk it over with your coach: take it light there, or enter without it.", m.Name, m.Date.Short(), lift))
			break
		}
	}
	return chat.Message{Text: strings.Join(lines, "\n"), Data: map[string]any{"lift": lift, "off_until": until}}
}

// counts tells whether a lift counts in an event.
func counts(e planner.EventKind, lift planner.Lift) bool {
	switch e {
	case planner.BenchOnly:
		return lift == planner.Bench
	case planner.DeadliftOnly:
		return lift == planner.Deadlift
	case planner.PushPull:
		return lift != planner.Squat
	}
	return true
}
