package bot

import (
	"errors"
	"fmt"
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

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
// reading of what was ambiguous. whose stands in front of each label.
func (t *turn) logButtons(res parse.Result, kept []planner.Set, whose string) ([]chat.Button, error) {
	var out []chat.Button
	add := func(group, label string, sets []planner.Set, replaced ...int) error {
		a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/" + group, Message: t.event.Message, Sets: sets}
		for _, i := range replaced {
			a.Replace = append(a.Replace, setRef{kept[i].Day, kept[i].Seq})
		}
		b, err := t.button(whose+label, "set.answer", a, t.speaker)
		out = append(out, b)
		return err
	}
	asked := res.Questions
	if res.Assumed != nil {
		asked = append(slices.Clone(asked), *res.Assumed)
	}
	for i, q := range asked {
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

// settle puts an answer in the place of the sets in question: in theirs as far as it
// goes, so that what they were first is still known.
func (t *turn) settle(a setAnswer) (beaten []newRecord, kept []planner.Set, err error) {
	inPlace := a.Replace[:min(len(a.Replace), len(a.Sets))]
	more := a.Sets[len(inPlace):]
	for i := range a.Sets {
		a.Sets[i].Pending = false
	}
	former := make([]int, len(inPlace))
	for i, r := range inPlace {
		former[i] = r.Seq
	}
	if err := t.settleOnce(a, a.Replace[len(inPlace):]); err != nil {
		return nil, nil, err
	}
	if beaten, err = t.records(a.Sets, former...); err != nil {
		return nil, nil, err
	}
	for i, r := range inPlace {
		s := a.Sets[i]
		s.Day, s.Seq = r.Day, r.Seq
		if err := t.tx.FixSet(a.Lifter, r.Day, r.Seq, s, t.speaker.ID, t.now); err != nil {
			return nil, nil, settledAlready(err)
		}
		kept = append(kept, s)
	}
	added, err := t.keepSets(more, a.Message)
	return beaten, append(kept, added...), err
}

// settledAlready is err, or where a set is gone, that its question was answered.
func settledAlready(err error) error {
	var gone *planner.Error
	if errors.As(err, &gone) && gone.Kind == planner.NotFound {
		return planner.Errorf(planner.Conflict, "Look at /log recent, then /log fix or /log drop.", "That was answered before, or its message has changed since")
	}
	return err
}

// settleOnce takes away sets in question. A question that was answered, or
// whose message was changed since, is refused.
func (t *turn) settleOnce(a setAnswer, drop []setRef) error {
	fresh, err := t.tx.FreshEvent("answered/"+a.Group, t.now)
	if err != nil {
		return err
	}
	if !fresh {
		return settledAlready(planner.Errorf(planner.NotFound, "", "the question is gone"))
	}
	for _, r := range drop {
		if err := t.tx.DropSet(a.Lifter, r.Day, r.Seq, t.speaker.ID, t.now); err != nil {
			return settledAlready(err)
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
	was, err := t.inQuestion(a)
	if err != nil {
		return chat.Reply{}, err
	}
	beaten, kept, err := t.settle(a)
	if err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, Data: t.logData(kept, 0, nil, nil)}
	t.announce(&view, beaten)
	if len(kept) == 0 {
		view.News = []string{"Dropped. Nothing of it is kept."}
	}
	moved, _, err := t.movedBy(was, kept)
	view.News = append(view.News, moved...)
	return private(render.Logged(view)), err
}

// inQuestion are the sets that an answer takes away, as they are in the log.
func (t *turn) inQuestion(a setAnswer) (sets []planner.Set, err error) {
	for _, r := range a.Replace {
		day, err := t.tx.Sets(a.Lifter, r.Day, r.Day)
		if err != nil {
			return nil, err
		}
		if at := slices.IndexFunc(day, func(s planner.Set) bool { return s.Seq == r.Seq }); at >= 0 {
			sets = append(sets, day[at])
		}
	}
	return sets, nil
}
