package render

import (
	"fmt"
	"math"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
)

// WeekView is what the answers to 'what do I lift' are made from.
type WeekView struct {
	Lifter planner.Lifter
	Today  planner.Date
	Plan   load.Plan
	Gym    load.Gym
	Said   []Moved // what the log moved
	Done   map[planner.Date]bool
	// Last is what was lifted last of movements whose weight the lifter chooses.
	Last    map[load.Movement]planner.Set
	Preview bool   // a week to come: loads still follow what is lifted until then
	Who     string // whose week, where it is somebody else's: "Ana's "
}

// Moved says how a logged top set moved the loads of a lift.
type Moved struct {
	Lift planner.Lift `json:"lift"`
	Text string       `json:"text"`
}

// moved are the lines about the given lifts; none given: about all.
func (v WeekView) moved(lifts map[planner.Lift]bool) (lines []string) {
	for _, m := range v.Said {
		if lifts == nil || lifts[m.Lift] {
			lines = append(lines, m.Text)
		}
	}
	return lines
}

// WeekData is the answer for programs where there is a week, and its empty form where
// there is none.
type WeekData struct {
	Block   *planner.BlockKind `json:"block"`
	Week    *int               `json:"week"`
	Deload  bool               `json:"deload"`
	Taper   bool               `json:"taper"`
	Days    []DayData          `json:"days"`
	Weeks   int                `json:"weeks,omitempty"`
	Start   planner.Date       `json:"start,omitzero"`
	End     planner.Date       `json:"end,omitzero"`
	Preview bool               `json:"preview,omitempty"`
	Notes   []string           `json:"notes,omitempty"`
	LeftOut []string           `json:"left_out,omitempty"`
	Changed []string           `json:"changed,omitempty"`
	Moved   []Moved            `json:"moved,omitempty"`
	Why     string             `json:"reason,omitempty"` // why there is no work
	Open    []planner.Date     `json:"open,omitempty"`   // earlier sessions of the week without a logged set
}

// DayData is one session for programs.
type DayData struct {
	Date    planner.Date `json:"date"`
	Work    []WorkData   `json:"work"`
	Minutes int          `json:"minutes"`
	Note    string       `json:"note,omitempty"`
	Done    bool         `json:"done"`
}

// WorkData is one line of work for programs.
type WorkData struct {
	Lift    planner.Lift     `json:"lift"`
	Variant *planner.Variant `json:"variant"`
	Name    string           `json:"name"`
	Sets    int              `json:"sets"`
	Reps    int              `json:"reps"`
	Weight  *float64         `json:"weight_kg"`
	Percent *float64         `json:"percent"`
	Reserve float64          `json:"rir"`
	Role    load.Role        `json:"role"`
	Purpose load.Role        `json:"purpose"`
	Find    bool             `json:"find,omitempty"`
	Max     float64          `json:"max_kg,omitempty"`
	Rest    int              `json:"rest_s"`
	PerSide []float64        `json:"per_side_kg,omitempty"`
	Why     string           `json:"why,omitempty"`
	Last    *LastData        `json:"last,omitempty"` // of an accessory
}

// LastData is what was lifted last of a movement.
type LastData struct {
	Weight float64      `json:"weight_kg"`
	Reps   int          `json:"reps"`
	Date   planner.Date `json:"date"`
}

// Data is the week for programs, with the given days of it.
func (v WeekView) Data(days ...load.Day) WeekData {
	p := v.Plan
	d := WeekData{Block: &p.Block, Week: &p.Week, Deload: p.Deload, Taper: p.Taper, Days: []DayData{}, Weeks: p.Weeks,
		Start: p.Start, End: p.End, Preview: v.Preview, Notes: p.Notes, LeftOut: p.LeftOut, Moved: v.Said}
	for _, c := range p.Changed {
		d.Changed = append(d.Changed, c.Text)
	}
	for _, day := range days {
		d.Days = append(d.Days, v.dayData(day))
	}
	return d
}

