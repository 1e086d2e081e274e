package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/parse/sheet"
	"blockbell/bot/render"
	"blockbell/planner"
)

// peopleParams are what /club import takes.
func peopleParams() []Param {
	return []Param{
		{Name: "table", About: "a lifter a row: name, meet, squat, bench, deadlift; rows parted by ; or lines", Positional: false},
		{Name: "file", About: "the same table as a text file (CSV); a first line may name the columns", File: true},
		{Name: "unit", About: "of weights without a unit", Choices: unitWords},
	}
}

// seat is one lifter to be added before they join, with the meet to enter them in.
type seat struct {
	Lifter planner.Lifter `json:"lifter"`
	Meet   planner.Meet   `json:"meet"` // without a name: none
}

// seating is what a table of lifters would do.
type seating struct {
	seats    []seat
	told     []sheet.Person // beside seats
	there    []string       // who is in the club already, and what differs
	problems []sheet.Problem
	columns  []string
	ignored  []string
}

// putPeople answers /club import: it reads a table of lifters who have not joined and
// shows what it would add.
func putPeople(t *turn) (chat.Reply, error) {
	text := []byte(t.options["table"])
	if len(t.event.Files) > 0 {
		text = t.event.Files[0].Bytes
	}
	if len(strings.TrimSpace(string(text))) == 0 {
		return t.askPeople()
	}
	return t.readPeople(text)
}

