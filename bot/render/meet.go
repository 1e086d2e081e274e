package render

import (
	"blockbell/bot/chat"
	"blockbell/planner"
)

// Meets lists a lifter's meets, past ones with their result.
func Meets(meets []planner.Meet, today planner.Date, unit planner.Unit) chat.Message {
	m := chat.Message{Title: "Your meets", Data: map[string]any{"meets": meetRows(meets, today)}}
	if len(meets) == 0 {
		m.Text = "No meet on the calendar yet. Add one with /meet add name:\"…\" date:…"
		return m
	}
	for _, x := range lastOf(meets, chat.MaxFields) {
		value := x.Date.Long() + ", " + InDays(today.DaysUntil(x.Date)) + ", " + MeetKindName(x.Kind)
		if x.ResultEntered {
			value += ", " + totalPhrase(x, unit)
		}
		if !x.EntryCloses.IsZero() && x.EntryCloses >= today && !x.Entered {
			value += "; entry closes " + x.EntryCloses.Short()
		}
		m.Fields = append(m.Fields, chat.Field{Name: x.Name, Value: value})
	}
	return m
}

func lastOf(meets []planner.Meet, n int) []planner.Meet {
	return meets[max(0, len(meets)-n):]
}

func totalPhrase(m planner.Meet, unit planner.Unit) string {
	if m.ResultTotal == 0 {
		return "no total (bomb-out)"
	}
	return "total " + m.ResultTotal.Text(unit)
}

// Result confirms what was entered for a meet.
func Result(m planner.Meet, unit planner.Unit) chat.Message {
	text := "Kept for " + m.Name + ", " + m.Date.Long() + ": " + totalPhrase(m, unit) + "."
	if m.ResultTotal == 0 {
		text += " It happens to most lifters who compete long enough. Write down why while it is fresh; the next plan starts from where you are now."
	}
	return chat.Message{Title: "Result", Text: text, Data: map[string]any{"meet": MeetRow(m, m.Date)}}
}

func meetRows(meets []planner.Meet, today planner.Date) []map[string]any {
	rows := make([]map[string]any, len(meets))
	for i, m := range meets {
		rows[i] = MeetRow(m, today)
	}
	return rows
}

// MeetRow is a meet for programs.
func MeetRow(m planner.Meet, today planner.Date) map[string]any {
	row := map[string]any{
		"name": m.Name, "date": m.Date, "kind": m.Kind, "event": m.Event, "equipment": m.Equipment,
		"days_left": today.DaysUntil(m.Date), "class": orNull(m.Class.String()), "entered": m.Entered,
		"entry_closes": orNull(dateOrEmpty(m.EntryCloses)), "qualifying_kg": kgOrNull(m.Qualifying), "result_kg": nil,
	}
	if m.ResultEntered {
		row["result_kg"] = m.ResultTotal.Kg()
	}
	return row
}
