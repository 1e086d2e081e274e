package bot

import (
	"strings"
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
		message, err := t.tx.MessageOf(t.about.ID, s)
		if err != nil {
			return chat.Reply{}, err
		}
		if strings.HasPrefix(message, donePrefix) {
			done, err := t.takeDoneBack(message)
			return private(t.takenBack(done)), err
		}
		if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
		return private(chat.Message{Text: "Removed " + render.Set(s, t.about.Unit) + ".", Data: t.dropData(s)}), nil
	}
	return t.fix(s, corrected(s, res, t.about.Unit))
}

// corrected is a set after 'I meant 150' or 'no, bench 90x3'. A number without a
// unit is meant in the unit the set was written in.
func corrected(s planner.Set, res parse.Result, usual planner.Unit) planner.Set {
	s.Pending = false
	written := parse.WrittenIn(s.Weight, usual)
	s.Weight = *res.Correct
	if !res.CorrectUnitSaid {
		s.Weight = planner.In(written, res.CorrectNumber)
	}
	if res.CorrectReps != nil {
		s.Reps, s.Missed = *res.CorrectReps, *res.CorrectReps == 0
	}
	if res.CorrectSets != nil {
		s.Sets = *res.CorrectSets
	}
	if res.CorrectReserve != nil {
		s.Reserve = res.CorrectReserve
	}
	if res.CorrectLift != "" {
		s.Lift, s.Variant = res.CorrectLift, res.CorrectVariant
	}
	return s
}

// fix replaces a set by its corrected form. A load far from what the lifter has
// done before is asked about and counts for nothing until then.
func (t *turn) fix(was, s planner.Set) (chat.Reply, error) {
	odd, err := t.odd(was, s)
	if err != nil {
		return chat.Reply{}, err
	}
	s.Pending = odd
	beaten, err := t.records([]planner.Set{s}, s.Seq)
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
		m.Buttons, err = t.oddButtons("No, put it back", []planner.Set{was}, s)
	}
	return private(m), err
}

// odd tells whether a corrected load is far from the lifter's best: above
// parse.FarAbove or below parse.FarBelow of it, as for a load that is logged.
func (t *turn) odd(was, s planner.Set) (bool, error) {
	same := s.Weight == was.Weight && s.Lift == was.Lift
	if same || !s.Lift.Competition() {
		return was.Pending && same, nil
	}
	b := t.bests()
	best := b.kg(s.Lift)
	return best > 0 && (s.Weight.Kg() > parse.FarAbove*best || s.Weight.Kg() < parse.FarBelow*best), b.err
}

// farOff is asked about a load that odd tells of.
const farOff = " is far from what you have done before. Is it right?"

// oddButtons let the lifter keep the odd load or go back to what stood there.
func (t *turn) oddButtons(back string, was []planner.Set, s planner.Set) ([]chat.Button, error) {
	a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/odd", Message: t.event.Message, Replace: []setRef{{s.Day, s.Seq}}, Sets: []planner.Set{s}}
	yes, err := t.button("Yes, "+s.Weight.Text(t.about.Unit), "set.answer", a, t.speaker)
	if err != nil {
		return nil, err
	}
	a.Sets = was
	no, err := t.button(back, "set.answer", a, t.speaker)
	return []chat.Button{yes, no}, err
}

// edited answers a changed message: its old sets go, the new ones come, on the
// day the message was about. Where the change touches no set, a correction made
// meanwhile stays.
func (t *turn) edited() (chat.Reply, error) {
	same, err := t.saysTheSame()
	if err != nil || same {
		return chat.Reply{}, err
	}
	day, had, err := t.forget()
	if err != nil {
		return chat.Reply{}, err
	}
	if !had {
		return t.said()
	}
	if r, handled, err := t.teamSaid(t.event.Text, t.event.Message, day); err != nil || handled {
		return r, err
	}
	r, err := t.read(t.event.Text, t.event.Message, day)
	if err == nil && r.Kind == chat.Silent {
		return private(chat.Message{Text: "The sets of that message are removed.", Data: t.logData(nil, 0, nil, nil)}), nil
	}
	return r, err
}

// saysTheSame tells whether a changed message still says the sets that it was
// logged with.
func (t *turn) saysTheSame() (bool, error) {
	if t.speaker.ID == 0 {
		return false, nil
	}
	sets, err := t.tx.SetsOfMessage(t.speaker.ID, t.event.Message)
	if err != nil || len(sets) == 0 {
		return false, err
	}
	first := make([]planner.Set, len(sets))
	for i, s := range sets {
		if first[i], err = t.tx.FirstForm(t.speaker.ID, s); err != nil {
			return false, err
		}
	}
	res, err := t.understand(t.event.Text, sets[0].Day, t.bests())
	return err == nil && len(res.Problems) == 0 && res.Alarm == parse.NoAlarm && alike(first, res.Sets), err
}

// deleted answers a removed message: its sets go with it, in silence.
func (t *turn) deleted() (chat.Reply, error) {
	_, _, err := t.forget()
	return chat.Reply{}, err
}

// forget removes the sets of the event's message, whosever they are, and the buttons
// that could bring others in its name, and returns their day.
func (t *turn) forget() (day planner.Date, had bool, err error) {
	if t.speaker.ID == 0 {
		return 0, false, nil
	}
	if err := t.tx.ForgetAnswers(t.speaker.ID, t.event.Message); err != nil {
		return 0, false, err
	}
	whose, err := t.tx.LiftersOfMessage(t.event.Message)
	if err != nil || t.event.Message == "" {
		return 0, false, err
	}
	for _, l := range whose {
		if day, had, err = t.forgetSets(l, t.event.Message, day, had); err != nil {
			return 0, false, err
		}
	}
	return t.forgetSets(t.speaker.ID, donePrefix+t.event.Message, day, had)
}

// forgetSets removes the sets of a message and returns the day of the last one, or
// what was known before where there are none.
func (t *turn) forgetSets(l planner.LifterID, message string, day planner.Date, had bool) (planner.Date, bool, error) {
	sets, err := t.tx.SetsOfMessage(l, message)
	for _, s := range sets {
		if err := t.tx.DropSet(l, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return 0, false, err
		}
		day, had = s.Day, true
	}
	return day, had, err
}
