package render

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
)

// Set writes a set the way a lifter would, for example
// "squat 140 kg x 5, 2 left" or "close-grip bench 3 x 8 x 95 kg".
func Set(s planner.Set, unit planner.Unit) string {
	name := load.Movement{Lift: s.Lift, Variant: s.Variant}.Name()
	weight, at := s.Weight.Text(unit), "at"
	if s.Weight == 0 {
		weight, at = "own weight", "with"
	}
	text := fmt.Sprintf("%s %s x %d", name, weight, s.Reps)
	switch {
	case s.Missed && s.Reps == 0 && s.Sets > 1:
		text = fmt.Sprintf("%s %d times %s", name, s.Sets, weight)
	case s.Missed && s.Reps == 0:
		text = name + " " + weight
	case s.Sets > 1:
		text = fmt.Sprintf("%s %d sets of %d %s %s", name, s.Sets, s.Reps, at, weight)
	}
	switch s.Gear {
	case "", planner.Raw:
	case planner.Wraps:
		text += " in wraps"
	default:
		text += ", " + string(s.Gear)
	}
	switch {
	case s.Missed:
		text += ", missed" // nobody has repetitions left after a miss, whatever effort was named
	case s.Reserve != nil:
		text += ", " + left(*s.Reserve)
	}
	return text
}

// left says how many repetitions were left.
func left(reserve float64) string {
	if reserve == 0 {
		return "nothing left"
	}
	return fmt.Sprintf("%g left", reserve)
}

// RecentSets lists the last sets with the numbers that /log fix and /log drop take.
// Their numbers go on from the skip sets before them. Who names the lifter where
// somebody else asks.
func RecentSets(sets []planner.Set, skip int, today planner.Date, unit planner.Unit, who string, data map[string]any) chat.Message {
	m := chat.Message{Title: "Your last sets", Data: data}
	other := ""
	if who != "" {
		m.Title, other = "Last sets of "+who, " lifter:\""+who+"\""
	}
	if len(sets) == 0 && skip > 0 {
		m.Text = "No older sets."
		return m
	}
	if len(sets) == 0 {
		m.Text = "Nothing logged yet. Write what you lifted, for example: squat 140x5 @8"
		return m
	}
	var lines []string
	for i, s := range sets {
		line := fmt.Sprintf("%d. %s: %s", skip+i+1, dayAndYear(s.Day, today), Set(s, unit))
		if s.Pending {
			line += " (waits for your answer)"
		}
		lines = append(lines, line)
	}
	lines = append(lines, fmt.Sprintf("Wrong? /log fix %d weight:150%s or /log drop %d%s", skip+1, other, skip+1, other))
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	return m
}

// LogView is what the answer to a logged message is made from.
type LogView struct {
	Sets      []planner.Set
	Unit      planner.Unit
	As        string   // how it was kept, in the place of "Kept"
	Record    string   // the best news, told in the line of what was kept
	News      []string // how something was read
	Problems  []string // what was not understood
	Questions []string
	Data      any
}

// Logged confirms what was kept, in as few lines as the news allow.
func Logged(v LogView) chat.Message {
	var lines []string
	kept, waiting := []string{}, []string{}
	for _, s := range v.Sets {
		if s.Pending {
			waiting = append(waiting, Set(s, v.Unit))
		} else {
			kept = append(kept, Set(s, v.Unit))
		}
	}
	if len(kept) > 0 {
		lines = append(lines, strings.TrimSpace(cmp.Or(v.As, "Kept")+": "+strings.Join(kept, "; ")+". "+v.Record))
	}
	if len(waiting) > 0 {
		lines = append(lines, "Waiting for your answer: "+strings.Join(waiting, "; ")+".")
	}
	lines = append(lines, v.News...)
	lines = append(lines, v.Questions...)
	lines = append(lines, v.Problems...)
	return chat.Message{Text: clip(strings.Join(lines, "\n"), chat.MaxText), Data: v.Data}
}

// Problem says what was not understood and where. What is wrong comes first: on most
// lines the place is plain.
func Problem(line, column int, text, hint string) string {
	where := fmt.Sprintf("character %d", column)
	if line > 1 {
		where = fmt.Sprintf("line %d, character %d", line, column)
	}
	s := strings.TrimSuffix(Sentence(text), ".") + " (" + where + ")."
	if hint != "" {
		s += " " + hint
	}
	return s
}

// SentAgain says that a message was taken for a second sending of the one before.
func SentAgain(ago time.Duration) string {
	when := "a moment"
	if n := int(ago.Minutes()); n > 0 {
		when = Count(n, "minute")
	}
	return "I have that already, from " + when + " ago, and count it once."
}

// HowToFix says how a set is corrected by writing. Label is that of the button, with
// the number of the set.
func HowToFix(label string, s planner.Set, unit planner.Unit, who string) string {
	number := strings.TrimPrefix(label, "Fix ")
	other := ""
	if who != "" {
		other = " lifter:\"" + who + "\""
	}
	return Set(s, unit) + " of " + s.Day.Short() + ". Write what is wrong with it, for example: /log fix " + number + " weight:150 reps:5" + other
}
