package blocks

import (
	"fmt"
	"slices"
)

// byHand is the reason where pins leave no other way.
const byHand = "what is fixed by hand leaves no other way"

// because says why a rule was set aside, where has tells whether a search set it
// aside: the pins, or the bounds, where it stands without them, else the calendar.
func (s *season) because(has func(loosening) bool, calendar string) string {
	if len(s.pins) > 0 && !s.unpinned().loosens(has) {
		return byHand
	}
	if len(s.Bounds) > 0 && !s.undecided().loosens(has) {
		return s.boundsInTheWay()
	}
	return calendar
}

// loosens tells whether the best plan of the season sets a rule aside.
func (s *season) loosens(has func(loosening) bool) bool {
	f, ok := s.climb()
	return !ok || has(f.loosened)
}

// unpinned is the season without pins.
func (s *season) unpinned() *season {
	c := *s
	c.Pins, c.pins = nil, nil
	c.weigh()
	return &c
}

// boundsInTheWay names the bounds as a reason.
func (s *season) boundsInTheWay() string {
	var names []string
	for _, b := range s.Bounds {
		names = append(names, b.text())
	}
	if len(names) == 1 {
		return "the bound " + names[0] + " leaves no other way"
	}
	return "the bounds " + list(names) + " leave no other way"
}

// holdsKind tells whether the best plan of the season has a block of the kind.
func (s *season) holdsKind(kind int) bool {
	f, ok := s.climb()
	return ok && slices.ContainsFunc(f.steps, func(b step) bool { return b.kind == kind && b.total > 0 })
}

// whyLeftOut says why the plan does without each kind that it leaves out, one
// sentence each: a bound that forbids it, what is fixed by hand, the other bounds, or
// the weeks that are left.
func (s *season) whyLeftOut(f found, p Plan) []string {
	out := []string{}
	for _, kind := range p.LeftOut {
		k := index(kind)
		b, capped := s.capOn(k)
		why := ""
		switch {
		case capped && b.Max == 0:
			why = "forbidden by " + b.by()
		case len(s.pins) > 0 && s.unpinned().holdsKind(k):
			why = "what is fixed by hand leaves no room for it"
		case len(s.Bounds) > 0 && s.undecided().holdsKind(k):
			why = s.boundsInTheWay()
		default:
			why = s.weeksLeaveOut(f, k)
		}
		out = append(out, fmt.Sprintf("No %s: %s.", screenName(k), why))
	}
	return out
}

// weeksLeaveOut says why the weeks that are left hold no block of a kind. Where their
// usual order has none it is common practice, else the model's choice.
func (s *season) weeksLeaveOut(f found, kind int) string {
	if kind == iP {
		return "no day of training is left before the meet"
	}
	i := s.longestRunUp()
	if i < 0 {
		return "no training week is left"
	}
	n := plural(s.stretches[i].weeks())
	switch shape := f.g.rows[i].shape; {
	case s.rolling() && s.testClosed():
		return "the " + n + " until the test day are better spent on strength"
	case s.rolling():
		return "the " + n + " of this cycle are better spent on strength"
	case shape != nil:
		return s.usualWithout(i, kind, shape)
	}
	return fmt.Sprintf("other blocks make more of the %s before %s", n, s.meetName(s.stretches[i]))
}

// usualWithout says that the usual order before the end of stretch i has no block of
// a kind.
func (s *season) usualWithout(i, kind int, shape []int) string {
	var names []string
	for _, k := range shape {
		names = append(names, theBlock(k))
	}
	usual := list(names)
	if len(names) == 1 {
		usual += " alone"
	}
	why := fmt.Sprintf("with %s until %s the usual order is %s (common practice)", plural(s.stretches[i].weeks()), s.meetName(s.stretches[i]), usual)
	switch {
	case s.runsIn(i) || s.isGap(i):
		return why
	case kind == iS:
		return why + fmt.Sprintf("; it has room from %d weeks on", onlyPeak+1)
	}
	return why + fmt.Sprintf("; it has room from %d weeks on", s.muscleFrom())
}

// muscleFrom is how many weeks left hold a muscle block in their usual order.
func (s *season) muscleFrom() int {
	for n := onlyPeak; ; n++ {
		if shape, needH := s.freshShape(n); needH || slices.Contains(shape, iH) {
			return n
		}
	}
}

// longestRunUp is the stretch with the most training weeks that leads to a meet or
// test; -1 where none has any.
func (s *season) longestRunUp() int {
	longest, most := -1, 0
	for i, st := range s.stretches {
		if st.kind != leaving && st.weeks() > most {
			longest, most = i, st.weeks()
		}
	}
	return longest
}
