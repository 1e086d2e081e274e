package bot

import (
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

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

// oddButtons let the lifter keep the odd load or go back to what stood there; nil:
// nothing did.
func (t *turn) oddButtons(back string, was *planner.Set, s planner.Set) ([]chat.Button, error) {
	sure := s
	sure.Pending = false
	yes, err := t.becomes("Yes, "+s.Weight.Text(t.about.Unit), s, sure)
	if err != nil {
		return nil, err
	}
	if was != nil {
		no, err := t.becomes(back, s, *was)
		return []chat.Button{yes, no}, err
	}
	a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/odd", Message: t.event.Message, Replace: []setRef{{s.Day, s.Seq}}}
	no, err := t.button(back, "set.answer", a, t.speaker)
	return []chat.Button{yes, no}, err
}

// becoming is what a button carries that gives a set another form where it stands.
type becoming struct {
	Lifter  planner.LifterID `json:"lifter"`
	Message string           `json:"message"` // that wrote the set
	Was     planner.Set      `json:"was"`
	Set     planner.Set      `json:"set"`
}

func (t *turn) becomes(label string, was, s planner.Set) (chat.Button, error) {
	message, err := t.tx.MessageOf(t.about.ID, was)
	if err != nil {
		return chat.Button{}, err
	}
	s.Day, s.Seq = was.Day, was.Seq
	return t.button(label, "set.become", becoming{t.about.ID, message, was, s}, t.speaker)
}

// becomePressed gives a set the form of a button, unless it was changed since.
func becomePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[becoming](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	day, err := t.tx.Sets(a.Lifter, a.Was.Day, a.Was.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	at := slices.IndexFunc(day, func(s planner.Set) bool { return s.Seq == a.Was.Seq })
	if at < 0 || !sameForm(day[at], a.Was) || day[at].Pending != a.Was.Pending {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /log recent, then /log fix or /log drop.", "That set has changed since")
	}
	beaten, err := t.recordsBeyond(a.Was, a.Set)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.FixSet(a.Lifter, a.Was.Day, a.Was.Seq, a.Set, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: []planner.Set{a.Set}, Unit: t.about.Unit, Data: t.logData([]planner.Set{a.Set}, 0, nil, nil)}
	t.announce(&view, beaten)
	view.News, _, err = t.movedBy([]planner.Set{a.Was}, view.Sets)
	return private(render.Logged(view)), err
}
