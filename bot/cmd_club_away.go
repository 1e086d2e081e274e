package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// clubAway answers /club away: the gym is closed, or a group is away. Each lifter is
// marked and told in private, and can have a new plan with one tap.
func clubAway(t *turn) (chat.Reply, error) {
	team, err := t.team()
	if err != nil {
		return chat.Reply{}, err
	}
	if team == nil {
		if team, err = t.tx.Members(); err != nil {
			return chat.Reply{}, err
		}
	}
	a, err := t.awayFromOptions()
	if err != nil {
		return chat.Reply{}, err
	}
	if a.To.IsZero() {
		return chat.Reply{}, planner.Errorf(planner.Invalid, usage(*t.command), "For several at once I need the last day too (to:)")
	}
	err = t.each(team, func(l planner.Lifter) error {
		a.Lifter = l.ID
		_, err := t.storeAway(&a, false)
		return err
	})
	if err != nil {
		return chat.Reply{}, err
	}
	who := names(team)
	if len(team) > 6 {
		who = render.Count(len(team), "lifter")
	}
	said := render.Sentence("kept: away " + render.AwaySpan(a.From, a.To) + ", for " + who)
	var ids layOutArgs
	var handles []string
	for _, l := range team {
		ids.Lifters = append(ids.Lifters, l.ID)
		handles = append(handles, l.Handle)
	}
	r := private(chat.Message{Text: said + "\nEach of them is told in private. Agreed plans go on until a new one is accepted.",
		Data: map[string]any{"away": awayRow(store.Away{From: a.From, To: a.To}), "lifters": handles}})
	b, err := t.button("Lay out plans for "+render.Count(len(team), "lifter"), "season.layout", ids, t.speaker)
	r.Message.Buttons = []chat.Button{b}
	return r, err
}
