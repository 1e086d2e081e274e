package bot

import (
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// swapArgs is what a choice of another movement carries.
type swapArgs struct {
	Lifter  planner.LifterID `json:"lifter"`
	Day     planner.Date     `json:"day"`
	Of      load.Movement    `json:"of"`
	Instead load.Movement    `json:"instead"`
}

// daySwap asks which movement is to be swapped.
func daySwap(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, d, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Swap what?", Text: "You get something for the same purpose."}
	var seen []load.Movement
	for _, x := range d.Work {
		if slices.Contains(seen, x.Movement()) || len(load.Swaps(x, w.request.Gym)) == 0 {
			continue
		}
		seen = append(seen, x.Movement())
		c, err := t.button(label(x.Name), "day.other", swapArgs{Lifter: a.Lifter, Day: a.Day, Of: x.Movement()}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, c)
	}
	if len(seen) == 0 {
		m.Text = "Nothing in this session can be swapped: it is the competition lifts themselves."
	}
	return private(m), nil
}

// mostSwaps is how many other movements are offered: the nearest.
const mostSwaps = 6

// dayOthers offers what can stand in the place of a movement.
func dayOthers(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[swapArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, d, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Instead of " + a.Of.Name()}
	m.Text = "I keep it for the weeks to come."
	if a.Of.Variant == "" && a.Of.Lift.Competition() {
		m.Text = "For this day only: the competition lift itself comes back."
	}
	at := slices.IndexFunc(d.Work, func(x load.Work) bool { return x.Movement() == a.Of })
	if at < 0 {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /today.", "The %s is no longer in that session", a.Of.Name())
	}
	others := load.Swaps(d.Work[at], w.request.Gym)
	for _, o := range others[:min(len(others), mostSwaps)] {
		a.Instead = o
		c, err := t.button(label(o.Name()), "day.take", a, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, c)
	}
	return private(m), nil
}

// dayTaken swaps: a competition lift for the day, anything else for good.
func dayTaken(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[swapArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, _, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	o := load.Override{Of: a.Of, Instead: a.Instead}
	if a.Of.Variant == "" && a.Of.Lift.Competition() {
		if err := t.swapToday(&w, a, o); err != nil {
			return chat.Reply{}, err
		}
	} else {
		if _, err := t.tx.AddWeekChange(a.Lifter, o, t.speaker.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
		var reason *chat.Message
		if w, reason, err = t.weekFor(w.course, a.Day); err != nil || reason != nil {
			return chat.Reply{}, err
		}
		if err := t.keepWeek(&w); err != nil {
			return chat.Reply{}, err
		}
	}
	d, has := w.plan.On(a.Day)
	if !has {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /week.", "There is no session on %s any more", a.Day.Short())
	}
	r, err := t.dayReply(w, d)
	said := render.Sentence(a.Instead.Name()+" instead of "+a.Of.Name()+", every week") + " /week override takes it back."
	if a.Of.Variant == "" && a.Of.Lift.Competition() {
		said = render.Sentence(a.Instead.Name()+" instead of "+a.Of.Name()+", today only") + " As planned takes it back."
		if d.Date != w.course.today {
			said = render.Sentence(a.Instead.Name()+" instead of "+a.Of.Name()+", on that day only") + " As planned takes it back."
		}
	}
	r.Message.Text = said + "\n" + r.Message.Text
	return r, err
}

// swapToday asks the planner of loads for the day with the other movement, and takes
// from it that movement's work.
func (t *turn) swapToday(w *weekNow, a swapArgs, o load.Override) error {
	if err := t.addStrength(&w.request, w.course); err != nil {
		return err
	}
	r := w.request
	r.Overrides = append(slices.Clone(r.Overrides), o)
	p, err := load.Week(r)
	if err != nil {
		return err
	}
	for _, e := range w.edits {
		p = e.apply(p)
	}
	d, _ := p.On(a.Day)
	var work []load.Work
	for _, x := range d.Work {
		if x.Movement() == a.Instead {
			work = append(work, x)
		}
	}
	if len(work) == 0 {
		return planner.Errorf(planner.Conflict, "Choose another one.", "There is no room for the %s on %s", a.Instead.Name(), a.Day.Short())
	}
	return t.changeWeek(w, weekEdit{Swap: &swapEdit{a.Day, a.Of, work}})
}

// label is a name as it stands on a button.
func label(name string) string { return strings.TrimSuffix(render.Sentence(name), ".") }
