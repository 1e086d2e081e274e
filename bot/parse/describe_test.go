package parse

import (
	"fmt"
	"strings"
	"time"

	"blockbell/planner"
)

// evening is the moment the log tests stand on: a Wednesday, 3 March 2027.
var evening = time.Date(2027, time.March, 3, 18, 0, 0, 0, time.UTC)

// lifter is an invented lifter: best 180, 120 and 220 kg, estimated a little more.
func lifter(unit planner.Unit) Context {
	return Context{
		Today: planner.DateOf(evening), At: evening, Unit: unit,
		Best: func(l planner.Lift) planner.Grams {
			return planner.Lifter{Squat: 180_000, Bench: 120_000, Deadlift: 220_000}.Best(l)
		},
		Estimate: func(l planner.Lift) (float64, bool) {
			kg := map[planner.Lift]float64{planner.Squat: 190, planner.Bench: 125}[l]
			return kg, kg > 0
		},
	}
}

// describe writes a result in one line, for comparing and reading.
func describe(r Result, c Context) string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	for _, s := range r.Sets {
		add("%s", setText(s, c))
	}
	if r.Bodyweight != 0 {
		add("bodyweight %s%s", r.Bodyweight.Text(c.Unit), onDay(r.BodyweightDay, c))
	}
	for _, q := range r.Questions {
		add("ask %d:%d %s [%s]", q.Line, q.Column, q.Text, answersText(q, c))
	}
	for _, p := range r.Problems {
		add("problem %d:%d %s", p.Line, p.Column, p.Text)
	}
	for _, n := range r.Notes {
		add("note %s", n)
	}
	if r.Undo {
		add("undo")
	}
	if r.Done {
		add("done")
	}
	if r.Correct != nil {
		add("correct to %s", corrected(r, c))
	}
	if r.Chatter {
		add("chatter")
	}
	if r.Alarm != NoAlarm {
		add("alarm %s", r.Alarm)
	}
	return strings.Join(parts, "; ")
}

func corrected(r Result, c Context) string {
	to := r.Correct
	text := strings.TrimSpace(string(to.Variant) + " " + string(to.Lift))
	if to.Weight != nil {
		text = strings.TrimSpace(text + " " + to.Weight.Text(c.Unit))
		if !to.UnitSaid {
			text = fmt.Sprintf("%s, or %g in its unit", text, to.Number)
		}
	}
	if to.Unit != "" {
		text += "unit " + string(to.Unit)
	}
	if to.Reps != nil {
		text += fmt.Sprintf(", reps %d", *to.Reps)
	}
	if to.Sets != nil {
		text += fmt.Sprintf(", sets %d", *to.Sets)
	}
	if to.Reserve != nil {
		text += fmt.Sprintf(", %g left", *to.Reserve)
	}
	if to.Missed {
		text += ", missed"
	}
	if to.Talk {
		text += ", or talk"
	}
	return strings.TrimPrefix(text, ", ")
}

func answersText(q Question, c Context) string {
	var answers []string
	for _, a := range q.Answers {
		text := a.Label
		if len(a.Sets) > 0 {
			text += ":"
		}
		for _, s := range a.Sets {
			text += " " + setText(s, c)
		}
		answers = append(answers, text)
	}
	return strings.Join(answers, " | ")
}

func setText(s planner.Set, c Context) string {
	text := Print(s, c.Unit) + onDay(s.Day, c)
	if s.Pending {
		text += " pending"
	}
	return text
}

func onDay(d planner.Date, c Context) string {
	if d == c.Today {
		return ""
	}
	return " on " + d.String()
}
