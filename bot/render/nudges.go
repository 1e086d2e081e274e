package render

import (
	"fmt"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// NudgeRow is one kind of nudge as a lifter has it set.
type NudgeRow struct {
	Kind string
	Says string
	When string
	Off  bool
}

// ComingRow is something that will be told.
type ComingRow struct {
	Kind   string       `json:"kind"`
	Day    planner.Date `json:"date"` // on the lifter's own calendar
	At     time.Time    `json:"at"`
	What   string       `json:"text"`
	Public bool         `json:"public"` // in the club's post
}

// NudgeView is what /nudges shows.
type NudgeView struct {
	Lifter planner.Lifter
	Zone   *time.Location // in which moments are told; nil: UTC
	Hour   string         // wall time of direct messages, where the lifter chose one
	Quiet  []string       // names of the lifter's quiet days
	Paused planner.Date   // first day after a pause; zero: none runs
	Coming []ComingRow
	Kinds  []NudgeRow
}

// Nudges shows what comes unasked in the next fortnight, then every kind, when and
// where, and how to stop it.
func Nudges(v NudgeView) chat.Message {
	m := chat.Message{Title: "What I tell you unasked", Text: strings.Join(append(v.comes(), v.where()...), "\n")}
	data := []map[string]any{}
	for _, r := range v.Kinds {
		name := r.Kind
		if r.Off {
			name += " (off)"
		}
		m.Fields = append(m.Fields, chat.Field{Name: name, Value: Sentence(r.Says) + " " + Sentence(r.When)})
		data = append(data, map[string]any{"kind": r.Kind, "on": !r.Off})
	}
	m.Data = map[string]any{
		"nudges": data, "where": orNull(string(v.Lifter.Nudges)), "coming": plain(v.Coming), "hour": orNull(v.Hour), "quiet": plain(v.Quiet),
	}
	return m
}

// mostComing is how many lines of the fortnight are shown, so that the rest fits
// into one message.
const mostComing = 10

// comes lists the next fortnight.
func (v NudgeView) comes() []string {
	if len(v.Coming) == 0 {
		return []string{"Nothing is due in the next two weeks, by today's plan.", ""}
	}
	lines := []string{"In the next two weeks, by today's plan:"}
	for i, c := range v.Coming {
		if i == mostComing {
			lines = append(lines, fmt.Sprintf("• and %d more", len(v.Coming)-i))
			break
		}
		what := c.What
		if c.Public {
			what += " (in the club's post)"
		}
		lines = append(lines, "• "+Moment(c.At, v.Zone)+": "+clip(what, 100))
	}
	return append(lines, "")
}

// where says where and when a lifter is told things, and how to change it.
func (v NudgeView) where() []string {
	when := "Where I tell you things: " + WherePhrase(v.Lifter.Nudges)
	if v.Lifter.Nudges == planner.Direct && v.Hour != "" {
		when += ", at " + v.Hour + " your time"
	}
	if len(v.Quiet) > 0 {
		when += ", not on " + List(v.Quiet)
	}
	lines := []string{when + "."}
	if !v.Paused.IsZero() {
		lines = append(lines, "You asked for a pause: nothing that can wait before "+v.Paused.Short()+".")
	}
	return append(lines,
		"Change it with /nudges where, hour, quiet or snooze. Stop one kind with /nudges off and its name.",
		"At most two personal messages a week, beyond what cannot wait.")
}
