package render

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// ApprovalRow is one plan that waits for a coach.
type ApprovalRow struct {
	Name, Handle string
	Meet         string // the next one and how far it is; may be empty
	Asked, Today planner.Date
	Blocks, Old  []planner.Block // what is proposed, and what is agreed so far
}

// Approvals lists the plans that wait for a coach; more counts those not shown. moved
// names the lifters whose plan was laid out again and waits for their own yes once more.
func Approvals(rows []ApprovalRow, more int, moved []string) chat.Message {
	m := chat.Message{Title: "Plans that wait for you"}
	data := []map[string]any{}
	for _, r := range rows {
		value := Until(r.Blocks) + "."
		if len(r.Old) > 0 {
			value = strings.Join(Beside(r.Old, r.Blocks), "\n")
		}
		if r.Meet != "" {
			value += "\n" + Sentence(r.Meet)
		}
		if days := r.Asked.DaysUntil(r.Today); days > 0 {
			value += " Asked " + InDays(-days) + "."
		}
		m.Fields = append(m.Fields, chat.Field{Name: clip(r.Name, chat.MaxFieldName), Value: clip(value, 400)})
		data = append(data, map[string]any{"name": r.Name, "handle": r.Handle, "blocks": plain(r.Blocks), "asked": r.Asked})
	}
	switch {
	case len(rows) == 0:
		m.Text = "No plan waits for you."
	case more > 0:
		m.Text = fmt.Sprintf("%s after these.", Count(more, "more plan"))
	}
	if len(moved) > 0 {
		m.Text = strings.TrimSpace(m.Text + "\nSomething changed since for " + List(moved) + ": the plan was laid out again, and they are asked once more.")
	}
	m.Data = map[string]any{"waiting": data, "more": more, "moved": plain(moved)}
	return m
}

// Approved confirms which plans are agreed, and names those that could not be. absent
// is how many of the lifters have not joined, so that nobody can tell them.
func Approved(done, gone []string, absent int) chat.Message {
	var lines []string
	if len(done) > 0 {
		lines = append(lines, "Agreed for "+List(done)+told(len(done), absent))
	}
	if len(gone) > 0 {
		lines = append(lines, "Not for "+List(gone)+": the plan was changed or settled since you saw it. /club approve shows what waits now.")
	}
	return chat.Message{Text: strings.Join(lines, "\n"), Data: map[string]any{"approved": plain(done), "not": plain(gone)}}
}

// told ends a sentence about so many lifters with who of them hears of it.
func told(all, absent int) string {
	switch {
	case absent == all:
		return "."
	case absent > 0:
		return ". Those who have joined are told."
	case all == 1:
		return ", who is told."
	}
	return ". They are told."
}

// deciding says what a setting of who decides means.
var deciding = map[string]string{
	"coach": "the coach", "lifter": "the lifter", "both": "lifter and coach, both must say yes",
}

// Deciders shows who decides on plans, by group; the empty group is everybody else.
func Deciders(title string, set map[string]string) chat.Message {
	m := chat.Message{Title: title, Data: map[string]any{"deciders": set}}
	for _, group := range slices.Sorted(maps.Keys(set)) {
		name := group
		if group == "" {
			name = "everybody without a group of their own here"
		}
		m.Fields = append(m.Fields, chat.Field{Name: name, Value: deciding[set[group]]})
	}
	if _, ok := set[""]; !ok {
		m.Text = "Where nothing is set: the coach for new lifters, novices and members under 18, the lifter for all others. Without a coach the captain is the coach."
	}
	return m
}
