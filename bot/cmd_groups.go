package bot

import (
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/store"
)

// showGroups answers /club groups: each group with its members and who decides there.
func showGroups(t *turn) (chat.Reply, error) {
	all, err := t.tx.Members()
	if err != nil {
		return chat.Reply{}, err
	}
	deciders, err := t.tx.Deciders()
	if err != nil {
		return chat.Reply{}, err
	}
	members := map[string][]string{}
	var order []string
	for _, l := range all {
		if _, seen := members[l.Group]; !seen {
			order = append(order, l.Group)
		}
		members[l.Group] = append(members[l.Group], render.Called(l))
	}
	slices.SortFunc(order, strings.Compare)
	m := chat.Message{Title: "Groups", Text: "/club assign puts a lifter into a group; a group can be named in /club away, /club decide, /club board, /club today and /meet."}
	rows := []map[string]any{}
	for _, g := range order {
		name := g
		if name == "" {
			name = "in no group"
		}
		value := render.Count(len(members[g]), "lifter") + ": " + strings.Join(members[g], ", ")
		if who, set := deciders[g]; set && g != "" {
			value += "\n" + decidesWords[who]
		}
		if len(m.Fields) < chat.MaxFields {
			m.Fields = append(m.Fields, chat.Field{Name: name, Value: cutTo(value, 220)})
		}
		rows = append(rows, map[string]any{"group": g, "lifters": members[g]})
	}
	m.Data = map[string]any{"groups": rows}
	return private(m), nil
}

// decidesWords say who has the last word.
var decidesWords = map[store.Decider]string{
	store.CoachDecides:  "The coach decides on plans.",
	store.LifterDecides: "The lifter decides on plans.",
	store.BothDecide:    "Coach and lifter both decide on plans.",
}
