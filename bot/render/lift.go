package render

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// LiftView is everything told about one lift.
type LiftView struct {
	Lifter  planner.Lifter
	Lift    planner.Lift
	Variant planner.Variant
	Today   planner.Date
	Reading strength.Reading
	Sets    []planner.Set // the log, of any lift
	Blocks  []planner.Block
	Meets   []planner.Meet
	Who     string // the lifter's name where somebody else asks
	Work    string // what was done of it in the last weeks, and how that matches the block; may be empty
}

// lastSets is how many sets of the lift are shown.
const lastSets = 5

// Lift shows the level of a lift with its likely range, whether it moves and why,
// records, last sets, and a picture of the last half year.
func Lift(v LiftView) chat.Message {
	m := chat.Message{Title: v.title(), Text: v.level(), Data: v.data()}
	m.Fields = append(m.Fields, chat.Field{Name: "Does it move?", Value: clip(v.moves(), chat.MaxFieldValue)})
	if v.Work != "" {
		m.Fields = append(m.Fields, chat.Field{Name: "Your work on it", Value: clip(v.Work, chat.MaxFieldValue)})
	}
	if records := v.records(); records != "" {
		m.Fields = append(m.Fields, chat.Field{Name: "Records", Value: clip(records, chat.MaxFieldValue)})
	}
	if sets := v.last(); sets != "" {
		m.Fields = append(m.Fields, chat.Field{Name: "Last sets", Value: clip(sets, chat.MaxFieldValue)})
	}
	if !v.Reading.Known {
		return m
	}
	m.Files = v.picture()
	return m
}

// name is the lift with its variant.
func (v LiftView) name() string {
	return load.Movement{Lift: v.Lift, Variant: v.Variant}.Name()
}

func (v LiftView) title() string {
	title := strings.TrimSuffix(Sentence(v.name()), ".")
	if v.Who != "" {
		title += " of " + v.Who
	}
	return title
}

// mass writes an estimate in the lifter's unit.
func (v LiftView) mass(kg float64) string {
	return Estimate(kg, v.Lifter.Unit)
}

// level says where the lift stands.
func (v LiftView) level() string {
	r := v.Reading
	if !r.Known {
		return "Nothing logged yet that gives an estimated max (what you could lift once). A set of up to 12 with its effort does, for example: " + v.name() + " 100x5 @8"
	}
	lines := []string{fmt.Sprintf("Estimated max (what you could lift once): %s, likely between %s and %s.", v.mass(r.Kg), v.mass(r.Kg-r.SD), v.mass(r.Kg+r.SD))}
	lines = append(lines, r.Notes...)
	if r.AtLeast {
		lines = append(lines, "Add the effort to a set, for example @8, or '2 left'.")
	}
	return strings.Join(lines, "\n")
}

// moves says whether the lift is moving, why the bot thinks so, and how fast.
func (v LiftView) moves() string {
	r := v.Reading
	words := map[strength.Verdict]string{
		strength.Rising: "Yes, it rises.", strength.Holding: "It holds where it is.", strength.Falling: "It has been falling.",
		strength.TooLittle: "Too little data to say.",
	}
	text := words[r.Verdict] + " " + r.Reason
	if r.Known && r.Test.Days >= strength.TrendDays {
		text += fmt.Sprintf("\nBy the trend %+.1f %% a week, give or take %.1f.", r.Slope, r.SlopeSD)
	}
	return text
}

// records lists the best single, sets and estimate of the lift as it is asked for.
func (v LiftView) records() string {
	var lines []string
	for _, r := range v.own() {
		switch r.Kind {
		case strength.BestSingle:
			lines = append(lines, fmt.Sprintf("single: %s on %s", r.Weight.Text(v.Lifter.Unit), dayAndYear(r.Day, v.Today)))
		case strength.BestReps:
			lines = append(lines, fmt.Sprintf("set of %d: %s on %s", r.Reps, r.Weight.Text(v.Lifter.Unit), dayAndYear(r.Day, v.Today)))
		}
	}
	return strings.Join(lines, "\n")
}

// own are the raw records of the lift and variant.
func (v LiftView) own() []strength.Record {
	own := slices.DeleteFunc(slices.Clone(v.Reading.Records), func(r strength.Record) bool {
		return r.Lift != v.Lift || r.Variant != v.Variant || r.Gear != "" && r.Gear != planner.Raw
	})
	slices.SortStableFunc(own, func(a, b strength.Record) int { return a.Reps - b.Reps })
	return own
}

// dayAndYear names a day, with its year where that is another one.
func dayAndYear(d, today planner.Date) string {
	year, _, _ := d.Civil()
	if now, _, _ := today.Civil(); now == year {
		return d.Short()
	}
	return d.Long()
}

// last lists the last sets of the lift, newest first.
func (v LiftView) last() string {
	var lines []string
	for _, s := range slices.Backward(v.Sets) {
		if s.Lift == v.Lift && s.Variant == v.Variant && !s.Pending && len(lines) < lastSets {
			lines = append(lines, dayAndYear(s.Day, v.Today)+": "+Set(s, v.Lifter.Unit))
		}
	}
	return strings.Join(lines, "\n")
}

// data is the reading for programs.
func (v LiftView) data() map[string]any {
	r := v.Reading
	records := []map[string]any{}
	for _, b := range v.own() {
		records = append(records, map[string]any{"kind": b.Kind, "reps": b.Reps, "weight_kg": b.Weight.Kg(), "estimate_kg": b.Kg, "date": b.Day})
	}
	d := map[string]any{
		"lift": v.Lift, "variant": orNull(string(v.Variant)), "verdict": r.Verdict, "reason": r.Reason, "records": records,
		"e1rm_kg": nil, "e1rm_sd_kg": nil, "slope_percent_per_week": nil, "slope_sd": nil,
	}
	if r.Known {
		d["e1rm_kg"], d["e1rm_sd_kg"], d["slope_percent_per_week"], d["slope_sd"] = r.Kg, r.SD, r.Slope, r.SlopeSD
	}
	return d
}
