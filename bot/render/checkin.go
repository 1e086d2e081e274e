package render

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// CheckInRow is how a lifter said they feel on a day, by the place of the word; nil
// where not told.
type CheckInRow struct {
	Day          planner.Date
	Tired, Stale *int
}

// CheckInView is the check-ins of the last weeks, oldest first, with their words.
type CheckInView struct {
	Rows         []CheckInRow
	Today        planner.Date
	Tired, Stale []string
	Who          string
}

// today is what was answered today.
func (v CheckInView) today() CheckInRow {
	if n := len(v.Rows); n > 0 && v.Rows[n-1].Day == v.Today {
		return v.Rows[n-1]
	}
	return CheckInRow{}
}

// Answered tells which of the two questions were answered today.
func (v CheckInView) Answered() (tired, stale bool) {
	r := v.today()
	return r.Tired != nil, r.Stale != nil
}

// CheckIn asks how a lifter feels, or thanks, and shows the weeks before.
func CheckIn(v CheckInView) chat.Message {
	m := chat.Message{Title: "Check-in"}
	tired, stale := v.Answered()
	switch {
	case v.Who != "":
		m.Title += " of " + v.Who
	case tired && stale:
		m.Text = "Thank you. Only you and who you allowed can see it (/bodyweight seen_by)."
	case tired:
		m.Text = "And how much do you want to train?"
	default:
		m.Text = "How rested are you?"
	}
	var lines []string
	data := []map[string]any{}
	for i := len(v.Rows) - 1; i >= 0; i-- {
		r := v.Rows[i]
		row := map[string]any{"date": r.Day, "tired": v.word(r.Tired, v.Tired), "fresh": v.word(r.Stale, v.Stale)}
		data = append(data, row)
		var said []string
		for _, name := range []string{"tired", "fresh"} {
			if w, ok := row[name].(string); ok {
				said = append(said, w)
			}
		}
		lines = append(lines, r.Day.Short()+": "+strings.Join(said, ", "))
	}
	if len(lines) > 0 {
		m.Fields = append(m.Fields, chat.Field{Name: "The last weeks", Value: clip(strings.Join(lines, "\n"), chat.MaxFieldValue)})
	} else if v.Who != "" {
		m.Text = "Nothing told in the last weeks."
	}
	m.Data = map[string]any{"checkins": data}
	return m
}

// word is the answer at a place; nil where not told.
func (v CheckInView) word(n *int, words []string) any {
	if n == nil || *n < 0 || *n >= len(words) {
		return nil
	}
	return words[*n]
}

// Label is a word as it stands on a button.
func Label(word string) string { return strings.TrimSuffix(Sentence(word), ".") }
