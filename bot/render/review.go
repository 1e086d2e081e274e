package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// ReviewView is what a look back on a meet is made from.
type ReviewView struct {
	Title, Who                   string
	Meet                         planner.Meet
	Lifts                        []planner.Lift // that count
	Unit                         planner.Unit
	Told                         bool // the lifts were told
	Made                         map[planner.Lift]planner.Grams
	Strength, Technique, Command int           // attempts missed, by reason
	Low, High                    planner.Grams // what was expected of the total the day before; 0: nothing
	Well, Next                   string
}

// Review shows what was said of a meet that is over, beside what was expected.
func Review(v ReviewView) chat.Message {
	m := chat.Message{Title: v.Title + ": " + v.Meet.Name + ", " + v.Meet.Date.Long()}
	if v.Who != "" {
		m.Title += " (" + v.Who + ")"
	}
	if v.Meet.ResultEntered {
		m.Fields = append(m.Fields, chat.Field{Name: "Result", Value: v.result()})
	}
	if text := v.expected(); text != "" {
		m.Fields = append(m.Fields, chat.Field{Name: "Beside what was expected", Value: text})
	}
	if v.Strength+v.Technique+v.Command > 0 {
		m.Fields = append(m.Fields, chat.Field{Name: "Missed", Value: v.missed()})
	} else if v.Told {
		m.Fields = append(m.Fields, chat.Field{Name: "Missed", Value: "No misses told."})
	}
	for _, x := range []chat.Field{{Name: "Went well", Value: v.Well}, {Name: "Next time", Value: v.Next}} {
		if x.Value != "" {
			m.Fields = append(m.Fields, x)
		}
	}
	if v.Told {
		m.Text = "The good lifts stand in the log as singles of that day: estimates and the next plan begin from them."
	}
	m.Data = map[string]any{"review": v.data()}
	return m
}

func (v ReviewView) result() string {
	text := Sentence(totalPhrase(v.Meet, v.Unit))
	if !v.Told {
		return text
	}
	var made []string
	for _, l := range v.Lifts {
		if v.Made[l] == 0 {
			made = append(made, string(l)+" none")
			continue
		}
		made = append(made, string(l)+" "+v.Made[l].Text(v.Unit))
	}
	text += " " + Sentence(strings.Join(made, ", "))
	if v.Meet.ResultTotal == 0 {
		text += " It happens to most lifters who compete long enough."
	}
	return text
}

// expected says how the result lies to what was expected the day before.
func (v ReviewView) expected() string {
	if v.High == 0 || !v.Meet.ResultEntered || v.Meet.ResultTotal == 0 {
		return ""
	}
	span := v.Low.Number(v.Unit) + " to " + v.High.Text(v.Unit)
	total := v.Meet.ResultTotal
	where := "inside"
	switch {
	case total < v.Low:
		where = "below"
	case total > v.High:
		where = "above"
	}
	percent := 100 * (float64(total)/(float64(v.Low+v.High)/2) - 1)
	return fmt.Sprintf("The day before, the log and the plan let expect %s; %s is %s that, %s. That is said beside the next estimate.", span, total.Text(v.Unit), where, overUnder(percent))
}

// missed says what was missed, and what usually helps (common practice).
func (v ReviewView) missed() string {
	var lines []string
	for _, x := range []struct {
		n         int
		why, then string
	}{
		{v.Strength, "strength", "smaller jumps, and a second attempt you are sure of"},
		{v.Technique, "technique", "heavy singles to the standard of the meet, with somebody who watches"},
		{v.Command, "commands", "once a week with the commands in the last month; the cheapest misses to avoid"},
	} {
		if x.n > 0 {
			lines = append(lines, fmt.Sprintf("%d for %s: next time %s.", x.n, x.why, x.then))
		}
	}
	return strings.Join(lines, "\n")
}

func (v ReviewView) data() map[string]any {
	made := map[string]any{}
	for _, l := range v.Lifts {
		made[string(l)] = v.Made[l].Kg()
	}
	if !v.Told {
		made = nil
	}
	var total any
	if v.Meet.ResultEntered {
		total = v.Meet.ResultTotal.Kg()
	}
	return map[string]any{"meet": v.Meet.Name, "date": v.Meet.Date, "lifts_kg": made, "total_kg": total, "missed": map[string]int{"strength": v.Strength, "technique": v.Technique, "command": v.Command},
		"expected_low_kg": kgOrNull(v.Low), "expected_high_kg": kgOrNull(v.High), "well": v.Well, "next": v.Next}
}

// LiftHint names the lifts to fill in, in their order.
func LiftHint(lifts []planner.Lift) string {
	var names []string
	for _, l := range lifts {
		names = append(names, string(l))
	}
	return strings.Join(names, " / ")
}
