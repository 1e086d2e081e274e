package bot

import (
	"math"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// secondThought is how long 'undo' and 'no, 150' reach back.
const secondThought = 10 * time.Minute

// putRight answers 'undo', 'I meant 150' and 'it was @9': it corrects the last set
// written within the last ten minutes.
func (t *turn) putRight(res parse.Result) (chat.Reply, error) {
	last, err := t.tx.LastSets(t.about.ID, secondThought, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.stillAbout(last); err != nil {
		return chat.Reply{}, err
	}
	if len(last) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Look at /log recent, then /log fix or /log drop.", "You wrote no set in the last ten minutes")
	}
	s := last[0]
	if err := t.tx.KeepRight(t.speaker.ID, t.event.Message, s, t.now); err != nil {
		return chat.Reply{}, err
	}
	if res.Undo {
		return t.undo(s)
	}
	to, err := corrected(s, *res.Correct, t.about.Unit)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.fix(s, to)
}

// justLogged tells whether a set was written within the last ten minutes.
func (t *turn) justLogged() (bool, error) {
	if t.about.ID == 0 {
		return false, nil
	}
	last, err := t.tx.LastSets(t.about.ID, secondThought, t.now)
	return len(last) > 0, err
}

// stillAbout refuses an order that was changed after it had done its work on another
// set than the one that is the last by now.
func (t *turn) stillAbout(last []planner.Set) error {
	if t.event.Kind != chat.Edited {
		return nil
	}
	var now planner.Set
	if len(last) > 0 {
		now = last[0]
	}
	some, this, err := t.tx.RightOf(t.speaker.ID, t.event.Message, now)
	if err == nil && some && !this {
		err = planner.Errorf(planner.Conflict, "Look at /log recent, then /log fix or /log drop.", "That message was about another set")
	}
	return err
}

// undo takes the last set out of the log, with a way back: to what it was, and where it
// was corrected to what it was before.
func (t *turn) undo(s planner.Set) (chat.Reply, error) {
	message, err := t.tx.MessageOf(t.about.ID, s)
	if err != nil {
		return chat.Reply{}, err
	}
	if strings.HasPrefix(message, donePrefix) {
		done, err := t.takeDoneBack(message)
		return private(t.takenBack(done)), err
	}
	was, err := t.tx.SetHistory(t.about.ID, s.Day, s.Seq)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	moved, _, err := t.movedBy([]planner.Set{s}, nil)
	if err != nil {
		return chat.Reply{}, err
	}
	text := strings.Join(append([]string{"Removed " + render.Set(s, t.about.Unit) + "."}, moved...), "\n")
	m := chat.Message{Text: text, Data: t.dropData(s)}
	a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/back", Message: message, Sets: []planner.Set{s}}
	back, err := t.button("Put it back", "set.answer", a, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	m.Buttons = []chat.Button{back}
	if before, corrected := formBefore(was, s); corrected {
		a.Sets = []planner.Set{before}
		first, err := t.button("Put back "+render.Set(before, t.about.Unit), "set.answer", a, t.speaker)
		m.Buttons = append(m.Buttons, first)
		return private(m), err
	}
	return private(m), nil
}

// formBefore is the form of a set that its last correction took away; false where
// nothing was corrected, or all of it was taken back. Forms that were only asked about
// do not count.
func formBefore(was []store.SetChange, now planner.Set) (planner.Set, bool) {
	var forms []planner.Set
	step := func(s planner.Set) {
		n := len(forms)
		switch {
		case s.Pending, n > 0 && sameForm(forms[n-1], s):
		case n > 1 && sameForm(forms[n-2], s):
			forms = forms[:n-1] // taken back
		default:
			forms = append(forms, s)
		}
	}
	for _, w := range was {
		if w.Change == store.Fixed {
			step(w.Former)
		}
	}
	step(now)
	if len(forms) < 2 {
		return planner.Set{}, false
	}
	return forms[len(forms)-2], true
}

func sameForm(a, b planner.Set) bool { return alike([]planner.Set{a}, []planner.Set{b}) }

// corrected is a set after 'I meant 150', 'no, bench 90x3' or 'it was @9'. A number
// without a unit is meant in the unit the set was written in.
func corrected(s planner.Set, c parse.Correction, usual planner.Unit) (planner.Set, error) {
	s.Pending = false
	written := parse.WrittenIn(s.Weight, usual)
	switch {
	case c.Weight != nil && c.UnitSaid:
		s.Weight = *c.Weight
	case c.Weight != nil:
		s.Weight = planner.In(written, c.Number)
	case c.Unit != "" && c.Unit != written:
		s.Weight = planner.In(c.Unit, numberIn(s.Weight, written))
	}
	if c.Reps != nil {
		s.Reps, s.Missed = *c.Reps, *c.Reps == 0
	}
	if c.Sets != nil {
		s.Sets = *c.Sets
	}
	if c.Reserve != nil {
		s.Reserve = c.Reserve
	}
	if c.Lift != "" {
		s.Lift, s.Variant = c.Lift, c.Variant
	}
	if c.Missed && !s.Missed {
		if s.Sets > 1 {
			return s, planner.Errorf(planner.Invalid, "Write the sets anew, for example: squat 2x5 140, 140x4 missed", "It is not clear which of the %d sets was missed", s.Sets)
		}
		s.Missed, s.Reps = true, max(0, s.Reps-1)
	}
	if s.Weight < planner.MinWeight && !parse.OwnWeight(s.Lift) || s.Weight > planner.MaxWeight {
		return s, planner.Errorf(planner.Invalid, "Write the weight too, for example: no, 140x3", "%s is no weight that can be lifted", s.Weight.Text(usual))
	}
	return s, nil
}

// numberIn is the number that a weight was written with: whole, or in quarters.
func numberIn(g planner.Grams, unit planner.Unit) float64 {
	n := g.Kg()
	if unit == planner.LB {
		n = g.Lb()
	}
	return math.Round(4*n) / 4
}

// fix replaces a set by its corrected form, says what it was and lets the lifter take
// it back. A load far from what the lifter has done before is asked about and counts
// for nothing until then.
func (t *turn) fix(was, s planner.Set) (chat.Reply, error) {
	if sameForm(was, s) && !was.Pending {
		return private(chat.Message{Text: "That is what I have: " + render.Set(was, t.about.Unit) + ".", Data: t.logData([]planner.Set{was}, 0, nil, nil)}), nil
	}
	odd, err := t.odd(was, s)
	if err != nil {
		return chat.Reply{}, err
	}
	s.Pending = odd
	beaten, err := t.recordsBeyond(was, s)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.FixSet(t.about.ID, s.Day, s.Seq, s, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Text: "Was " + render.Set(was, t.about.Unit) + ", now " + render.Set(s, t.about.Unit) + ".", Data: t.logData([]planner.Set{s}, 0, nil, nil)}
	if news := t.recordNews(beaten); news != "" {
		m.Text += " " + news
	}
	if odd {
		m.Text = s.Weight.Text(t.about.Unit) + farOff
		m.Buttons, err = t.oddButtons("No, put it back", &was, s)
		return private(m), err
	}
	moved, _, err := t.movedBy([]planner.Set{was}, []planner.Set{s})
	if err != nil {
		return chat.Reply{}, err
	}
	m.Text = strings.Join(append([]string{m.Text}, moved...), "\n")
	back, err := t.becomes("Put it back", s, was)
	m.Buttons = []chat.Button{back}
	return private(m), err
}
