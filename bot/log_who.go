package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// whoArgs is what a button carries that says who was meant.
type whoArgs struct {
	Group   string           `json:"group"` // the question; one answer settles it
	Message string           `json:"message"`
	Lifter  planner.LifterID `json:"lifter"`
	Sets    []planner.Set    `json:"sets"`
}

// askWho asks who is meant. Nothing is kept before the answer.
func (t *turn) askWho(s share, message string, m *chat.Message) (string, error) {
	name := parse.Clean(s.part.Who)
	if len(s.res.Sets) == 0 {
		return "", nil
	}
	if len(s.like) == 0 {
		return fmt.Sprintf("Nobody in the club is called %q; nothing of it is kept. A lifter joins by writing to me once.", name), nil
	}
	for _, l := range s.like {
		t.about = l
		res, err := t.understand(s.part.Text, t.today(), t.bests())
		if err != nil {
			return "", err
		}
		sets := res.Sets
		if len(sets) == 0 {
			sets = s.res.Sets
		}
		b, err := t.button(toldApart(l, s.like), "team.who", whoArgs{t.event.ID + "/who/" + name, message, l.ID, sets}, t.speaker)
		if err != nil {
			return "", err
		}
		m.Buttons = append(m.Buttons, b)
	}
	m.Private = true
	return fmt.Sprintf("Who is %q? I keep it for whom you say.", name), nil
}

// toldApart is a lifter's name, with the handle where another of them has the same.
func toldApart(l planner.Lifter, among []planner.Lifter) string {
	for _, o := range among {
		if o.ID != l.ID && strings.EqualFold(render.Called(o), render.Called(l)) {
			return render.Called(l) + " (" + l.Handle + ")"
		}
	}
	return render.Called(l)
}

// whoPressed answers the question who was meant.
func whoPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[whoArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if err := t.settleOnce(setAnswer{Lifter: a.Lifter, Group: a.Group}, nil); err != nil {
		return chat.Reply{}, err
	}
	for i := range a.Sets {
		a.Sets[i].Pending = false
	}
	beaten, err := t.records(a.Sets)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets(a.Sets, a.Message)
	if err != nil {
		return chat.Reply{}, err
	}
	moved, _, err := t.movedBy(nil, kept)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.noteSets(kept, beaten, moved, a.Message); err != nil {
		return chat.Reply{}, err
	}
	text := render.Called(t.about) + ": " + setLines(kept, t.about.Unit) + "."
	if news := t.recordNews(beaten); news != "" {
		text += " " + news
	}
	text = strings.Join(append([]string{text}, moved...), " ")
	return private(chat.Message{Text: text, Data: map[string]any{"team": []map[string]any{t.shareData(kept, beaten)}}}), nil
}
