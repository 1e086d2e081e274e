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
	discs := []string{"the usual ones"}
	if len(g.Discs) > 0 {
		discs = nil
		for _, d := range g.Discs {
			discs = append(discs, d.Number(unit))
		}
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
		{Name: "discs", Value: strings.Join(discs, ", ") + " " + string(unit)},
		{Name: "missing", Value: strings.Join(missing, ", ")},
	}, Data: map[string]any{"gym": map[string]any{"unit": unit, "bar_kg": bar.Kg(), "collars_kg": collars.Kg(), "discs": discs, "missing": g.Missing}}}
}
