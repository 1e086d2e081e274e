package load

import (
	"fmt"
	"strings"

	"blockbell/planner"
)

// Text writes the week for a coach to read: a line for the block, one for the
// hard sets of the lifts and one for those of the muscles, then each session with
// sets x repetitions, load, percent of the max and what is left, then what is to
// be said of the week and what changed since the last one.
func (p Plan) Text(unit planner.Unit) string {
	var b strings.Builder
	b.WriteString(p.heading())
	fmt.Fprintf(&b, "  hard sets: squat %d, bench %d, deadlift %d\n", p.LiftSets[planner.Squat], p.LiftSets[planner.Bench], p.LiftSets[planner.Deadlift])
	var muscles []string
	for _, m := range Groups() {
		muscles = append(muscles, fmt.Sprintf("%s %g", m, p.Muscles[m]))
	}
	fmt.Fprintf(&b, "  with accessories: %s\n", strings.Join(muscles, ", "))
	for _, d := range p.Days {
		d.print(&b, unit)
	}
	for _, n := range append(append([]string{}, p.Notes...), p.LeftOut...) {
		b.WriteString("  - " + n + "\n")
	}
	for _, c := range p.Changed {
		b.WriteString("  * " + c.Text + "\n")
	}
	return b.String()
}

// heading names the block, the week and what is special about it.
func (p Plan) heading() string {
	special := ""
	switch {
	case p.Deload:
		special = ", deload (easy week)"
	case p.Taper:
		special = ", taper (easing off)"
	case p.Eased:
		special = ", eased for a meet"
	}
	return fmt.Sprintf("%s, week %d of %d%s, from %s\n", blockName(p.Block), p.Week, p.Weeks, special, p.Start.Short())
}

// print writes a session: its day, its length and its work.
func (d Day) print(b *strings.Builder, unit planner.Unit) {
	fmt.Fprintf(b, "  %s, about %d minutes", d.Date.Short(), d.Minutes)
	if d.Note != "" {
		b.WriteString(". " + d.Note)
	}
	b.WriteString("\n")
	for _, w := range d.Work {
		b.WriteString("    " + w.line(unit) + "\n")
	}
}

// line writes a piece of work in columns. An accessory has no load: the lifter
// chooses it by what should be left.
func (w Work) line(unit planner.Unit) string {
	load, percent := w.Weight.Text(unit), fmt.Sprintf("%.1f %%", w.Percent)
	switch {
	case w.Role == Accessory:
		load, percent = "choose", ""
	case w.Find:
		load, percent = "find it", ""
	case w.Weight == 0:
		load = "-"
	}
	text := fmt.Sprintf("%-18s %d x %-2d  %-8s %7s  %s left", w.Name, w.Sets, w.Reps, load, percent, half(w.Reserve))
	if said := roleWords[w.Role]; said != "" {
		text = fmt.Sprintf("%s, %s", text, said)
	}
	return text
}

// roleWords are the roles that need saying, in plain words.
var roleWords = map[Role]string{
	Top:        "top set",
	BackOff:    "back-off",
	FirstHeavy: "heavier first set",
	Technique:  "light and quick",
	Accessory:  "accessory",
}
