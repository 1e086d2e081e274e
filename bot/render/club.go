package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// BoardRow is one lifter on the captain's board.
type BoardRow struct {
	Name     string
	Handle   string
	Block    planner.BlockKind // "" when none runs
	DaysLeft *int
	Meet     string
	MeetDays *int
	Flags    []string
}

// boardShown is how many lifters the board shows at once; the rest is counted.
const boardShown = 25

// Board shows everybody's block, days left, meet and what needs a look. Those
// who need one come first; the order within is that of the rows.
func Board(rows []BoardRow) chat.Message {
	data := make([]map[string]any, len(rows))
	for i, r := range rows {
		data[i] = map[string]any{"name": r.Name, "handle": r.Handle, "block": orNull(string(r.Block)), "days_left": r.DaysLeft,
			"meet": orNull(r.Meet), "meet_days_left": r.MeetDays, "flags": r.Flags}
	}
	m := chat.Message{Title: "The club today", Data: map[string]any{"lifters": data}}
	if len(rows) == 0 {
		m.Text = "Nobody has joined yet."
	}
	for _, r := range lookFirst(rows) {
		if len(m.Fields) == boardShown {
			m.Text = fmt.Sprintf("and %s more.", Count(len(rows)-boardShown, "lifter"))
			break
		}
		m.Fields = append(m.Fields, chat.Field{Name: clip(r.Name, chat.MaxFieldName), Value: boardValue(r)})
	}
	return m
}

func lookFirst(rows []BoardRow) []BoardRow {
	var first, rest []BoardRow
	for _, r := range rows {
		if len(r.Flags) > 0 {
			first = append(first, r)
		} else {
			rest = append(rest, r)
		}
	}
	return append(first, rest...)
}

func boardValue(r BoardRow) string {
	var parts []string
	if r.DaysLeft != nil {
		parts = append(parts, fmt.Sprintf("%s, %s", BlockShort(r.Block), daysLeft(*r.DaysLeft)))
	} else {
		parts = append(parts, "no block today")
	}
	if r.MeetDays != nil {
		parts = append(parts, fmt.Sprintf("%s %s", r.Meet, InDays(*r.MeetDays)))
	}
	value := strings.Join(parts, "; ")
	if len(r.Flags) > 0 {
		value += "\nLook: " + strings.Join(r.Flags, ", ")
	}
	return clip(value, chat.MaxFieldValue)
}

func daysLeft(n int) string {
	switch {
	case n < 0:
		return Count(-n, "day") + " over"
	case n == 0:
		return "last day"
	}
	return Count(n, "day") + " left"
}

// Setting is one line of the club's settings.
type Setting struct {
	Name  string
	Value string
}

// ClubSettings shows the club's settings under the names they are typed with.
func ClubSettings(title string, rows []Setting) chat.Message {
	data := map[string]string{}
	m := chat.Message{Title: title}
	for _, r := range rows {
		data[r.Name] = r.Value
		m.Fields = append(m.Fields, chat.Field{Name: r.Name, Value: orElse(r.Value, "not set")})
	}
	m.Data = map[string]any{"settings": data}
	return m
}
