package blocks

import (
	"fmt"
	"slices"
)

// deviation is how much better, in log units, a plan of another order of kinds
// must be before it replaces the one that practice prescribes for the weeks left.
const deviation = 0.003

// ladder is the order in which rules are set aside where they leave no plan.
// The mildest comes first: a practice meet is only lifted through, gaps leave
// their usual lengths, then the limit of peaking in them, the running block ends
// early, peaking passes its limit, and last one peaking block fills all the time.
var ladder = []loosening{
	{},
	{tuneUp: true},
	{wide: everyGap},
	{tuneUp: true, wide: everyGap},
	{tuneUp: true, wide: everyGap, over: everyGap},
	{short: true},
	{tuneUp: true, wide: everyGap, over: everyGap, short: true},
	{tuneUp: true, wide: everyGap, over: everyGap, short: true, past: true},
	{back: true},
	{tuneUp: true, wide: everyGap, over: everyGap, short: true, past: true, back: true},
	{tuneUp: true, wide: everyGap, over: everyGap, short: true, past: true, back: true, single: true},
}

// found is the chosen plan with what it took to find it.
type found struct {
	plan
	rule     *plan // the best plan of the prescribed order, where another was taken
	loosened loosening
}

// solve returns the best plan under the fewest loosened rules.
func (s *season) solve() (found, error) {
	if f, ok := s.climb(); ok {
		return f, nil
	}
	for _, n := range rollingLengths[1:] {
		if !s.rolling() || s.testClosed() {
			break
		}
		again, err := s.rolled(n)
		if err != nil {
			continue
		}
		if f, ok := again.climb(); ok {
			*s = *again
			f.g.season = s
			s.notes = append(s.notes, fmt.Sprintf("The cycle has %d weeks instead of %d, so that the pins fit.", n, rollingLengths[0]))
			return f, nil
		}
	}
	return found{}, s.impossible()
}

// rolled returns the season with a rolling cycle of n weeks.
func (s *season) rolled(n int) (*season, error) {
	c := *s
	_, others, _ := promote(s.byDay)
	notes := c.notes
	c.setCalendar(s.layOut(nil, others, n))
	c.notes = notes
	return &c, c.readPins()
}

// climb goes up the ladder. Rules about how long peaking may last give way to the
// calendar alone: where pins or bounds ask for it, they are what has to change.
func (s *season) climb() (found, bool) {
	s.weigh()
	for _, o := range s.steps() {
		if f, ok := s.under(o); ok {
			return s.tighten(f, o), true
		}
	}
	return found{}, false
}

// steps is the ladder of the season, each step once.
func (s *season) steps() []loosening {
	if len(s.pins)+len(s.Bounds) == 0 {
		return ladder
	}
	need := loosening{}
	if bare := s.undecided(); !bare.fitsStrictly() {
		f, _ := bare.climb()
		need = f.loosened
	}
	var list []loosening
	for _, o := range ladder {
		o.over &= need.over
		o.past = o.past && need.past
		o.single = o.single && need.single
		if !slices.Contains(list, o) {
			list = append(list, o)
		}
	}
	return list
}

// undecided is the season without what people decided about it.
func (s *season) undecided() *season {
	c := *s
	c.Pins, c.pins, c.Bounds = nil, nil, nil
	c.readBounds()
	c.stretches = slices.Clone(s.stretches)
	c.setCalendar(c.calendar)
	c.weigh()
	return &c
}

// fitsStrictly tells whether there is a plan with no rule set aside.
func (s *season) fitsStrictly() bool {
	return s.newGraph(loosening{free: true}).nodes[0].ok || s.newGraph(loosening{}).nodes[0].ok
}

// tighten takes back every loosened rule that the step of the ladder did not
// need, the gravest first.
func (s *season) tighten(f found, o loosening) found {
	f.loosened = o
	back := []func(*loosening){
		func(o *loosening) { o.back = o.single },
		func(o *loosening) { o.past = o.single },
		func(o *loosening) { o.short = o.single },
		func(o *loosening) { o.over = 0 },
		func(o *loosening) { o.wide &= o.over },
	}
	for _, i := range s.gapList() {
		back = append(back, func(o *loosening) { o.over = o.over.without(i) })
	}
	for _, i := range s.gapList() {
		back = append(back, func(o *loosening) { o.wide = o.wide.without(i) | o.over })
	}
	back = append(back, func(o *loosening) { o.tuneUp = false })
	for _, back := range back {
		less := f.loosened
		back(&less)
		if less == f.loosened {
			continue
		}
		if again, ok := s.under(less); ok {
			f, f.loosened = again, less
		}
	}
	return f
}

// under returns the best plan with the rules loosened by o: of the prescribed
// order of kinds, unless any legal order is better by more than the deviation or
// the prescribed one leaves no plan.
func (s *season) under(o loosening) (found, bool) {
	rule, ok := s.newGraph(o).best()
	if s.rolling() || o.single {
		return found{plan: rule}, ok
	}
	o.free = true
	other, any := s.newGraph(o).best()
	switch {
	case !ok && !any:
		return found{}, false
	case !any || ok && other.objective <= rule.objective+deviation:
		return found{plan: rule}, true
	case ok:
		return found{plan: other, rule: &rule}, true
	}
	return found{plan: other}, true
}
