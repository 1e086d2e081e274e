package bot

import (
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// secondThought is how long 'undo' and 'no, 150' reach back.
const secondThought = 10 * time.Minute

// putRight answers 'undo' and 'I meant 150': it corrects the last set written
// within the last ten minutes.
func (t *turn) putRight(res parse.Result) (chat.Reply, error) {
	last, err := t.tx.LastSets(t.about.ID, secondThought, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(last) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Look at /log recent, then /log fix or /log drop.", "You wrote no set in the last ten minutes")
	}
	s := last[0]
	if res.Undo {
		if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{
			Text: "Removed " + render.Set(s, t.about.Unit) + ".", Data: map[string]any{"dropped": t.setData([]planner.Set{s})}}}, nil
	}
	was := s
	s.Weight, s.Pending = *res.Correct, false
	if err := t.tx.FixSet(t.about.ID, s.Day, s.Seq, s, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	text := "Was " + render.Set(was, t.about.Unit) + ", now " + render.Set(s, t.about.Unit) + "."
	return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: text, Data: t.logData([]planner.Set{s}, 0, nil, nil)}}, nil
}

// edited answers a changed message: its old sets go, the new ones come, on the
// day the message was about.
func (t *turn) edited() (chat.Reply, error) {
	day, had, err := t.forget()
	if err != nil {
		return chat.Reply{}, err
	}
	if !had {
		return t.said()
	}
	r, err := t.read(t.event.Text, t.event.Message, day)
	if err == nil && r.Kind == chat.Silent {
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: "The sets of that message are removed.", Data: t.logData(nil, 0, nil, nil)}}, nil
	}
	return r, err
}

// deleted answers a removed message: its sets go with it, in silence.
func (t *turn) deleted() (chat.Reply, error) {
	_, _, err := t.forget()
	return chat.Reply{}, err
}

// forget removes the sets of the event's message and returns their day.
func (t *turn) forget() (day planner.Date, had bool, err error) {
	if t.speaker.ID == 0 {
		return 0, false, nil
	}
	sets, err := t.tx.SetsOfMessage(t.speaker.ID, t.event.Message)
	for _, s := range sets {
		if err := t.tx.DropSet(t.speaker.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return 0, false, err
		}
		day, had = s.Day, true
	}
	return day, had, err
}
