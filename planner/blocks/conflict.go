package blocks

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/planner"
)

// impossible names the smallest set of things that together leave no plan: no
// single one of them can be taken away without there being one. Where a later meet
// would do, the hint has the nearest date.
func (s *season) impossible() error {
	bad := s.conflict()
	if len(bad) == 0 {
		return planner.Errorf(planner.Impossible, "Remove a meet, or move one.", "no plan keeps the rules between %s and %s", s.Today.Long(), s.end().AddDays(1).Long())
	}
	return planner.Errorf(planner.Impossible, s.hint(bad), "%s", s.sentence(bad))
}

// sentence names the things in conflict; meets come last, as what is planned for.
func (s *season) sentence(bad []thing) string {
	var meets, names []string
	for _, x := range bad {
		switch {
		case x.kind == "meet":
			meets = append(meets, x.text)
		case allPins(bad):
			names = append(names, x.text)
		default:
			names = append(names, "the "+x.kind+" "+x.text)
		}
	}
	last := s.end().AddDays(1)
	before := last.Long()
	if m, ok := s.days[last]; ok {
		before = meetText(m)
	}
	before = list(append(meets, before))
	what := list(names) + " together leave no legal plan"
	switch {
	case len(names) == 0:
		return "no plan keeps the rules before " + before
	case len(names) == 1:
		what = "the " + strings.TrimPrefix(names[0], "the ") + " leaves no legal plan"
		if allPins(bad) {
			what = "the pin " + names[0] + " leaves no legal plan"
		}
	case allPins(bad):
		what = "the pins " + what
	}
	weeks := strings.Replace(plural(len(s.weeks)), "week", "training week", 1)
	if len(s.weeks) == 0 {
		weeks = "no training week"
	}
	return fmt.Sprintf("%s of %s before %s", what, weeks, before)
}

// allPins tells whether pins, and meets, are all that is in conflict.
func allPins(bad []thing) bool {
	return !slices.ContainsFunc(bad, func(x thing) bool { return x.kind != "pin" && x.kind != "meet" })
}

// list joins names as a person would.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// thing is one decision or date that a request can do without.
type thing struct {
	kind, text string
	drop       func(*Request)
}

// things lists what of a request can be in conflict, by value, so that dropping one
// does not move the others. The meet that the plan leads to stays: without it every
// pin on peaking would be to blame.
func (s *season) things() (out []thing) {
	for _, a := range s.Away {
		out = append(out, thing{"time away", a.text(), func(r *Request) { r.Away = without(r.Away, a) }})
	}
	for _, b := range s.Bounds {
		out = append(out, thing{"bound", b.text(), func(r *Request) { r.Bounds = without(r.Bounds, b) }})
	}
	for _, p := range s.Pins {
		out = append(out, thing{"pin", pinText(p), func(r *Request) { r.Pins = without(r.Pins, p) }})
	}
	for _, m := range s.Meets {
		if m.Date != s.end().AddDays(1) {
			out = append(out, thing{"meet", meetText(m), func(r *Request) { r.Meets = without(r.Meets, m) }})
		}
	}
	return out
}

func meetText(m planner.Meet) string {
	if m.Name == "" {
		return "the meet on " + m.Date.Long()
	}
	return m.Name + " on " + m.Date.Long()
}

// without returns the list without the first x.
func without[T comparable](all []T, x T) []T {
	i := slices.Index(all, x)
	if i < 0 {
		return all
	}
	return slices.Delete(slices.Clone(all), i, i+1)
}

// conflict is the deletion filter: it drops each thing in turn and leaves it out for
// good where there is still no plan. Decisions and times away are tried with all meets
// in place, for they were made with those in mind. A meet is left out only where all
// that is left is still needed: with fewer meets a plan can also become impossible.
func (s *season) conflict() []thing {
	left := s.things()
	for again := true; again; {
		again = false
		for i := 0; i < len(left); i++ {
			fewer := slices.Delete(slices.Clone(left), i, i+1)
			if !s.possible(fewer) && (left[i].kind != "meet" || s.needsAll(fewer)) {
				left, again = fewer, true
				i--
			}
		}
	}
	return left
}

// needsAll tells whether none but meets among things that leave no plan can go
// without there being one.
func (s *season) needsAll(things []thing) bool {
	for i, x := range things {
		if x.kind != "meet" && !s.possible(slices.Delete(slices.Clone(things), i, i+1)) {
			return false
		}
	}
	return true
}

// possible tells whether the request with only these things has a plan.
func (s *season) possible(kept []thing) bool {
	r := s.Request
	r.Agreed = nil
	for _, x := range s.things() {
		if !slices.ContainsFunc(kept, func(k thing) bool { return k.kind == x.kind && k.text == x.text }) {
			x.drop(&r)
		}
	}
	c, err := newSeason(r)
	return err == nil && c.anyPlan()
}

// anyPlan tells whether there is a plan, whatever rules give way and however long a
// cycle without a meet is.
func (s *season) anyPlan() bool {
	if s.feasible() {
		return true
	}
	for _, n := range rollingLengths[1:] {
		if !s.rolling() || s.testClosed() {
			return false
		}
		if c, err := s.rolled(n); err == nil && c.feasible() {
			return true
		}
	}
	return false
}

// feasible tells whether any plan exists under the loosest rules.
func (s *season) feasible() bool {
	s.weigh()
	for _, o := range slices.Backward(s.steps()) {
		free := o
		free.free = !o.single
		if s.newGraph(free).nodes[0].ok || s.newGraph(o).nodes[0].ok {
			return true
		}
		if !o.single {
			break // the loosest of the others holds them all
		}
	}
	return false
}

// hint says what to change, and names the nearest later day of the last meet,
// within half a year, that leaves a plan.
func (s *season) hint(bad []thing) string {
	const most = 26
	change := "Remove or change a pin."
	if !allPins(bad) {
		change = "Change or remove one of them."
	}
	last := s.end().AddDays(1)
	if s.rolling() {
		if slices.ContainsFunc(s.Pins, func(p Pin) bool { return p.Kind == planner.Peaking && names(bad, pinText(p)) }) {
			return "Add the meet first: " + peakNeedsMeet + "."
		}
		return change
	}
	for k := 1; k <= most; k++ {
		if s.withLast(last.AddDays(7 * k)).feasible() {
			if allPins(bad) {
				return fmt.Sprintf("%s With the meet on %s or later these pins fit.", change, last.AddDays(7*k).Long())
			}
			return fmt.Sprintf("%s With the meet on %s or later there is a plan.", change, last.AddDays(7*k).Long())
		}
	}
	return change
}

// names tells whether something with the text is among the things.
func names(bad []thing, text string) bool {
	return slices.ContainsFunc(bad, func(x thing) bool { return x.text == text })
}

// withLast returns the season with its last meet on another day.
func (s *season) withLast(day planner.Date) *season {
	c := *s
	mains, others, _ := promote(s.byDay)
	mains = append([]planner.Meet(nil), mains...)
	mains[len(mains)-1].Date = day
	c.setCalendar(s.layOut(mains, others, 0))
	if c.readPins() != nil {
		c.pins = s.pins
	}
	return &c
}
