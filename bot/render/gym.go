package render

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/load"
)

// Gym shows the club's bar and discs.
func Gym(title string, g load.Gym) chat.Message {
	unit := g.Unit
	if unit == "" {
		unit = planner.KG
	}
	bar, collars := g.Bar, g.Collars
	if bar == 0 {
		bar = 20 * planner.Kilogram
		if unit == planner.LB {
			bar = planner.Pounds(45)
		} else if collars == 0 {
			collars = 5 * planner.Kilogram
		}
	}
	discs, sizes := "the usual ones", []float64{}
	if len(g.Discs) > 0 {
		var names []string
		for _, d := range g.Discs {
			names, sizes = append(names, d.Number(unit)), append(sizes, d.Kg())
		}
		discs = strings.Join(names, ", ") + " " + string(unit)
	}
	missing := []string{"nothing"}
	if len(g.Missing) > 0 {
		missing = nil
		for _, m := range g.Missing {
			missing = append(missing, string(m))
		}
	}
	return chat.Message{Title: title, Fields: []chat.Field{
		{Name: "bar", Value: bar.Text(unit)},
		{Name: "collars", Value: collars.Text(unit) + " the pair"},
		{Name: "discs", Value: discs},
		{Name: "missing", Value: strings.Join(missing, ", ")},
	}, Data: map[string]any{"gym": map[string]any{"unit": unit, "bar_kg": bar.Kg(), "collars_kg": collars.Kg(), "discs_kg": sizes, "missing": g.Missing}}}
}