func (v WeekView) dayData(day load.Day) DayData {
	d := DayData{Date: day.Date, Minutes: day.Minutes, Note: day.Note, Done: v.Done[day.Date], Work: []WorkData{}}
	for _, w := range day.Work {
		x := WorkData{Lift: w.Lift, Name: w.Name, Sets: w.Sets, Reps: w.Reps, Reserve: w.Reserve, Role: w.Role.Broad(), Purpose: w.Role,
			Find: w.Find, Max: w.Max, Rest: w.Rest, Why: v.why(w)}
		if w.Variant != "" {
			x.Variant = &w.Variant
		}
		if w.Role != load.Accessory {
			kg, percent := w.WeightKG(), w.Percent
			x.Weight, x.Percent = &kg, &percent
			if p, err := load.Plates(w.Weight, v.Gym); err == nil && w.Weight > 0 {
				for _, disc := range p.PerSide {
					x.PerSide = append(x.PerSide, disc.Kg())
				}
			}
		}
		if s, ok := v.Last[w.Movement()]; ok && w.Weight == 0 {
			x.Last = &LastData{s.Weight.Kg(), s.Reps, s.Day}
		}
		d.Work = append(d.Work, x)
	}
	return d
}

// Week shows a whole week: each day with its lines.
func Week(v WeekView) chat.Message {
	p := v.Plan
	m := chat.Message{Title: v.Who + v.weekTitle(), Data: v.Data(p.Days...)}
	lines := []string{p.Start.Short() + " to " + p.End.Short() + "."}
	if v.Preview {
		lines[0] += " A look ahead: the loads still follow what you lift until then."
	}
	lines = append(lines, v.moved(nil)...)
	if !v.Preview {
		for _, c := range p.Changed {
			lines = append(lines, c.Text)
		}
	}
	if len(p.Days) == 0 {
		lines = append(lines, "No session in these days.")
	} else {
		lines = append(lines, "4 x 8 means 4 sets of 8. "+leftHint)
	}
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	for _, d := range p.Days {
		m.Fields = append(m.Fields, chat.Field{Name: v.dayName(d), Value: clip(v.dayLines(d), chat.MaxFieldValue)})
	}
	if know := append(append([]string{}, p.Notes...), p.LeftOut...); len(know) > 0 {
		m.Fields = append(m.Fields, chat.Field{Name: "Good to know", Value: clip(strings.Join(know, "\n"), chat.MaxFieldValue)})
	}
	return m
}

// weekTitle says which week of which block it is.
func (v WeekView) weekTitle() string {
	p := v.Plan
	title := fmt.Sprintf("%s, week %d of %d", strings.TrimSuffix(Sentence(BlockShort(p.Block)), "."), p.Week, p.Weeks)
	switch {
	case p.Deload:
		title += ": easy week (deload)"
	case p.Taper:
		title += ": taper (easing off)"
	}
	return title
}

func (v WeekView) dayName(d load.Day) string {
	name := fmt.Sprintf("%s, about %d min", d.Date.Short(), d.Minutes)
	switch {
	case v.Done[d.Date]:
		name += ", logged"
	case d.Date == v.Today:
		name += ", today"
	}
	return name
}

// dayLines is a session in short lines.
func (v WeekView) dayLines(d load.Day) string {
	var lines []string
	if d.Note != "" {
		lines = append(lines, d.Note)
	}
	for _, w := range d.Work {
		line := fmt.Sprintf("%s %d x %d", w.Name, w.Sets, w.Reps)
		switch {
		case w.Role == load.Accessory:
		case w.Find:
			line += ", find your weight"
		case w.Weight > 0:
			line += fmt.Sprintf(" at %s, %.0f %%", v.Weight(w.Weight), w.Percent)
		}
		lines = append(lines, line+", "+spare(w.Reserve))
	}
	return strings.Join(lines, "\n")
}

// leftHint says what 'left' means.
const leftHint = "'2 left': stop when you could do 2 more."

// spare writes repetitions in reserve.
func spare(reserve float64) string {
	if reserve >= 6 {
		return "6 or more left" // nobody counts further
	}
	if whole := math.Floor(reserve); whole != reserve {
		return fmt.Sprintf("%.0f-%.0f left", whole, whole+1)
	}
	return fmt.Sprintf("%.0f left", reserve)
}

// Weight writes a load: kg first, and the gym's unit beside it where lifter and gym
// differ.
func (v WeekView) Weight(g planner.Grams) string {
	lifter, gym := v.Lifter.Unit, v.Gym.Unit
	switch {
	case lifter == planner.LB && gym == planner.LB:
		return g.Text(planner.LB)
	case lifter == planner.LB:
		return g.Text(planner.KG) + " (" + g.Text(planner.LB) + ")"
	case gym == planner.LB: // the pounds are what is loaded; the kg are for the reader
		half := planner.Kilograms(math.Round(2*g.Kg()) / 2)
		return half.Text(planner.KG) + " (" + g.Text(planner.LB) + ")"
	}
	return g.Text(planner.KG)
}
