package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// trainedPressed answers 'Trained, did not log': the plan goes on, and silence is
// counted from today.
func trainedPressed(t *turn, _ store.Button) (chat.Reply, error) {
	if err := t.tx.SetLifterDay(t.speaker.ID, store.TrainedDay, t.today()); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Good, then all goes on as planned. One line with your heaviest set is enough to keep your numbers true."}), nil
}

// quietPressed answers 'Do not ask again this block'.
func quietPressed(t *turn, _ store.Button) (chat.Reply, error) {
	c, err := t.course(t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	until := c.today.AddDays(28)
	if c.at.Index >= 0 {
		until = max(c.at.Block.End, c.today)
	}
	if err := t.tx.SetLifterDay(t.speaker.ID, store.QuietDay, until); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "I do not ask again before " + until.AddDays(1).Short() + ".", Data: map[string]any{"quiet_until": until}}), nil
}

// wasArgs is what the answers to 'since when?' carry.
type wasArgs struct {
	From planner.Date `json:"from"`
	Open bool         `json:"open"`
}

// wasAwayPressed answers 'I was away': from when is offered, and nothing is kept
// before it is chosen.
func wasAwayPressed(t *turn, _ store.Button) (chat.Reply, error) {
	last, err := t.tx.LastLogged(t.speaker.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	from := min(last.AddDays(1), t.today())
	m := chat.Message{Title: "When were you away?", Text: "Other days: /season away from:… to:…"}
	for _, o := range []struct {
		label string
		open  bool
	}{{"Since " + from.Short() + ", back now", false}, {"Since " + from.Short() + ", not back yet", true}} {
		b, err := t.button(o.label, "silence.was", wasArgs{from, o.open}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
	}
	return private(m), nil
}

// wasPressed keeps the time away that was chosen.
func wasPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[wasArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	away := store.Away{Lifter: t.speaker.ID, From: a.From, By: t.speaker.ID}
	if !a.Open {
		away.To = max(a.From, t.today().AddDays(-1))
	}
	return t.keepAway(away)
}

// told gathers what /block says of time away and lifts off the plan: that the lifter
// is away, or how training goes on after it, and which lifts are off until when.
func (t *turn) told(c course) (lines []string, away bool, err error) {
	_, away = awayNow(c.aways, c.today)
	lines = t.awayLines(c)
	off, err := t.tx.LiftsOff(c.lifter.ID, c.today)
	for _, o := range off {
		lines = append(lines, render.Sentence(string(o.Lift)+" off the plan until "+o.Until.Short()))
	}
	return lines, away, err
}

func (t *turn) awayLines(c course) []string {
	if a, away := awayNow(c.aways, c.today); away {
		return []string{render.Sentence("away "+render.AwaySpan(a.From, a.To)) + " Back sooner? /season back."}
	}
	if line := render.ReturnLine(c.told(), c.today, t.club.WeekStart); line != "" {
		return []string{line}
	}
	return nil
}
