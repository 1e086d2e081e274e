package render

import (
	"fmt"
	"strings"
)

// Starter is one lifter of a roster, in a few lines for a captain.
func Starter(v PapersView, coach string, absent bool) string {
	var first []string
	class := strings.TrimSpace(string(v.Lifter.Category) + " " + v.classOf().String())
	if class != "" {
		first = append(first, class)
	}
	first = append(first, "coach "+coach)
	if v.Handler != "" {
		first = append(first, "helper "+v.Handler)
	}
	if v.Meet.WeighInHours > 0 {
		first = append(first, fmt.Sprintf("weigh-in %d h before", v.Meet.WeighInHours))
	}
	lines := []string{Sentence(strings.Join(first, ", "))}
	var there []string
	for _, x := range []struct{ name, value string }{{"session", v.Session}, {"flight", v.Flight}, {"travel", v.Travel}} {
		if x.value != "" {
			there = append(there, x.name+" "+x.value)
		}
	}
	if len(there) > 0 {
		lines = append(lines, Sentence(strings.Join(there, "; ")))
	}
	if v.Meet.Qualifying > 0 && v.High > 0 {
		lines = append(lines, "Needs "+v.Meet.Qualifying.Text(v.Lifter.Unit)+"; estimate for the day "+v.Low.Number(v.Lifter.Unit)+" to "+v.High.Text(v.Lifter.Unit)+", "+v.against()+".")
	}
	if todo := v.Todo(); len(todo) > 0 {
		lines = append(lines, "To do: "+List(todo)+".")
	}
	if absent {
		lines = append(lines, "Not joined yet.")
	}
	return strings.Join(lines, "\n")
}
