package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// seatsShown is how many lifters of a table are listed one by one.
const seatsShown = 12

// Seat is one lifter to be added before they join.
type Seat struct {
	Lifter   planner.Lifter
	Meet     planner.Meet // without a name: none
	YearOnly bool         // of the day of birth only the year was told
}

// PeopleView is what the preview of a table of lifters is made from.
type PeopleView struct {
	New      []Seat
	There    []string // who is in the club already
	Columns  []string
	Ignored  []string
	Problems []string
}

// People shows what a table of lifters would add.
func People(v PeopleView) chat.Message {
	m := chat.Message{Title: "Add " + Count(len(v.New), "lifter") + "?"}
	lines := []string{"I read " + strings.Join(v.Columns, ", ") + "."}
	if len(v.Ignored) > 0 {
		lines = append(lines, "Not read, not kept: "+some(v.Ignored)+".")
	}
	for _, s := range v.New[:min(len(v.New), seatsShown)] {
		lines = append(lines, s.line())
	}
	if n := len(v.New) - seatsShown; n > 0 {
		lines = append(lines, "… and "+Count(n, "more lifter")+".")
	}
	if len(v.There) > 0 {
		lines = append(lines, "Left alone, since they are in the club already: "+some(v.There)+".")
	}
	if n := len(v.Problems); n > 0 {
		lines = append(lines, "Left out: "+Count(n, "row")+".")
		lines = append(lines, v.Problems[:min(n, ProblemsShown)]...)
		if n > ProblemsShown {
			lines = append(lines, "… the whole list is in the file.")
		}
	}
	if len(v.New) == 0 {
		m.Title = "Nobody to add"
		lines = append(lines, "Nothing was written.")
	} else {
		lines = append(lines, "Nothing is written before you say so. Tell them that you added them: /help privacy says what I keep.")
	}
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	return m
}

// line is one lifter of a table.
func (s Seat) line() string {
	l := s.Lifter
	var told []string
	for _, x := range []struct {
		name string
		g    planner.Grams
	}{{"squat", l.Squat}, {"bench", l.Bench}, {"deadlift", l.Deadlift}} {
		if x.g != 0 {
			told = append(told, x.name+" "+x.g.Text(l.Unit))
		}
	}
	if !l.Class.IsZero() {
		told = append(told, strings.TrimSpace(string(l.Category)+" "+l.Class.String()))
	} else if l.Category != "" {
		told = append(told, string(l.Category))
	}
	if l.Level != "" {
		told = append(told, string(l.Level))
	}
	if !l.Born.IsZero() {
		born := "born " + l.Born.String()
		if s.YearOnly {
			year, month, day := l.Born.Civil()
			born = fmt.Sprintf("born in %d (counted as %d %s)", year, day, month)
		}
		told = append(told, born)
	}
	if s.Meet.Name != "" {
		told = append(told, s.Meet.Name+" on "+s.Meet.Date.Long())
		if !s.Meet.EntryCloses.IsZero() {
			told = append(told, "entry closes "+s.Meet.EntryCloses.Short())
		}
	}
	if len(told) == 0 {
		return l.Name + "."
	}
	return l.Name + ": " + strings.Join(told, ", ") + "."
}

// PeoplePut says what became of a table of lifters.
func PeoplePut(put, there int) chat.Message {
	text := "Added " + Count(put, "lifter") + "."
	if there > 0 {
		text += " " + Count(there, "lifter") + " left alone: there by now."
	}
	if put > 0 {
		text += "\nUntil they join I tell them nothing, and name them nowhere but on your lists. You and their coach plan for them with lifter: and log for them as in @Ana_K squat 100x5; entries that close and results come to you." +
			"\nWhen one joins: /me claim makes what is kept theirs, once you have said yes. /club placeholders shows who is missing."
	}
	return chat.Message{Text: text}
}
