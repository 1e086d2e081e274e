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

// rackRow is one load of a lifter's session: what is lifted, what is on the bar, how
// often, and the discs of each side.
type rackRow struct{ lift, load, sets, side string }

// Rack shows the sheet as text and as a picture.
func Rack(v RackView) chat.Message {
	m := chat.Message{Title: v.title()}
	rows := [][]string{}
	data := []map[string]any{}
	for _, l := range v.Lifters {
		var lines []string
		name := l.Name
		for _, r := range l.rows(true) {
			rows = append(rows, []string{name, r.lift, r.load, r.sets, r.side})
			name = ""
		}
		for _, r := range l.rows(false) {
			lines = append(lines, r.text())
		}
		if len(lines) == 0 {
			lines = []string{"accessories only"}
			rows = append(rows, []string{l.Name, "accessories", "", "", ""})
		}
		m.Fields = append(m.Fields, chat.Field{Name: l.Name, Value: clip(strings.Join(lines, "\n"), 400)})
		data = append(data, map[string]any{"lifter": l.Name, "work": l.work()})
	}
	m.Text = "In order: the lift, sets x repetitions, what is on the bar, and the discs of each side. Spotter or safety bars, collars closed."
	m.Data = map[string]any{"today": v.Day, "lifters": data, "count": v.All}
	view := chart.SheetView{Title: v.title(), Under: v.Day.Long(), Head: []string{"lifter", "lift", "on the bar", "sets", "each side"}, Rows: rows, Foot: v.foot()}
	m.Files = []chat.File{{Name: "today.png", Draw: func() ([]byte, error) { return chart.Sheet(view) }, Alt: clip(m.Title+": "+strings.Join(names(v.Lifters), ", "), 1000)}}
	return m
}

// foot is the line below the picture.
func (v RackView) foot() string {
	for _, l := range v.Lifters {
		if collar := l.Week.collar(); collar != "" {
			return "The weights count collars of " + strings.TrimPrefix(collar, " + collar ") + " " + string(l.Week.gymUnit()) + " each. Collars closed, a spotter or safety bars."
		}
	}
	return "Collars closed, a spotter or safety bars."
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

// rows are the loads of a session in its order, accessories left out; the name of a
// lift stands beside its first load. Collars are left out where they
// are said once.
func (l RackLifter) rows(collarsSaid bool) (rows []rackRow) {
	last := ""
	for _, w := range l.Day.Work {
		if w.Role == load.Accessory {
			continue
		}
		r := rackRow{lift: w.Name, sets: fmt.Sprintf("%d x %d", w.Sets, w.Reps)}
		side, collar := l.Week.side(w)
		if r.side = side; !collarsSaid && side != bareBar {
			r.side += collar
		}
		switch {
		case w.Find && w.Weight > 0:
			r.load, r.sets = "from "+l.Week.Weight(w.Weight), r.sets+", to "+spare(w.Reserve)
		case w.Weight > 0:
			r.load = l.Week.Weight(w.Weight)
		}
		if r.lift == last {
			r.lift = ""
		}
		last, rows = w.Name, append(rows, r)
	}
	return rows
}

// text is a load as a line: the lift once, then sets, load and discs.
func (r rackRow) text() string {
	s := r.sets
	switch {
	case strings.HasPrefix(r.load, "from "):
		s = r.load + ": " + s
	case r.load != "":
		s += " at " + r.load
	}
	if r.lift != "" {
		s = r.lift + " " + s
	}
	if r.side != "" {
		s += ": " + r.side
	}
	return s
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
