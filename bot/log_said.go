package bot

import (
	"errors"
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// The marks on a message: kept, and the hand that says stop.
const (
	markKept = "✅"
	markStop = "✋"
)

// caution is said to words of alarm. Nothing of them is kept.
const caution = "Stop for today. Please talk to your coach, and if it is sudden or severe, to a doctor now."

// said answers a message that is no command. Only the log channel and direct
// conversations are read; talk is left alone.
func (t *turn) said() (chat.Reply, error) {
	if t.event.Channel != "" && t.event.Channel != t.club.LogChannel {
		return chat.Reply{}, nil
	}
	if r, handled, err := t.teamSaid(t.event.Text, t.event.Message, 0); err != nil || handled {
		return r, err
	}
	return t.read(t.event.Text, t.event.Message, t.today())
}

// read logs what a message says, on the given day where it names none.
func (t *turn) read(text, message string, day planner.Date) (chat.Reply, error) {
	best := t.bests()
	res, err := t.understand(text, day, best)
	if err != nil {
		return chat.Reply{}, err
	}
	if res.Chatter && res.Alarm == parse.NoAlarm {
		return chat.Reply{}, nil
	}
	if err := t.join(); err != nil {
		return chat.Reply{}, err
	}
	if res.Undo || res.Correct != nil {
		return t.putRight(res)
	}
	if res.Alarm == parse.Pain {
		first, err := t.tx.FirstCall(t.about.ID, t.today(), t.now)
		if err != nil || res.Chatter && !first {
			return chat.Reply{}, err
		}
		if !first {
			res.Alarm = parse.NoAlarm // the hand is shown once a day
		}
	}
	if res.Done && len(res.Sets) == 0 && res.Alarm == parse.NoAlarm {
		return t.doneSaid()
	}
	return t.keep(res, message)
}

// understand reads a message against what is known of the lifter.
func (t *turn) understand(text string, day planner.Date, best *bests) (parse.Result, error) {
	res := parse.Log(text, parse.Context{
		Today: day, At: t.now.In(zoneOf(t.about, t.club)), Unit: t.about.Unit, Standard: standardOf(t.about),
		Best:     func(l planner.Lift) planner.Grams { return planner.Kilograms(best.kg(l)) },
		Estimate: func(l planner.Lift) (float64, bool) { kg := best.kg(l); return kg, kg > 0 },
	})
	return res, best.err
}

// standardOf is what the lifter counts as the competition form of a lift.
func standardOf(l planner.Lifter) parse.Standard {
	return parse.Standard{TouchAndGo: l.BenchStyle == planner.TouchAndGo, Sumo: l.DeadliftStyle == planner.Sumo}
}

// keep stores what a message said and acknowledges it as quietly as the news
// allow.
func (t *turn) keep(res parse.Result, message string) (chat.Reply, error) {
	if ago, again, err := t.sentAgain(res.Sets, message); err != nil || again {
		if err != nil {
			return chat.Reply{}, err
		}
		return t.onceOnly(res, message, ago)
	}
	beaten, err := t.records(res.Sets, 0)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets(res.Sets, message)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.keepBodyweight(res); err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, News: res.Notes,
		Data: t.logData(kept, res.Bodyweight, res.Problems, res.Questions)}
	t.announce(&view, beaten)
	for _, q := range res.Questions {
		view.Questions = append(view.Questions, q.Text)
	}
	for _, p := range res.Problems {
		view.Problems = append(view.Problems, render.Problem(p.Line, p.Column, p.Text, p.Hint))
	}
	moved, down, err := t.movedBy(kept)
	if err != nil {
		return chat.Reply{}, err
	}
	view.News = append(view.News, moved...)
	buttons, err := t.logButtons(res, kept)
	if err != nil {
		return chat.Reply{}, err
	}
	r := acknowledge(res, view, buttons)
	r.Message.Private, err = t.quiet(down || len(res.Questions) > 0) // that a load goes down is for nobody else
	return r, err
}

// quiet tells whether an answer to a log line is for the lifter's eyes only: what
// asks back may tell an estimate, and of members under 18 and of those who opted
// out nothing is said in public.
func (t *turn) quiet(asks bool) (bool, error) {
	public, err := t.tx.LifterPublic(t.about.ID)
	age := planner.Age(t.about.Born, t.today())
	return asks || !public || age >= 0 && age < 18, err
}

