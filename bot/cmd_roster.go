package bot

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// rosterParams are what /club roster takes.
func rosterParams() []Param {
	return []Param{{Name: "meet", About: "which meet; the club's next one without it", Positional: true}}
}

// starter is one lifter of the club at a meet.
type starter struct {
	lifter planner.Lifter
	coach  string
	papers render.PapersView
}

// showRoster answers /club roster: who of the club starts at a meet, with coach, helper,
// weigh-in and place, and what each still has to do; as a table too.
func showRoster(t *turn) (chat.Reply, error) {
	entries, err := t.rosterMeets()
	if err != nil {
		return chat.Reply{}, err
	}
	var all []starter
	for _, m := range entries {
		s, gone, err := t.starter(m)
		if err != nil {
			return chat.Reply{}, err
		}
		if !gone {
			all = append(all, s)
		}
	}
	t.about = t.speaker
	slices.SortStableFunc(all, func(a, b starter) int {
		return cmp.Or(cmp.Compare(orBehind(a.papers.Session), orBehind(b.papers.Session)), cmp.Compare(orBehind(a.papers.Flight), orBehind(b.papers.Flight)),
			strings.Compare(strings.ToLower(render.Called(a.lifter)), strings.ToLower(render.Called(b.lifter))))
	})
	return t.roster(all)
}

// orBehind sorts what is not told behind everything.
func orBehind(s string) string { return cmp.Or(s, "\U0010ffff") }

// rosterMeets lists the entries of the meet that is named, else of the club's next one.
// Two meets of one name are told apart by their day: the next is meant.
func (t *turn) rosterMeets() ([]planner.Meet, error) {
	all, err := t.tx.AllMeets()
	if err != nil {
		return nil, err
	}
	today := t.dayOf(planner.Lifter{}, t.now)
	name, given := t.options["meet"]
	var first planner.Meet
	names := map[string]string{}
	for _, m := range all {
		if m.Date < today || m.Kind == planner.Test {
			continue
		}
		names[strings.ToLower(m.Name)] = m.Name
		if first.Name == "" && (!given || strings.EqualFold(m.Name, strings.TrimSpace(name))) {
			first = m
		}
	}
	if first.Name == "" {
		hint := "/meet add puts one on somebody's calendar."
		var lower []string
		for n := range names {
			lower = append(lower, n)
		}
		slices.Sort(lower)
		if near, ok := parse.Near(strings.ToLower(name), lower); ok {
			hint = "Did you mean " + parse.Clean(names[near]) + "?"
		}
		if !given {
			return nil, planner.Errorf(planner.NotFound, hint, "Nobody in the club has a meet ahead")
		}
		return nil, planner.Errorf(planner.NotFound, hint, "Nobody in the club has a meet called %q ahead", parse.Clean(name))
	}
	return slices.DeleteFunc(all, func(m planner.Meet) bool { return m.Date != first.Date || !strings.EqualFold(m.Name, first.Name) }), nil
}

// starter reads one entry; gone is true where its lifter has left.
func (t *turn) starter(m planner.Meet) (s starter, gone bool, err error) {
	if s.lifter, err = t.tx.Lifter(m.Lifter); err != nil {
		return s, false, err
	}
	if _, gone, err = t.tx.Left(m.Lifter); err != nil || gone {
		return s, gone, err
	}
	r, err := t.tx.Roster(m.ID)
	if err != nil {
		return s, false, err
	}
	t.about = s.lifter
	if s.papers, err = t.papersOf(m, r); err != nil {
		return s, false, err
	}
	s.coach = "captain"
	if s.lifter.Coach != 0 {
		c, err := t.tx.Lifter(s.lifter.Coach)
		if err != nil {
			return s, false, err
		}
		s.coach = render.Called(c)
	}
	return s, false, nil
}

// roster shows the starters.
func (t *turn) roster(all []starter) (chat.Reply, error) {
	if len(all) == 0 {
		return private(chat.Message{Text: "Nobody who is still in the club is entered there."}), nil
	}
	m := all[0].papers.Meet
	out := chat.Message{Title: parse.Clean(m.Name) + ", " + m.Date.Long()}
	rows := []map[string]any{}
	open := 0
	for _, s := range all {
		todo := s.papers.Todo()
		if len(todo) > 0 {
			open++
		}
		if len(out.Fields) < chat.MaxFields {
			out.Fields = append(out.Fields, chat.Field{Name: parse.Clean(render.Called(s.lifter)), Value: render.Starter(s.papers, parse.Clean(s.coach), store.IsPlaceholder(s.lifter))})
		}
		rows = append(rows, map[string]any{"name": render.Called(s.lifter), "class": s.papers.Meet.Class.String(), "entered": s.papers.Meet.Entered, "coach": s.coach,
			"handler": s.papers.Handler, "session": s.papers.Session, "flight": s.papers.Flight, "todo": todo})
	}
	out.Text = render.Count(len(all), "lifter") + " of the club."
	if open > 0 {
		out.Text += fmt.Sprintf(" Something is still to do for %d.", open)
	}
	out.Text += " /meet papers with lifter: changes it. The organiser's own list and dates win over mine."
	if n := len(all) - len(out.Fields); n > 0 {
		out.Text += fmt.Sprintf(" The first %d are shown; the table has all.", len(out.Fields))
	}
	table, err := rosterTable(all)
	out.Files = []chat.File{{Name: "roster.csv", Bytes: table, Alt: "the roster as a table: name, class, coach, helper, weigh-in, session, flight, travel, entered, what is still to do"}}
	out.Data = map[string]any{"roster": rows}
	return private(out), err
}

// rosterTable is the roster as text with commas.
func rosterTable(all []starter) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{{"name", "category", "class", "coach", "helper", "weigh-in hours before", "session", "flight", "travel", "entered", "to do"}}
	for _, s := range all {
		p := s.papers
		class := p.Meet.Class
		if class.IsZero() {
			class = s.lifter.Class
		}
		rows = append(rows, []string{plainCell(render.Called(s.lifter)), string(s.lifter.Category), class.String(), plainCell(s.coach), plainCell(p.Handler), fmt.Sprint(p.Meet.WeighInHours),
			plainCell(p.Session), plainCell(p.Flight), plainCell(p.Travel), map[bool]string{true: "yes", false: "no"}[p.Meet.Entered], strings.Join(p.Todo(), "; ")})
	}
	err := w.WriteAll(rows)
	return b.Bytes(), err
}

// plainCell keeps a spreadsheet from taking somebody's words for a formula.
func plainCell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t", rune(s[0])) {
		return "'" + s
	}
	return s
}
