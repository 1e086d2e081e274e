package bot

import (
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
	ch := change{said: said, title: "Your meets changed", upTo: "it", data: map[string]any{"meet": render.MeetRow(m, c.today)}}
	if c.has {
		if stale, err := c.stale(c.agreed); err != nil || !stale {
			return ch.reply(""), err
		}
	}
	return t.replan(ch)
}
