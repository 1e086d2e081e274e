package bot

import (
	"errors"
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// addTeamMeet puts a meet on the calendars of several lifters. Each gets an entry of
// their own and is told in private; the plans are laid out on demand.
func (t *turn) addTeamMeet(team []planner.Lifter) (chat.Reply, error) {
	var m planner.Meet
	var added, had []planner.Lifter
	err := t.each(team, func(l planner.Lifter) (err error) {
		if m, err = t.meetFromOptions(); err != nil {
			return err
		}
		if err := futureMeet(m, t.today()); err != nil {
			return err
		}
		m.ID, err = t.tx.AddMeet(m, t.now)
		if conflicts(err) {
			had = append(had, l)
			return nil
		}
		if err != nil {
			return err
		}
		added = append(added, l)
		return t.toldMeet(m, "On your calendar: "+meetLine(m, t.today())+".", undo{"meet.drop", meetBack{Meet: m.ID}}, "added a meet")
	})
	if err != nil {
		return chat.Reply{}, err
	}
	said := "Nothing to add: everybody has " + parse.Clean(m.Name) + " on " + m.Date.Long() + " already."
	if len(added) > 0 {
		said = fmt.Sprintf("On the calendar of %s: %s.", names(added), meetLine(m, t.today()))
		if len(had) > 0 {
			said += " Already there for " + names(had) + "."
		}
	}
	return t.teamReply(m, said, added)
}

// moveTeamMeet moves a meet for all of several lifters who have it.
func (t *turn) moveTeamMeet(team []planner.Lifter) (chat.Reply, error) {
	to, err := t.dated("date", t.options["date"])
	if err != nil {
		return chat.Reply{}, err
	}
	var last planner.Meet
	moved, err := t.forEntries(team, func(m planner.Meet) error {
		from := m.Date
		if m.Date == to {
			return planner.Errorf(planner.Conflict, "", "it is there already")
		}
		m.Date = to
		if err := futureMeet(m, t.today()); err != nil {
			return err
		}
		if err := t.tx.SaveMeet(m, t.now); err != nil {
			return err
		}
		last = m
		if _, err := t.freeDays(m); err != nil {
			return err
		}
		return t.toldMeet(m, "Moved from "+from.Short()+": "+meetLine(m, t.today())+".", undo{"meet.where", meetBack{m.ID, from}}, "moved a meet")
	})
	if err != nil {
		return chat.Reply{}, err
	}
	return t.teamReply(last, fmt.Sprintf("Moved for %s: %s.", names(moved), meetLine(last, t.today())), moved)
}

// dropTeamMeet takes a meet off the calendars of all of several lifters who have it.
func (t *turn) dropTeamMeet(team []planner.Lifter) (chat.Reply, error) {
	var last planner.Meet
	dropped, err := t.forEntries(team, func(m planner.Meet) error {
		last = m
		if err := t.tx.DropMeet(m.ID, t.now); err != nil {
			return err
		}
		if _, err := t.freeDays(m); err != nil {
			return err
		}
		return t.toldMeet(m, "Off your calendar: "+parse.Clean(m.Name)+", "+m.Date.Long()+".", undo{}, "dropped a meet")
	})
	if err != nil {
		return chat.Reply{}, err
	}
	return t.teamReply(last, fmt.Sprintf("Off the calendar of %s: %s, %s.", names(dropped), parse.Clean(last.Name), last.Date.Long()), dropped)
}

// forEntries runs f for the entry of each lifter of the team who has the meet that
// is named and is still ahead, and returns those for whom it was done. Whoever has no such entry, or needs
// no change, is passed over; where nobody is left that is an error.
func (t *turn) forEntries(team []planner.Lifter, f func(planner.Meet) error) ([]planner.Lifter, error) {
	var done []planner.Lifter
	err := t.each(team, func(l planner.Lifter) error {
		m, err := t.meetNamed(t.options["name"])
		var known *planner.Error
		if errors.As(err, &known) && known.Kind == planner.NotFound || err == nil && m.Date < t.today() {
			return nil
		}
		if err == nil {
			err = f(m)
		}
		if conflicts(err) {
			return nil
		}
		if err == nil {
			done = append(done, l)
		}
		return err
	})
	if err == nil && len(done) == 0 {
		err = planner.Errorf(planner.NotFound, "Nothing was changed.", "Nobody of them has a meet called %q ahead that needs this", parse.Clean(t.options["name"]))
	}
	return done, err
}

func conflicts(err error) bool {
	var known *planner.Error
	return errors.As(err, &known) && known.Kind == planner.Conflict
}

// futureMeet refuses a day on which a meet cannot be planned for.
func futureMeet(m planner.Meet, today planner.Date) error {
	switch days := today.DaysUntil(m.Date); {
	case days < 0:
		return planner.Errorf(planner.Invalid, "Check the year; each lifter enters a past one with /meet result.", "%s is past", m.Date.Long())
	case days > farthestMeet:
		return planner.Errorf(planner.Invalid, "Check the year.", "date: %s is more than ten years ahead", m.Date)
	}
	return nil
}

// toldMeet notes a change of a lifter's meets.
func (t *turn) toldMeet(m planner.Meet, what string, u undo, did string) error {
	if err := t.note(t.about, what, u); err != nil {
		return err
	}
	return t.audit(did)
}

// layOutArgs is what 'Lay out their plans' carries.
type layOutArgs struct {
	Lifters []planner.LifterID `json:"lifters"`
}

// teamReply says what was done for several, and offers to lay out their plans.
func (t *turn) teamReply(m planner.Meet, said string, team []planner.Lifter) (chat.Reply, error) {
	var who []string
	var a layOutArgs
	for _, l := range team {
		who = append(who, l.Handle)
		a.Lifters = append(a.Lifters, l.ID)
	}
	r := private(chat.Message{Text: said, Data: map[string]any{"meet": render.MeetRow(m, t.today()), "lifters": who}})
	if len(team) == 0 {
		return r, nil
	}
	r.Message.Text += "\nEach of them is told in private and can have a plan with one tap. Agreed plans go on until then."
	b, err := t.button(fmt.Sprintf("Lay out plans for %s", render.Count(len(team), "lifter")), "season.layout", a, t.speaker)
	r.Message.Buttons = []chat.Button{b}
	return r, err
}

// layOutPressed lays out a plan for each lifter on the button: those whose coach
// decides wait for the coach, the others for themselves.
func layOutPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[layOutArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	var v render.LaidOut
	for _, id := range a.Lifters {
		if err := t.turnTo(id); err != nil {
			return chat.Reply{}, err
		}
		if err := t.layOut(&v); err != nil {
			return chat.Reply{}, err
		}
	}
	t.about = t.speaker
	r := private(render.PlansLaidOut(v))
	if len(v.Coach) > 0 {
		look, err := t.button("Look at them", "plan.approvals", struct{}{}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		r.Message.Buttons = []chat.Button{look}
	}
	return r, nil
}

// layOut proposes a plan for the lifter the turn is about.
func (t *turn) layOut(v *render.LaidOut) error {
	name := render.Called(t.about)
	c, err := t.course(t.about)
	if err != nil {
		return err
	}
	p, err := t.build(c)
	var known *planner.Error
	if errors.As(err, &known) {
		v.Not = append(v.Not, name+": "+strings.TrimSuffix(known.Sentence, "."))
		return nil
	}
	if err != nil {
		return err
	}
	if c.stays(p) {
		v.Stay = append(v.Stay, name)
		return t.refresh(c, p)
	}
	kept, err := t.propose(c, p)
	if err != nil {
		return err
	}
	if err := t.audit("laid out a plan"); err != nil {
		return err
	}
	who, err := t.decider(t.about)
	if err != nil {
		return err
	}
	if who == store.CoachDecides && t.about.ID != t.speaker.ID {
		v.Coach = append(v.Coach, name)
		return t.tx.AskApproval(kept, store.CoachDecides, t.now)
	}
	v.Lifter = append(v.Lifter, name)
	return t.note(t.about, "A plan is laid out for you and waits for your yes: /season.", undo{})
}
