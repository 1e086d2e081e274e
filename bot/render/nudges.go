package render

import (
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

// Nudges shows what comes unasked, when and where, and how to stop it.
func Nudges(l planner.Lifter, rows []NudgeRow) chat.Message {
	m := chat.Message{
		Title: "What I tell you unasked",
		Text:  "I tell you " + WherePhrase(l.Nudges) + ". Change it with /nudges where direct, channel or ask. Stop one kind with /nudges off and its name.",
	}
	data := []map[string]any{}
	for _, r := range rows {
		name := r.Kind
		if r.Off {
			name += " (off)"
		}
		m.Fields = append(m.Fields, chat.Field{Name: name, Value: Sentence(r.Says) + " " + Sentence(r.When)})
		data = append(data, map[string]any{"kind": r.Kind, "on": !r.Off})
	}
	m.Data = map[string]any{"nudges": data, "where": orNull(string(l.Nudges))}
	return m
}
