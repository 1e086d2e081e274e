package bot

import (
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// paperParams are what /meet papers takes: what may change of an entry, and where its
// lifter has to be.
func paperParams() []Param {
	return []Param{
		{Name: "name", About: "which meet; the next one without it", Positional: true},
		{Name: "entered", About: "is the entry in", Choices: yesNo},
		{Name: "closes", About: "the day the entry closes"},
		{Name: "qualifying", About: "the total that is asked for; 0: none"},
		{Name: "class", About: "the class entered"},
		{Name: "weigh_in", About: "hours before lifting: 2 or 24", Choices: []string{"2", "24"}},
		{Name: "handler", About: "who helps there"},
		{Name: "session", About: "for example 2, Saturday 9:00"},
		{Name: "flight", About: "for example B"},
		{Name: "travel", About: "for example by car with the club, 6:30"},
		{Name: "place", About: "where it is"},
		{Name: "rules", About: "the rule book in force there"},
	}
}

// showPapers answers /meet papers: what a meet still asks for beside lifting, and what
// is told of it.
func showPapers(t *turn) (chat.Reply, error) {
	m, err := t.paperMeet()
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.tx.Roster(m.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	title := "Papers"
	if told := slices.DeleteFunc(t.optionNames(), func(o string) bool { return o == "name" }); len(told) > 0 {
		title = "Saved"
		if err := t.savePapers(&m, &r, told); err != nil {
			return chat.Reply{}, err
		}
	}
	v, err := t.papersOf(m, r)
	if err != nil {
		return chat.Reply{}, err
	}
	v.Title = title
	return private(render.Papers(v)), nil
}

// paperMeet is the meet that is named, else the next one.
func (t *turn) paperMeet() (planner.Meet, error) {
	if name, given := t.options["name"]; given {
		return t.meetNamed(name)
	}
	c, err := t.course(t.about)
	if err != nil {
		return planner.Meet{}, err
	}
	m, ok := c.nextMeet()
	if !ok {
		return m, planner.Errorf(planner.NotFound, "Put it on the calendar with /meet add.", "There is no meet ahead")
	}
	return m, nil
}

// savePapers keeps what was told of an entry.
func (t *turn) savePapers(m *planner.Meet, r *store.Roster, told []string) error {
	for _, name := range told {
		v := t.options[name]
		switch name {
		case "session":
			r.Session = place(v)
		case "flight":
			r.Flight = place(v)
		case "travel":
			r.Travel = place(v)
		case "closes", "handler":
			if strings.EqualFold(strings.TrimSpace(v), "none") {
				clearEntry(m, name)
				continue
			}
			fallthrough
		default:
			if err := t.setMeetField(m, name, v); err != nil {
				return err
			}
		}
	}
	if !m.EntryCloses.IsZero() && m.EntryCloses > m.Date {
		return planner.Errorf(planner.Invalid, "", "closes: the entry cannot close on %s, after the meet itself on %s", m.EntryCloses, m.Date)
	}
	if m.Handler == m.Lifter {
		return planner.Errorf(planner.Invalid, "handler:none where nobody helps.", "handler: name somebody else than the lifter")
	}
	if err := t.tx.SaveMeet(*m, t.now); err != nil {
		return err
	}
	if err := t.tx.SaveRoster(m.ID, *r); err != nil {
		return err
	}
	if err := t.tellHandler(*m, told); err != nil {
		return err
	}
	what := "Changed for " + parse.Clean(m.Name) + ": " + strings.Join(told, ", ") + ". /meet papers shows it."
	if err := t.note(t.about, what, undo{}); err != nil {
		return err
	}
	return t.audit("changed papers of a meet: " + strings.Join(told, ", "))
}

// clearEntry forgets what was told of an entry.
func clearEntry(m *planner.Meet, name string) {
	if name == "closes" {
		m.EntryCloses = 0
	} else {
		m.Handler = 0
	}
}

// place is a few words of an organiser's list; none forgets them.
func place(v string) string {
	if strings.EqualFold(strings.TrimSpace(v), "none") {
		return ""
	}
	return cutTo(parse.Clean(v), 60)
}

// tellHandler tells somebody that they help a lifter at a meet.
func (t *turn) tellHandler(m planner.Meet, told []string) error {
	if !slices.Contains(told, "handler") || m.Handler == 0 || m.Handler == m.Lifter {
		return nil
	}
	h, err := t.tx.Lifter(m.Handler)
	if err != nil {
		return err
	}
	return t.note(h, "You help "+parse.Clean(render.Called(t.about))+" at "+parse.Clean(m.Name)+" on "+m.Date.Long()+".", undo{})
}

// papersOf gathers what is known of an entry.
func (t *turn) papersOf(m planner.Meet, r store.Roster) (v render.PapersView, err error) {
	c, err := t.course(t.about)
	if err != nil {
		return v, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return v, err
	}
	v = render.PapersView{Meet: m, Lifter: masked(t.about, hidden), Today: c.today, Session: r.Session, Flight: r.Flight, Travel: r.Travel, Who: t.forWhom()}
	l, err := t.tx.Licence(t.about.ID)
	if err != nil {
		return v, err
	}
	v.Licence = l.Until
	if m.Handler != 0 {
		h, err := t.tx.Lifter(m.Handler)
		if err != nil {
			return v, err
		}
		v.Handler = parse.Clean(render.Called(h))
	}
	if m.Date < c.today || m.Kind == planner.Test {
		return v, nil
	}
	f, err := t.forecast(c, m)
	if err != nil {
		return v, err
	}
	v.Low, v.High, v.Now, v.Claimed, v.Gain = f.Low, f.High, f.Now, f.Claimed, f.Gain
	v.CameOut, v.LookedBack, err = t.cameOut(c, m.Date)
	return v, err
}
