package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// PapersView is what the papers of one entry are made from.
type PapersView struct {
	Title                   string
	Who                     string // whose; empty: the reader's own
	Meet                    planner.Meet
	Lifter                  planner.Lifter // without a bodyweight where the reader may not see it
	Today                   planner.Date
	Licence                 planner.Date // its last day; zero: not told
	Session, Flight, Travel string
	Handler                 string
	Low, High               planner.Grams // what to expect of the total on the day; 0: not known
	Now                     planner.Grams // the estimated total today
	Claimed                 bool          // it rests on a maximum that was only told
	Gain                    float64       // percent that the plan expects until then
	CameOut                 float64       // percent by which earlier totals were above what was expected
	LookedBack              int           // how many meets that rests on
}

// Papers shows what a meet asks for beside lifting.
func Papers(v PapersView) chat.Message {
	m := chat.Message{Title: v.Title + ": " + v.Meet.Name + ", " + v.Meet.Date.Long()}
	if v.Who != "" {
		m.Title += " (" + v.Who + ")"
	}
	m.Fields = []chat.Field{{Name: "Entry", Value: v.entry()}, {Name: "Licence", Value: v.licence()}, {Name: "Total", Value: v.total()},
		{Name: "Class and weigh-in", Value: v.class()}, {Name: "On the day", Value: v.day()}}
	todo := v.Todo()
	m.Text = "Nothing is missing, as far as I was told."
	if len(todo) > 0 {
		m.Text = "Still to do: " + List(todo) + "."
	}
	m.Text += " The rule book in force and the federation's own dates win over mine."
	m.Data = map[string]any{"papers": v.data(todo)}
	return m
}

// Todo names what is still to do about an entry.
func (v PapersView) Todo() []string {
	todo := []string{}
	if v.Meet.Kind == planner.Test || v.Meet.Date < v.Today {
		return todo
	}
	if !v.Meet.Entered {
		todo = append(todo, "enter")
	}
	switch {
	case v.Licence.IsZero():
		todo = append(todo, "tell until when the licence is valid (/me licence)")
	case v.Licence < v.Meet.Date:
		todo = append(todo, "renew the licence")
	}
	if v.classOf().IsZero() {
		todo = append(todo, "choose a class")
	}
	if v.Handler == "" {
		todo = append(todo, "find a helper")
	}
	return todo
}

func (v PapersView) entry() string {
	switch {
	case v.Meet.Entered:
		return "In."
	case v.Meet.EntryCloses.IsZero():
		return "Not in yet; nobody told me when it closes."
	case v.Meet.EntryCloses < v.Today:
		return "Not in, and it closed on " + v.Meet.EntryCloses.Long() + ". Ask the organiser."
	}
	return "Not in yet; it closes on " + v.Meet.EntryCloses.Long() + ", " + InDays(v.Today.DaysUntil(v.Meet.EntryCloses)) + "."
}

func (v PapersView) licence() string {
	switch {
	case v.Licence.IsZero():
		return "Not told."
	case v.Licence < v.Meet.Date:
		return "Valid until " + v.Licence.Long() + ": it ends before the meet."
	}
	return "Valid until " + v.Licence.Long() + "."
}

// total says what is asked for beside what to expect.
func (v PapersView) total() string {
	asked := "No total is asked for, as far as I know."
	if v.Meet.Qualifying > 0 {
		asked = "They ask for " + v.Meet.Qualifying.Text(v.Lifter.Unit) + "."
	}
	if v.High == 0 {
		return asked + " I know too little to say what to expect on the day."
	}
	span := v.Low.Number(v.Lifter.Unit) + " to " + v.High.Text(v.Lifter.Unit)
	text := asked + " Your estimate for the day: " + span
	if v.Who != "" {
		text = asked + " The estimate for the day: " + span
	}
	if v.Meet.Qualifying > 0 {
		text += ", " + v.against()
	}
	return text + ". " + v.why()
}

// against says how the range lies to what is asked for.
func (v PapersView) against() string {
	switch q := v.Meet.Qualifying; {
	case q <= v.Low:
		return "so it should be there with room"
	case q <= v.Low+(v.High-v.Low)/2:
		return "so more likely there than not"
	case q <= v.High:
		return "so possible on a good day"
	}
	return "so not to be expected by then"
}

// why says what the range rests on.
func (v PapersView) why() string {
	from := "your log"
	if v.Who != "" {
		from = "the log"
	}
	if v.Claimed {
		from += " and maxima that were only told"
	}
	text := fmt.Sprintf("It rests on %s, %s today", from, v.Now.Text(v.Lifter.Unit))
	if v.Gain != 0 {
		text += fmt.Sprintf(", and %+.1f %% that the plan expects until then", v.Gain)
	}
	text += "; four days of five should lie in it, with a good lift each time."
	if v.LookedBack > 0 {
		last, who := "the last meet", "you"
		if v.LookedBack > 1 {
			last = fmt.Sprintf("the last %d meets, on average,", v.LookedBack)
		}
		if v.Who != "" {
			who = v.Who
		}
		text += " At " + last + " " + who + " came out " + overUnder(v.CameOut) + "."
	}
	return text
}

// overUnder says how a result lay to the middle of what was expected.
func overUnder(percent float64) string {
	switch {
	case percent >= 0.05:
		return fmt.Sprintf("%.1f %% above the middle", percent)
	case percent <= -0.05:
		return fmt.Sprintf("%.1f %% below the middle", -percent)
	}
	return "just in the middle"
}

func (v PapersView) classOf() planner.Class {
	if !v.Meet.Class.IsZero() {
		return v.Meet.Class
	}
	return v.Lifter.Class
}

func (v PapersView) class() string {
	c := v.classOf()
	text := "Class not told."
	if !c.IsZero() {
		text = "Class " + c.String() + "."
	}
	if v.Meet.WeighInHours > 0 {
		text += fmt.Sprintf(" Weigh-in %d hours before.", v.Meet.WeighInHours)
	}
	if w := v.Lifter.Bodyweight; w > c.Limit && !c.IsZero() && !c.Plus {
		text += " Above it now: decide by the day the entry closes; the next class is always fine."
	}
	return text
}

func (v PapersView) day() string {
	var told []string
	for _, x := range []struct{ name, value string }{{"session", v.Session}, {"flight", v.Flight}, {"helper", v.Handler}, {"travel", v.Travel}, {"place", v.Meet.Place}} {
		if x.value != "" {
			told = append(told, x.name+" "+x.value)
		}
	}
	if len(told) == 0 {
		return "Session, flight, helper and travel are not told yet."
	}
	return Sentence(strings.Join(told, "; "))
}

func (v PapersView) data(todo []string) map[string]any {
	row := MeetRow(v.Meet, v.Today)
	row["licence_until"], row["session"], row["flight"], row["travel"], row["handler"] = orNull(dateOrEmpty(v.Licence)), orNull(v.Session), orNull(v.Flight), orNull(v.Travel), orNull(v.Handler)
	row["estimate_low_kg"], row["estimate_high_kg"], row["todo"] = kgOrNull(v.Low), kgOrNull(v.High), todo
	return row
}
