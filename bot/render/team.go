package render

import (
	"strings"

	"blockbell/bot/chat"
)

// LaidOut says for whom plans were laid out at once: who waits for the coach, who
// for themselves, whose plan stays, and for whom there is none, with the reason.
type LaidOut struct {
	Coach, Lifter, Stay, Not []string
}

// PlansLaidOut tells it.
func PlansLaidOut(v LaidOut) chat.Message {
	var lines []string
	if len(v.Coach) > 0 {
		lines = append(lines, "These wait for your yes: "+List(v.Coach)+".")
	}
	if len(v.Lifter) > 0 {
		lines = append(lines, "These decide themselves and are told: "+List(v.Lifter)+".")
	}
	if len(v.Stay) > 0 {
		lines = append(lines, "The plan stays as it is: "+List(v.Stay)+".")
	}
	if len(v.Not) > 0 {
		lines = append(lines, "No plan for "+strings.Join(v.Not, "; ")+".")
	}
	return chat.Message{Title: "Plans laid out", Text: clip(strings.Join(lines, "\n"), chat.MaxText), Data: map[string]any{
		"coach": plain(v.Coach), "lifter": plain(v.Lifter), "stay": plain(v.Stay), "not": plain(v.Not)}}
}
