package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render/chart"
	"blockbell/planner"
	"blockbell/planner/load"
)

// RackView is who trains on one day, as the captain needs it in the hall.
type RackView struct {
	Day      planner.Date
	Lifters  []RackLifter // those on this page
	All      int          // how many train
	Page, Of int          // from 0; pages
}

// RackLifter is one lifter's session.
type RackLifter struct {
	Name string
	Week WeekView
	Day  load.Day
}

// rackRow is one lift of a lifter's session.
type rackRow struct{ lift, top, after, side string } // side: for the top set, else for the first after it

// Rack shows the sheet as text and as a picture.
func Rack(v RackView) chat.Message {
	m := chat.Message{Title: v.title()}
	rows := [][]string{}
	data := []map[string]any{}
	for _, l := range v.Lifters {
		var lines []string
		for i, r := range l.rows() {
			name := l.Name
			if i > 0 {
				name = ""
			}
			rows = append(rows, []string{name, r.lift, r.top, r.after, r.side})
			lines = append(lines, r.text())
		}
		if len(lines) == 0 {
			lines = []string{"accessories only"}
			rows = append(rows, []string{l.Name, "accessories", "", "", ""})
		}
		m.Fields = append(m.Fields, chat.Field{Name: l.Name, Value: clip(strings.Join(lines, "\n"), 240)})
		data = append(data, map[string]any{"lifter": l.Name, "work": l.work()})
	}
	m.Text = "The top set where there is one, the other sets, and the discs on each side: for the top set, else for the sets. Spotter or safety bars, collars closed."
	m.Data = map[string]any{"today": v.Day, "lifters": data, "count": v.All}
	view := chart.SheetView{Title: v.title(), Under: v.Day.Long(), Head: []string{"lifter", "lift", "top set", "sets", "each side"}, Rows: rows,
		Foot: "Each side: the discs for the top set, else for the sets. Collars closed, a spotter or safety bars."}
	m.Files = []chat.File{{Name: "today.png", Draw: func() ([]byte, error) { return chart.Sheet(view) }, Alt: clip(m.Title+": "+strings.Join(names(v.Lifters), ", "), 1000)}}
	return m
}

func names(all []RackLifter) (out []string) {
	for _, l := range all {
		out = append(out, l.Name)
	}
	return out
}

func (v RackView) title() string {
	t := "Today: " + Count(v.All, "lifter") + " at the racks"
	if v.Of > 1 {
		t += fmt.Sprintf(", page %d of %d", v.Page+1, v.Of)
	}
	return t
}

// rows are the lifts of a session in its order, accessories left out.
func (l RackLifter) rows() (rows []rackRow) {
	at := map[load.Movement]int{}
	for _, w := range l.Day.Work {
		if w.Role == load.Accessory {
			continue
		}
		i, seen := at[w.Movement()]
		if !seen {
			i, at[w.Movement()] = len(rows), len(rows)
			rows = append(rows, rackRow{lift: w.Name, side: strings.TrimPrefix(l.Week.perSide(w), "each side ")})
		}
		switch set := l.set(w); {
		case w.Role.Broad() == load.Top && rows[i].top == "":
			rows[i].top = set
		case rows[i].after == "":
			rows[i].after = set
		default:
			rows[i].after += ", " + set
		}
	}
	return rows
}

// set is one line of work as a hall reads it.
func (l RackLifter) set(w load.Work) string {
	s := fmt.Sprintf("%d x %d", w.Sets, w.Reps)
	if w.Weight > 0 {
		s += " at " + l.Week.Weight(w.Weight)
	}
	if w.Find {
		s += ", up to " + spare(w.Reserve)
	}
	return s
}

func (r rackRow) text() string {
	parts := []string{r.lift + ":"}
	if r.top != "" {
		parts = append(parts, r.top+";")
	}
	if r.after != "" {
		parts = append(parts, r.after+";")
	}
	if r.side != "" {
		parts = append(parts, "each side "+r.side)
	}
	return strings.TrimSuffix(strings.Join(parts, " "), ";")
}

// work is the session for programs.
func (l RackLifter) work() []map[string]any {
	rows := []map[string]any{}
	for _, w := range l.Day.Work {
		if w.Role == load.Accessory {
			continue
		}
		row := map[string]any{"lift": w.Lift, "variant": nil, "sets": w.Sets, "reps": w.Reps, "weight_kg": w.WeightKG(), "role": w.Role.Broad(), "each_side": nil}
		if w.Variant != "" {
			row["variant"] = w.Variant
		}
		if p, err := load.Plates(w.Weight, l.Week.Gym); err == nil && w.Weight > 0 {
			side := []float64{}
			for _, d := range p.PerSide {
				side = append(side, d.Kg())
			}
			row["each_side"] = side
		}
		rows = append(rows, row)
	}
	return rows
}