// askPeople shows a form to paste the table into; where there are no forms, how to
// write it.
func (t *turn) askPeople() (chat.Reply, error) {
	send, err := t.button("Send", "people.sent", struct{}{}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r := private(chat.Message{Title: "Lifters who have not joined yet",
		Text: "Give me a table, a lifter a row: " + strings.Join(sheet.PeopleColumns, ", ") + ". A first line may name other columns: category, class, born, level, date, group, coach.\n" + usage(*t.command)})
	r.Form = &chat.Form{Token: send.Token, Title: "Lifters who have not joined yet", Fields: []chat.FormField{
		{Name: "table", Label: "One lifter a line", Hint: strings.Join(sheet.PeopleColumns, ", "), Required: true, Long: true}}}
	return r, nil
}

func (t *turn) readPeople(text []byte) (chat.Reply, error) {
	unit := t.club.Unit
	if v, ok := t.options["unit"]; ok {
		unit = planner.Unit(v)
	}
	p, err := sheet.ReadPeople(text, unit, t.today())
	if err != nil {
		return chat.Reply{}, err
	}
	s, err := t.seat(p, unit)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.showSeating(s)
}

// seat finds the meets and coaches that a table names, and who is there already.
func (t *turn) seat(p sheet.People, unit planner.Unit) (seating, error) {
	s := seating{problems: p.Problems, columns: p.Columns, ignored: p.Ignored}
	for _, x := range p.People {
		there, known, err := t.lifterWithName(x.Name)
		if err != nil {
			return s, err
		}
		if known {
			s.there = append(s.there, t.differs(there, x))
			continue
		}
		one, err := t.seatOf(x, unit)
		var wrong *planner.Error
		if asPlain(err, &wrong) {
			column, said := wrongColumn(wrong)
			s.problems = append(s.problems, sheet.Problem{Line: x.Line, Column: column, Text: strings.TrimSpace(said + ". " + wrong.Hint)})
			continue
		}
		if err != nil {
			return s, err
		}
		s.seats, s.told = append(s.seats, one), append(s.told, x)
	}
	slices.SortStableFunc(s.problems, func(a, b sheet.Problem) int { return cmp.Compare(a.Line, b.Line) })
	return s, nil
}

// wrongColumn is the option or column that an error's sentence begins with, and the
// rest of the sentence.
func wrongColumn(e *planner.Error) (column, said string) {
	column, said, found := strings.Cut(e.Sentence, ": ")
	if !found {
		return "row", e.Sentence
	}
	return column, said
}

// lifterWithName finds anybody in the club who is called so, joined or not.
func (t *turn) lifterWithName(name string) (planner.Lifter, bool, error) {
	all, err := t.tx.Lifters()
	for _, l := range all {
		if strings.EqualFold(l.Name, name) || strings.EqualFold(l.Handle, name) {
			return l, true, nil
		}
	}
	return planner.Lifter{}, false, err
}

// differs says of somebody who is there already what the table has otherwise.
func (t *turn) differs(l planner.Lifter, x sheet.Person) string {
	var other []string
	for _, lift := range []struct {
		name      string
		has, says planner.Grams
	}{{"squat", l.Squat, x.Squat}, {"bench", l.Bench, x.Bench}, {"deadlift", l.Deadlift, x.Deadlift}} {
		if lift.says != 0 && lift.says != lift.has {
			other = append(other, lift.name+" "+massOr(lift.has, l.Unit)+" here")
		}
	}
	if len(other) == 0 {
		return x.Name
	}
	return x.Name + " (" + render.List(other) + "; /me set with lifter: changes it)"
}

// massOr is a maximum, or that there is none.
func massOr(g planner.Grams, unit planner.Unit) string {
	if g == 0 {
		return "not told"
	}
	return g.Text(unit)
}

// seatOf checks one row against the club.
func (t *turn) seatOf(x sheet.Person, unit planner.Unit) (s seat, err error) {
	l := planner.Lifter{Category: x.Category, Class: x.Class, Born: x.Born, Level: x.Level, Squat: x.Squat, Bench: x.Bench, Deadlift: x.Deadlift, Unit: unit}
	if l.Name, err = t.freeName(x.Name); err != nil {
		return s, err
	}
	if x.Group != "" && !strings.EqualFold(x.Group, "none") {
		if len([]rune(x.Group)) > 24 || !callable.MatchString(x.Group) {
			return s, planner.Errorf(planner.Invalid, "Use one to three words, at most 24 characters.", "group: that cannot be a group's name")
		}
		l.Group = x.Group
	}
	if x.Coach != "" && !strings.EqualFold(x.Coach, "none") {
		c, err := t.lifterNamed(x.Coach)
		if err != nil {
			return s, named("coach", err)
		}
		l.Coach = c.ID
	}
	s.Lifter = l
	if x.Meet != "" {
		s.Meet, err = t.meetFor(x)
	}
	return s, err
}

// meetFor is the meet of a row: one of that name that somebody in the club has ahead,
// or a new one where the row tells its day.
func (t *turn) meetFor(x sheet.Person) (planner.Meet, error) {
	name, err := meetName(x.Meet)
	if err != nil {
		return planner.Meet{}, named("meet", err)
	}
	all, err := t.tx.AllMeets()
	if err != nil {
		return planner.Meet{}, err
	}
	m := planner.Meet{Name: name, Date: x.Date, Kind: planner.Main, Event: planner.Full, Equipment: planner.Raw, WeighInHours: 2}
	for _, other := range all {
		if strings.EqualFold(other.Name, name) && other.Date >= t.today() && (x.Date.IsZero() || x.Date == other.Date) {
			m = planner.Meet{Name: other.Name, Date: other.Date, Kind: other.Kind, Event: other.Event, Equipment: other.Equipment, RuleSet: other.RuleSet,
				WeighInHours: other.WeighInHours, EntryCloses: other.EntryCloses, Place: other.Place, Zone: other.Zone}
			break
		}
	}
	if m.Date.IsZero() {
		return m, planner.Errorf(planner.NotFound, "Put it on somebody's calendar first, or add a column date.", "meet: nobody has a meet called %q ahead", parse.Clean(x.Meet))
	}
	if err := futureMeet(m, t.today()); err != nil {
		return m, named("date", err)
	}
	if m.Class = x.Class; !x.Closes.IsZero() {
		m.EntryCloses = x.Closes
	}
	if m.EntryCloses > m.Date {
		return m, planner.Errorf(planner.Invalid, "", "closes: the entry cannot close on %s, after the meet itself on %s", m.EntryCloses, m.Date)
	}
	return m, nil
}

// peopleArgs is what the buttons under a table of lifters carry.
type peopleArgs struct {
	Seats []seat             `json:"seats,omitempty"`
	IDs   []planner.LifterID `json:"ids,omitempty"`
}

// showSeating shows what would be added. Nothing is written.
func (t *turn) showSeating(s seating) (chat.Reply, error) {
	v := render.PeopleView{There: s.there, Ignored: s.ignored, Columns: s.columns}
	rows := []map[string]any{}
	for i, x := range s.seats {
		v.New = append(v.New, render.Seat{Lifter: x.Lifter, Meet: x.Meet, YearOnly: s.told[i].YearOnly})
		rows = append(rows, map[string]any{"row": s.told[i].Line, "name": x.Lifter.Name, "meet": x.Meet.Name})
	}
	problems := []map[string]any{}
	for _, p := range s.problems {
		v.Problems = append(v.Problems, render.RowProblem(p.Line, p.Column, p.Text))
		problems = append(problems, map[string]any{"row": p.Line, "column": p.Column, "text": p.Text})
	}
	r := private(render.People(v))
	r.Message.Data = map[string]any{"people": map[string]any{"new": rows, "there": s.there, "problems": problems}}
	if err := addProblems(&r.Message, s.problems); err != nil {
		return chat.Reply{}, err
	}
	if len(s.seats) == 0 {
		return r, nil
	}
	put, err := t.buttonFor(fmt.Sprintf("Add %s", render.Count(len(s.seats), "lifter")), "people.put", peopleArgs{Seats: s.seats}, t.speaker, importLife)
	if err != nil {
		return chat.Reply{}, err
	}
	drop, err := t.buttonFor("Cancel", "people.drop", struct{}{}, t.speaker, importLife)
	r.Message.Buttons = []chat.Button{put, drop}
	return r, err
}
