package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// BlockName names a kind of block the way it is said the first time on screen:
// plain words and the trade's term together.
func BlockName(k planner.BlockKind) string {
	switch k {
	case planner.Hypertrophy:
		return "muscle block (hypertrophy)"
	case planner.Strength:
		return "strength block"
	case planner.Peaking:
		return "peaking (heavy singles, less work)"
	case planner.Recovery:
		return "recovery (easy weeks)"
	}
	return string(k)
}

// BlockShort names a kind of block where room is short or the long name was
// just said.
func BlockShort(k planner.BlockKind) string {
	switch k {
	case planner.Hypertrophy:
		return "muscle block"
	case planner.Strength:
		return "strength block"
	case planner.Peaking:
		return "peaking"
	case planner.Recovery:
		return "recovery"
	}
	return string(k)
}

// MeetKindName names a kind of meet in plain words.
func MeetKindName(k planner.MeetKind) string {
	switch k {
	case planner.TuneUp:
		return "practice meet (tune-up)"
	case planner.Test:
		return "test day"
	}
	return "main meet"
}

// Count writes a number with its noun: "1 week", "6 weeks".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// List joins words as a person would: "a", "a and b", "a, b and c".
func List(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Some joins at most so many words as List does, and counts the rest: "Ana, Ben and 7
// more".
func Some(words []string, most int) string {
	if n := len(words) - most; n > 1 {
		words = append(words[:most:most], fmt.Sprintf("%d more", n))
	}
	return List(words)
}

// Sentence begins with a capital letter and ends with a full stop.
func Sentence(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[:1])) + string(r[1:])
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "!") {
		return s
	}
	return s + "."
}

// InDays says how far off a day is: "today", "tomorrow", "in 12 days", "3 days ago".
func InDays(n int) string {
	switch {
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	case n == -1:
		return "yesterday"
	case n < 0:
		return Count(-n, "day") + " ago"
	}
	return "in " + Count(n, "day")
}

// Lines explains how lines of the log are read that can be read in two ways.
func Lines(examples []string) chat.Message {
	head := "A wrong set is worse than a question: what is not clear I ask.\n" +
		"To put the last set right, within ten minutes: no 150 · no 4 reps · it was @9 · that was a double · make that 3 sets · I meant bench · undo. Or change your message.\n" +
		"Captain and coaches log for others: @ana squat 140x5, @ben 160x5. A lift holds for the names behind it. Each of them is told and can take it back. Sets only: a bodyweight is for the lifter to log.\n" +
		"Some decisions:"
	return chat.Message{Title: "How I read what you write", Text: clip(head+"\n"+strings.Join(examples, "\n"), chat.MaxText)}
}
