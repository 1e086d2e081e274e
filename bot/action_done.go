package bot

import (
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// donePrefix begins the message under which a session is logged that was done as
// prescribed, so that it can be taken back in one: it goes on with the day where Done
// was pressed, and with the message where 'done' was written.
const donePrefix = "done/"

// dayDone answers 'Done': what was prescribed is logged as sets of its day.
func dayDone(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, d, err := t.dayPressed(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	if a.Day > w.course.today {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Press Done when it is done.", "%s is still to come", a.Day.Short())
	}
	return t.logDone(&w, d, donePrefix+d.Date.String(), false)
}

// logDone logs what of a session is not in the log yet. What the lifter finds the
// weight of, and accessories, have no weight to log. Quietly: with a mark, where there
// is nothing more to say.
func (t *turn) logDone(w *weekNow, d load.Day, message string, quietly bool) (chat.Reply, error) {
	rest := notLogged(d.Prescribed(), w.sets)
	if len(rest) == 0 {
		return private(chat.Message{Text: nothingToLog(d, found(d, w.sets)), Data: t.logData(nil, 0, nil, nil)}), nil
	}
	beaten, err := t.records(rest)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets(rest, message)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("logged a session as prescribed"); err != nil {
		return chat.Reply{}, err
	}
	open := found(d, w.sets)
	if quietly && len(open)+len(beaten) == 0 {
		return chat.Reply{Kind: chat.React, Reaction: markKept, Message: chat.Message{Data: t.logData(kept, 0, nil, nil)}}, nil
	}
	news := []string{"Logged as prescribed. Was something different? Take it back and write it, for example: squat 140x5 @8"}
	if len(open) > 0 {
		news = append(news, "Not logged, because you found the weight: "+render.List(open)+". Write it, for example: "+open[0]+" 60x5 @7")
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, Data: t.logData(kept, 0, nil, nil), News: news}
	t.announce(&view, beaten)
	m := render.Logged(view)
	undo, err := t.button("Take it back", "day.undo", undoneArgs{t.about.ID, message}, t.speaker)
	m.Buttons = []chat.Button{undo}
	return private(m), err
}

// nothingToLog says why 'done' logs nothing; open are the movements whose weight is to
// be found and that are not in the log yet.
func nothingToLog(d load.Day, open []string) string {
	lifts := slices.ContainsFunc(d.Work, func(w load.Work) bool { return w.Lift.Competition() })
	own := slices.IndexFunc(d.Work, func(w load.Work) bool { return w.Find || !w.Lift.Competition() })
	switch {
	case !lifts:
		return "This session is accessories only: you choose their weights, so I have none to log. Write what you want to keep, for example: row 60x10"
	case len(open) > 0:
		return "You find the weight of " + render.List(open) + " in this session. Write what you lifted, for example: " + open[0] + " 60x5 @7"
	}
	if own >= 0 {
		return "All that I know the weight of is in your log already. The rest is yours to write, for example: " + d.Work[own].Name + " 60x10"
	}
	return "All of it is in your log already."
}

// found names the movements of a session whose weight the lifter finds, and that are
// not in the log yet.
func found(d load.Day, logged []planner.Set) (names []string) {
	for _, w := range d.Work {
		has := slices.ContainsFunc(logged, func(s planner.Set) bool { return s.Day == d.Date && s.Lift == w.Lift && s.Variant == w.Variant })
		if w.Find && !has && !slices.Contains(names, w.Name) {
			names = append(names, w.Name)
		}
	}
	return names
}

// notLogged is what of prescribed work the log does not hold. A logged set stands for
// the prescribed one of its movement with its weight and repetitions, else for the
// heaviest of its movement.
func notLogged(planned, logged []planner.Set) []planner.Set {
	left := make([]planner.Set, len(planned))
	copy(left, planned)
	take := func(s planner.Set, exact bool) bool {
		best := -1
		for i, p := range left {
			same := p.Lift == s.Lift && p.Variant == s.Variant && p.Day == s.Day && p.Sets > 0
			if !same || exact && (p.Weight != s.Weight || p.Reps != s.Reps) {
				continue
			}
			if best < 0 || p.Weight > left[best].Weight {
				best = i
			}
		}
		if best >= 0 {
			left[best].Sets--
		}
		return best >= 0
	}
	var other []planner.Set
	for _, s := range logged {
		for range max(1, s.Sets) {
			if !take(s, true) {
				other = append(other, s)
			}
		}
	}
	for _, s := range load.HardSets(other) {
		take(s, false)
	}
	var out []planner.Set
	for _, p := range left {
		if p.Sets > 0 {
			p.Seq = 0
			out = append(out, p)
		}
	}
	return out
}

// undoneArgs is what 'Take it back' carries.
type undoneArgs struct {
	Lifter  planner.LifterID `json:"lifter"`
	Message string           `json:"message"`
}

// dayUndone takes back what 'Done' logged.
func dayUndone(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[undoneArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	gone, err := t.takeDoneBack(a.Message)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(gone) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Look at /log recent.", "Nothing of it is in your log any more")
	}
	return private(t.takenBack(gone)), nil
}

// takeDoneBack drops the sets of a session that was logged as prescribed.
func (t *turn) takeDoneBack(message string) ([]planner.Set, error) {
	sets, err := t.tx.SetsOfMessage(t.about.ID, message)
	if err != nil {
		return nil, err
	}
	for _, s := range sets {
		if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return nil, err
		}
	}
	return sets, nil
}

func (t *turn) takenBack(gone []planner.Set) chat.Message {
	d := t.logData(nil, 0, nil, nil)
	d["dropped"] = t.setData(gone)
	return chat.Message{Text: "Taken back: the session as prescribed is no longer in your log.", Data: d}
}

// doneSaid answers 'done' in the log: where today's work was shown it is logged, else
// it is shown first, to be sure.
func (t *turn) doneSaid() (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	day := t.trainingDay()
	w, reason, err := t.weekFor(c, day)
	if err != nil {
		return chat.Reply{}, err
	}
	if reason != nil {
		reason.Text += "\nWrite what you lifted, for example: squat 140x5 @8"
		return private(*reason), nil
	}
	d, has := w.plan.On(day)
	if !has {
		return private(chat.Message{Text: "No session was planned today. Write what you lifted, for example: squat 140x5 @8", Data: t.logData(nil, 0, nil, nil)}), nil
	}
	shown, err := t.tx.Prescribed(t.about.ID, day, day)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(shown) == 0 {
		r, err := t.dayOn(c, day)
		r.Message.Text = "Is this what you did? Then press Done.\n" + r.Message.Text
		return r, err
	}
	return t.logDone(&w, d, donePrefix+t.event.Message, true) // it was shown, so a mark says enough
}
