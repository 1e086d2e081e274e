package bot

import (
	"errors"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
)

// afterMeetChange answers a change of the calendar. Without a plan it offers to
// build one; with one it proposes a plan for the new calendar beside the agreed
// one, which goes on until somebody decides.
func (t *turn) afterMeetChange(m planner.Meet, said string) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	row := render.MeetRow(m, c.today)
	if !c.has {
		return t.meetKept(c, said, row)
	}
	if stale, err := c.stale(c.agreed); err != nil || !stale {
		return private(chat.Message{Text: said, Data: map[string]any{"meet": row}}), err
	}
	r, err := t.proposeSeason(c, "Your meets changed", said+"\nYour plan goes on as agreed until you accept this one.")
	var impossible *planner.Error
	if errors.As(err, &impossible) {
		text := said + "\nYour plan goes on as agreed. I could not lay out a new one: " + render.Sentence(impossible.Sentence)
		if impossible.Hint != "" {
			text += "\n" + impossible.Hint
		}
		return private(chat.Message{Text: text, Data: map[string]any{"meet": row}}), nil
	}
	if err != nil {
		return chat.Reply{}, err
	}
	if d, ok := r.Message.Data.(render.SeasonData); ok {
		d.Meet = row
		r.Message.Data = d
	}
	return r, nil
}

// meetKept confirms a change before there is a plan.
func (t *turn) meetKept(c course, said string, row map[string]any) (chat.Reply, error) {
	m := chat.Message{Text: said, Data: map[string]any{"meet": row}}
	if _, ahead := c.nextMeet(); ahead {
		b, err := t.button("Build my plan", "season.build", lifterArgs{t.about.ID}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Text += "\nShall I lay out your blocks up to it?"
		m.Buttons = []chat.Button{b}
	}
	return private(m), nil
}
