package bot

import (
	"strings"
	"unicode"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// farthestMeet is how many days ahead a meet may lie. Calendars of federations
// reach a few years; anything beyond is a typing slip.
const farthestMeet = 10 * 366

// listMeets answers /meet.
func listMeets(t *turn) (chat.Reply, error) {
	meets, err := t.tx.Meets(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.Meets(meets, t.today(), t.about.Unit)
	if who := t.forWhom(); who != "" {
		m.Title = "Meets of " + who
	}
	return private(m), nil
}

// addMeet answers /meet add. A meet in the past is offered as a result.
func addMeet(t *turn) (chat.Reply, error) {
	if team, err := t.team(); err != nil || team != nil {
		if err != nil {
			return chat.Reply{}, err
		}
		return t.addTeamMeet(team)
	}
	m, err := t.meetFromOptions()
	if err != nil {
		return chat.Reply{}, err
	}
	if m.Date < t.today() {
		return t.offerPastMeet(m)
	}
	if t.today().DaysUntil(m.Date) > farthestMeet {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Check the year.", "date: %s is more than ten years ahead", m.Date)
	}
	m.ID, err = t.tx.AddMeet(m, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.toldMeet(m, "On your calendar: "+meetLine(m, t.today())+".", undo{"meet.drop", meetBack{Meet: m.ID}}, "added a meet"); err != nil {
		return chat.Reply{}, err
	}
	remark, err := t.sameMeet(m)
	if err != nil {
		return chat.Reply{}, err
	}
	if !m.Class.IsZero() {
		class, err := t.classCheck(t.about, m.Class)
		if err != nil {
			return chat.Reply{}, err
		}
		remark = strings.TrimSpace(remark + " " + class)
	}
	return t.afterMeetChange(m, strings.TrimSpace("On the calendar: "+meetLine(m, t.today())+". "+remark))
}

// meetLine says a meet's name, kind, day and distance.
func meetLine(m planner.Meet, today planner.Date) string {
	return parse.Clean(m.Name) + ", " + render.MeetKindName(m.Kind) + ", " + m.Date.Long() + ", " + render.InDays(today.DaysUntil(m.Date))
}

// meetFromOptions reads the options of /meet add.
func (t *turn) meetFromOptions() (planner.Meet, error) {
	l := t.about
	m := planner.Meet{Lifter: l.ID, Kind: planner.Main, Event: planner.Full, Equipment: planner.Raw, WeighInHours: 2, Class: l.Class}
	for _, p := range meetParams() {
		v, ok := t.options[p.Name]
		if !ok {
			continue
		}
		if err := t.setMeetField(&m, p.Name, v); err != nil {
			return m, err
		}
	}
	if !m.EntryCloses.IsZero() && m.EntryCloses > m.Date {
		return m, planner.Errorf(planner.Invalid, "", "closes: the entry cannot close on %s, after the meet itself on %s", m.EntryCloses, m.Date)
	}
	return m, nil
}

func (t *turn) setMeetField(m *planner.Meet, name, v string) (err error) {
	switch name {
	case "name":
		m.Name, err = meetName(v)
	case "date":
		m.Date, err = t.dated(name, v)
	case "kind":
		m.Kind = planner.MeetKind(v)
	case "event":
		m.Event = planner.EventKind(v)
	case "equipment":
		m.Equipment = planner.Equipment(v)
	case "class":
		m.Class, err = planner.ParseClass(v)
	case "weigh_in":
		m.WeighInHours = map[string]int{"2": 2, "24": 24}[v]
	case "qualifying":
		m.Qualifying, err = totalMass("qualifying", v, t.about.Unit)
	case "closes":
		m.EntryCloses, err = t.dated(name, v)
	case "entered":
		m.Entered = v == "yes"
	case "place":
		m.Place = parse.Clean(v)
	case "zone":
		m.Zone, err = zoneName(v)
	case "rules":
		m.RuleSet = parse.Clean(v)
	case "handler":
		m.Handler, err = t.handlerID(v)
	}
	return err
}

func (t *turn) handlerID(v string) (planner.LifterID, error) {
	l, err := t.lifterNamed(v)
	return l.ID, err
}

// meetName reads a meet's name: 1 to 60 visible characters on one line, and none
// that a chat takes for a mention, a link or formatting.
func meetName(v string) (string, error) {
	n := len([]rune(v))
	odd := strings.ContainsFunc(v, func(r rune) bool { return !unicode.IsPrint(r) }) || strings.ContainsAny(v, "@<>*`~|\\[]#_") || strings.Contains(v, "://")
	if n < 1 || n > 60 || odd {
		return "", planner.Errorf(planner.Invalid, "Use 1 to 60 letters, digits and plain punctuation on one line.", "name: a meet cannot be called %q", parse.Clean(v))
	}
	return v, nil
}

// totalMass reads a total: 0 (none made) up to three of the heaviest lifts.
func totalMass(name, v string, unit planner.Unit) (planner.Grams, error) {
	g, err := parse.Total(v, unit)
	if err != nil {
		return 0, named(name, err)
	}
	return g, nil
}

// offerPastMeet asks whether a meet in the past is meant as a result.
func (t *turn) offerPastMeet(m planner.Meet) (chat.Reply, error) {
	b, err := t.button("Keep it as a result", "meet.past", m, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r := refusal(planner.Errorf(planner.Invalid,
		"If you lifted there, keep it as a result and enter your total with /meet result. Otherwise check the year.",
		"%s is past (%s)", m.Date.Long(), render.InDays(t.today().DaysUntil(m.Date))))
	r.Message.Buttons = []chat.Button{b}
	return r, nil
}

// moveMeet answers /meet move.
func moveMeet(t *turn) (chat.Reply, error) {
	if team, err := t.team(); err != nil || team != nil {
		if err != nil {
			return chat.Reply{}, err
		}
		return t.moveTeamMeet(team)
	}
	m, err := t.meetNamed(t.options["name"])
	if err != nil {
		return chat.Reply{}, err
	}
	to, err := t.dated("date", t.options["date"])
	if err != nil {
		return chat.Reply{}, err
	}
	if to < t.today() {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "A meet can only be moved to today or later. Enter a past one with /meet result.", "%s is past", to.Long())
	}
	if to == m.Date {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Nothing was changed.", "%s is on %s already", parse.Clean(m.Name), to.Long())
	}
	from := m.Date
	m.Date = to
	if err := t.tx.SaveMeet(m, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.toldMeet(m, "Moved from "+from.Short()+": "+meetLine(m, t.today())+".", undo{"meet.where", meetBack{m.ID, from}}, "moved a meet"); err != nil {
		return chat.Reply{}, err
	}
	freed, err := t.freeDays(m)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.afterMeetChange(m, strings.TrimSpace("Moved from "+from.Short()+": "+meetLine(m, t.today())+". "+freed))
}

// dropMeet answers /meet drop.
func dropMeet(t *turn) (chat.Reply, error) {
	if team, err := t.team(); err != nil || team != nil {
		if err != nil {
			return chat.Reply{}, err
		}
		return t.dropTeamMeet(team)
	}
	m, err := t.meetNamed(t.options["name"])
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropMeet(m.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.toldMeet(m, "Off your calendar: "+parse.Clean(m.Name)+", "+m.Date.Long()+".", undo{}, "dropped a meet"); err != nil {
		return chat.Reply{}, err
	}
	freed, err := t.freeDays(m)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.afterMeetChange(m, strings.TrimSpace("Off the calendar: "+parse.Clean(m.Name)+", "+m.Date.Long()+". "+freed))
}

// meetNamed finds one of the lifter's meets by name: the next one with that name,
// else the last. A near miss is suggested, never taken.
func (t *turn) meetNamed(name string) (planner.Meet, error) {
	meets, err := t.tx.Meets(t.about.ID)
	if err != nil {
		return planner.Meet{}, err
	}
	var found *planner.Meet
	var names []string
	for i, m := range meets {
		names = append(names, strings.ToLower(m.Name))
		if strings.EqualFold(m.Name, name) && (found == nil || found.Date < t.today()) {
			found = &meets[i]
		}
	}
	if found != nil {
		return *found, nil
	}
	hint := "Put it on the calendar with /meet add."
	if near, ok := parse.Near(strings.ToLower(name), names); ok {
		for _, m := range meets {
			if strings.ToLower(m.Name) == near {
				hint = "Did you mean " + parse.Clean(m.Name) + "?"
			}
		}
	}
	return planner.Meet{}, planner.Errorf(planner.NotFound, hint, "There is no meet called %q on the calendar", parse.Clean(name))
}

// keepPastMeet answers the button under a meet in the past.
func keepPastMeet(t *turn, b store.Button) (chat.Reply, error) {
	m, err := args[planner.Meet](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if _, err := t.tx.AddMeet(m, t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Kept " + parse.Clean(m.Name) + ", " + m.Date.Long() +
		". Enter your total with /meet result name:\"" + parse.Clean(m.Name) + "\" total:"}), nil
}

// enterResult answers /meet result. A meet that is not on the calendar is put
// there when its date is told.
func enterResult(t *turn) (chat.Reply, error) {
	total, err := totalMass("total", t.options["total"], t.about.Unit)
	if err != nil {
		return chat.Reply{}, err
	}
	m, err := t.resultMeet()
	if err != nil {
		return chat.Reply{}, err
	}
	if m.Date > t.today() {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Enter the result on the day or later.", "%s is still to come (%s)", parse.Clean(m.Name), m.Date.Long())
	}
	m.ResultTotal, m.ResultEntered = total, true
	if err := t.tx.SaveMeet(m, t.now); err != nil {
		return chat.Reply{}, err
	}
	if m.Kind != planner.Test && !t.about.HasCompeted {
		t.about.HasCompeted = true
		if err := t.tx.SaveLifter(t.about, t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	r := private(render.Result(m, t.about.Unit))
	back, err := t.button("Look back", "review.form", reviewArgs{Lifter: t.about.ID, Meet: m.ID}, t.speaker)
	r.Message.Buttons = []chat.Button{back}
	return r, err
}

// resultMeet finds the meet of a result, or makes it from name and date.
func (t *turn) resultMeet() (planner.Meet, error) {
	v, dated := t.options["date"]
	if !dated {
		return t.meetNamed(t.options["name"])
	}
	day, err := t.dated("date", v)
	if err != nil {
		return planner.Meet{}, err
	}
	name, err := meetName(t.options["name"])
	if err != nil {
		return planner.Meet{}, err
	}
	meets, err := t.tx.Meets(t.about.ID)
	if err != nil {
		return planner.Meet{}, err
	}
	for _, m := range meets {
		if strings.EqualFold(m.Name, name) && m.Date == day {
			return m, nil
		}
	}
	if day > t.today() {
		return planner.Meet{}, planner.Errorf(planner.Invalid, "Enter the result on the day or later.", "%s is still to come", day.Long())
	}
	m := planner.Meet{Lifter: t.about.ID, Name: name, Date: day, Kind: planner.Main, Event: planner.Full, Equipment: planner.Raw, WeighInHours: 2}
	m.ID, err = t.tx.AddMeet(m, t.now)
	return m, err
}
