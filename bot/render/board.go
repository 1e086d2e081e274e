package render

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render/chart"
	"blockbell/planner"
)

// BoardRow is one lifter on the captain's board.
type BoardRow struct {
	Name     string
	Handle   string
	Block    planner.BlockKind // "" when none runs
	DaysLeft *int
	Away     bool // nobody is late for being away
	Meet     string
	MeetDays *int
	Flags    []string
	Left     bool            // has left the club: listed, never counted or drawn
	Blocks   []planner.Block // of the agreed plan, for the picture
	Meets    []planner.Meet
}

// BoardPage is how many lifters the board shows at once.
const BoardPage = 20

// BoardView is one page of the board.
type BoardView struct {
	Rows  []BoardRow // all of them, in order
	Page  int        // from 0
	Today planner.Date
}

// Pages is how many pages the rows fill, at least one.
func (v BoardView) Pages() int { return max(1, (len(v.Rows)+BoardPage-1)/BoardPage) }

// shown are the rows of the page.
func (v BoardView) shown() []BoardRow {
	from := min(len(v.Rows), v.Page*BoardPage)
	return v.Rows[from:min(len(v.Rows), from+BoardPage)]
}

// Board shows everybody's block, days left, meet and what needs a look, in words
// and as a picture. The data for programs holds every page.
func Board(v BoardView) chat.Message {
	data := make([]map[string]any, len(v.Rows))
	for i, r := range v.Rows {
		data[i] = map[string]any{"name": r.Name, "handle": r.Handle, "block": orNull(string(r.Block)), "days_left": r.DaysLeft,
			"meet": orNull(r.Meet), "meet_days_left": r.MeetDays, "flags": r.Flags}
	}
	m := chat.Message{Title: "The club today", Data: map[string]any{"lifters": data, "page": v.Page + 1, "pages": v.Pages()}}
	if len(v.Rows) == 0 {
		m.Text = "Nobody has joined yet."
		return m
	}
	if v.Pages() > 1 {
		m.Text = fmt.Sprintf("%s, page %d of %d", v.count(), v.Page+1, v.Pages())
	}
	for _, r := range v.shown() {
		m.Fields = append(m.Fields, chat.Field{Name: clip(r.Name, chat.MaxFieldName), Value: boardValue(r)})
	}
	if len(v.drawn()) > 0 {
		m.Files = v.picture()
	}
	return m
}

// drawn are the rows of the page that the picture shows.
func (v BoardView) drawn() []BoardRow {
	return slices.DeleteFunc(slices.Clone(v.shown()), func(r BoardRow) bool { return r.Left })
}

// count says how many lifters there are. Who has left is none of them.
func (v BoardView) count() string {
	left := 0
	for _, r := range v.Rows {
		if r.Left {
			left++
		}
	}
	text := Count(len(v.Rows)-left, "lifter")
	if left > 0 {
		text += fmt.Sprintf(" and %d who left", left)
	}
	return text
}

// picture draws the page from four weeks ago to sixteen weeks ahead.
func (v BoardView) picture() []chat.File {
	view := chart.BoardView{
		Title: "The club on " + v.Today.Long(), Under: v.under(),
		From: v.Today.AddDays(-28), To: v.Today.AddDays(112), Today: v.Today,
	}
	for _, r := range v.drawn() {
		m := chart.Member{Name: r.Name, Note: standing(r), Blocks: r.Blocks}
		if len(r.Flags) > 0 {
			m.Flag = r.Flags[0]
		}
		for _, meet := range r.Meets {
			m.Meets = append(m.Meets, chart.Mark{Day: meet.Date, Name: meet.Name})
		}
		view.Members = append(view.Members, m)
	}
	return []chat.File{{Name: "board.png", Draw: func() ([]byte, error) { return chart.Board(view) }, Alt: clip(v.alt(), 1000)}}
}

// under says whom the picture shows.
func (v BoardView) under() string {
	if v.Pages() == 1 {
		return Count(len(v.drawn()), "lifter")
	}
	return fmt.Sprintf("%d of %s, page %d of %d", len(v.drawn()), v.count(), v.Page+1, v.Pages())
}

// alt says in words what the picture shows.
func (v BoardView) alt() string {
	var parts []string
	for _, r := range v.drawn() {
		parts = append(parts, r.Name+": "+standing(r))
	}
	return "Blocks of " + Count(len(parts), "lifter") + " over time. " + strings.Join(parts, "; ") + "."
}

func boardValue(r BoardRow) string {
	if r.Left {
		return strings.Join(r.Flags, ", ")
	}
	parts := []string{standing(r)}
	if r.MeetDays != nil {
		parts = append(parts, fmt.Sprintf("%s %s", r.Meet, InDays(*r.MeetDays)))
	}
	value := strings.Join(parts, "; ")
	if len(r.Flags) > 0 {
		value += "\nLook: " + strings.Join(r.Flags, ", ")
	}
	return clip(value, chat.MaxFieldValue)
}

// standing is the block and the days left in it.
func standing(r BoardRow) string {
	if r.DaysLeft == nil {
		return "no block today"
	}
	if r.Away {
		return BlockShort(r.Block) + ", away"
	}
	return BlockShort(r.Block) + ", " + daysLeft(*r.DaysLeft)
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