// acknowledge chooses between a mark and words.
func acknowledge(res parse.Result, view render.LogView, buttons []chat.Button) chat.Reply {
	if res.Alarm == parse.Alarm {
		view.News = append(view.News, caution)
	}
	if len(view.Record)+len(view.News)+len(view.Questions)+len(view.Problems) > 0 {
		m := render.Logged(view)
		m.Buttons = buttons
		return chat.Reply{Kind: chat.Answer, Message: m}
	}
	mark := markKept
	if res.Alarm == parse.Pain {
		mark = markStop
	}
	return chat.Reply{Kind: chat.React, Reaction: mark, Message: chat.Message{Data: view.Data}}
}

// keepSets stores sets under the message they came with.
func (t *turn) keepSets(sets []planner.Set, message string) ([]planner.Set, error) {
	if len(sets) == 0 {
		return nil, nil
	}
	return t.tx.AddSets(t.about.ID, message, sets, t.now)
}

// keepBodyweight stores a bodyweight. An older day's does not replace the newest.
func (t *turn) keepBodyweight(res parse.Result) error {
	if res.Bodyweight == 0 {
		return nil
	}
	if err := t.tx.AddBodyweight(t.about.ID, res.BodyweightDay, res.Bodyweight, t.now); err != nil {
		return err
	}
	later, err := t.tx.Bodyweights(t.about.ID, res.BodyweightDay.AddDays(1), t.today())
	if err != nil || len(later) > 0 {
		return err
	}
	t.about.Bodyweight = res.Bodyweight
	return t.tx.SaveLifter(t.about, t.now)
}

// trainingDay is the day on which something logged now was lifted: a session
// that ends after midnight belongs to the day before.
func (t *turn) trainingDay() planner.Date {
	if t.now.In(zoneOf(t.about, t.club)).Hour() < parse.NightEnds {
		return t.today().AddDays(-1)
	}
	return t.today()
}

// setRef names a stored set.
type setRef struct {
	Day planner.Date `json:"day"`
	Seq int          `json:"seq"`
}

// setAnswer is what a button under a question about sets carries: the sets it
// takes away and the sets it puts in their place.
type setAnswer struct {
	Lifter  planner.LifterID `json:"lifter"`
	Group   string           `json:"group"` // the question; one answer settles it
	Message string           `json:"message"`
	Replace []setRef         `json:"replace"`
	Sets    []planner.Set    `json:"sets"`
}

// logButtons makes a button for every answer to a question and for the other
// reading of what was ambiguous.
func (t *turn) logButtons(res parse.Result, kept []planner.Set) ([]chat.Button, error) {
	var out []chat.Button
	add := func(group, label string, sets []planner.Set, replaced ...int) error {
		a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/" + group, Message: t.event.Message, Sets: sets}
		for _, i := range replaced {
			a.Replace = append(a.Replace, setRef{kept[i].Day, kept[i].Seq})
		}
		b, err := t.button(label, "set.answer", a, t.speaker)
		out = append(out, b)
		return err
	}
	for i, q := range res.Questions {
		for _, a := range q.Answers {
			if err := add(fmt.Sprint("question ", i), a.Label, a.Sets, q.Sets...); err != nil {
				return nil, err
			}
		}
	}
	for _, s := range res.Swaps {
		label := fmt.Sprintf("No: %s of %d", render.Count(s.Other.Sets, "set"), s.Other.Reps)
		if err := add(fmt.Sprint("reading ", s.Index), label, []planner.Set{s.Other}, s.Index); err != nil {
			return nil, err
		}
	}
	if len(out) > chat.MaxButtons {
		out = out[:chat.MaxButtons]
	}
	return out, nil
}

// settleOnce takes away the sets in question. A question that was answered, or
// whose message was changed since, is refused.
func (t *turn) settleOnce(a setAnswer) error {
	settled := planner.Errorf(planner.Conflict, "Look at /log, then /log fix or /log drop.", "That was answered before, or its message has changed since")
	fresh, err := t.tx.FreshEvent("answered/"+a.Group, t.now)
	if err != nil {
		return err
	}
	if !fresh {
		return settled
	}
	for _, r := range a.Replace {
		err := t.tx.DropSet(a.Lifter, r.Day, r.Seq, t.speaker.ID, t.now)
		var gone *planner.Error
		if errors.As(err, &gone) && gone.Kind == planner.NotFound {
			return settled
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// answerSets answers a button under a question about sets.
func answerSets(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[setAnswer](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if err := t.settleOnce(a); err != nil {
		return chat.Reply{}, err
	}
	for i := range a.Sets {
		a.Sets[i].Pending = false
	}
	beaten, err := t.records(a.Sets, 0)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets(a.Sets, a.Message)
	if err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, Data: t.logData(kept, 0, nil, nil)}
	t.announce(&view, beaten)
	if len(kept) == 0 {
		view.News = []string{"Dropped. Nothing of it is kept."}
	}
	return private(render.Logged(view)), nil
}
