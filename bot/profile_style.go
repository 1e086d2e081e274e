package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// styleArgs is what a button about a competition form carries.
type styleArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Option string           `json:"option"` // one of /me set's
	Value  string           `json:"value"`
}

// askStyles puts the two questions of joining that need no words under a profile:
// which bench and which deadlift the lifter trains. What was told is not asked.
func (t *turn) askStyles(m *chat.Message, l planner.Lifter) error {
	var asked []styleArgs
	if l.BenchStyle == "" {
		for _, w := range benchWords {
			asked = append(asked, styleArgs{l.ID, "bench_style", w})
		}
	}
	if l.DeadliftStyle == "" {
		for _, w := range deadliftWords {
			asked = append(asked, styleArgs{l.ID, "deadlift_style", w})
		}
	}
	for _, a := range asked {
		b, err := t.button(render.StyleLabel(a.Option, a.Value), "me.style", a, t.speaker)
		if err != nil {
			return err
		}
		m.Buttons = append(m.Buttons, b)
	}
	return nil
}

// stylePressed keeps the answer to one of the two questions.
func stylePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[styleArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if t.command, _, err = t.bot.table.find([]string{"me", "set"}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.takeOptions([]chat.Option{{Name: a.Option, Value: a.Value}}, nil); err != nil {
		return chat.Reply{}, err
	}
	return setProfile(t)
}
