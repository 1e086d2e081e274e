package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// usualDecider is the word that takes a setting back.
const usualDecider = "usual"

var deciderWords = append(words([]store.Decider{store.CoachDecides, store.LifterDecides, store.BothDecide}), usualDecider)

// setDecider answers /club decide: who has the last word on plans, in a group or in
// the whole club.
func setDecider(t *turn) (chat.Reply, error) {
	who, given := t.options["who"]
	if !given {
		return t.showDeciders("Who decides on plans")
	}
	group, err := t.groupNamed()
	if err != nil {
		return chat.Reply{}, err
	}
	if who == usualDecider {
		_, err = t.tx.DropDecider(group)
	} else {
		err = t.tx.SetDecider(group, store.Decider(who))
	}
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "set who decides on plans", t.now); err != nil {
		return chat.Reply{}, err
	}
	return t.showDeciders("Saved")
}

// groupNamed reads the option group: a group that somebody is in; empty without it.
func (t *turn) groupNamed() (string, error) {
	v, given := t.options["group"]
	if !given {
		return "", nil
	}
	all, err := t.tx.Members()
	if err != nil {
		return "", err
	}
	var known []string
	for _, l := range all {
		if strings.EqualFold(l.Group, v) && v != "" {
			return l.Group, nil
		}
		if l.Group != "" {
			known = append(known, strings.ToLower(l.Group))
		}
	}
	help := "Put lifters into a group with /club assign lifter:… group:…"
	if near, ok := parse.Near(strings.ToLower(v), known); ok {
		help = "Did you mean " + near + "?"
	}
	return "", planner.Errorf(planner.NotFound, help, "group: nobody is in a group called %q", parse.Clean(v))
}

func (t *turn) showDeciders(title string) (chat.Reply, error) {
	set, err := t.tx.Deciders()
	if err != nil {
		return chat.Reply{}, err
	}
	rows := map[string]string{}
	for group, who := range set {
		rows[group] = string(who)
	}
	return private(render.Deciders(title, rows)), nil
}
