package blocks

import (
	"fmt"

	"blockbell/planner"
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
	{tuneUp: true, wide: everyGap, over: everyGap, short: true, past: true, single: true},
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
		if !s.rolling() || s.stretches[0].kind == planner.Test {
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
	c.setCalendar(layOut(s.Today, nil, others, s.Rules.WeekStart, n, s.peaks()))
	c.notes = notes
	return &c, c.readPins()
}

// climb goes up the ladder.
func (s *season) climb() (found, bool) {
	s.weigh()
	for _, o := range ladder {
		if f, ok := s.under(o); ok {
			return s.tighten(f, o), true
		}
	}
	return found{}, false
}

// tighten takes back every loosened rule that the step of the ladder did not
// need, the gravest first.
func (s *season) tighten(f found, o loosening) found {
	f.loosened = o
	back := []func(*loosening){
		func(o *loosening) { o.past = o.single },
		func(o *loosening) { o.short = o.single },
		func(o *loosening) { o.over = 0 },
		func(o *loosening) { o.wide &= o.over },
	}
	for i := 1; i < len(s.stretches); i++ {
		back = append(back, func(o *loosening) { o.over = o.over.without(i) })
	}
	for i := 1; i < len(s.stretches); i++ {
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

// impossible names the smallest set of pins that leaves no plan and, where a
// later meet would do, the nearest date.
func (s *season) impossible() error {
	bad := s.conflict()
	text := ""
	for i, p := range bad {
		if i > 0 {
			text += " and "
		}
		text += p.text
	}
	if text == "" {
		return planner.Errorf(planner.Impossible, "Remove a meet, or move one.", "no plan keeps the rules between %s and %s", s.Today, s.end().AddDays(1))
	}
	what := "the pin %s leaves no legal plan of %d training weeks before %s"
	if len(bad) > 1 {
		what = "the pins %s together leave no legal plan of %d training weeks before %s"
	}
	return planner.Errorf(planner.Impossible, s.hint(), what, text, len(s.weeks), s.end().AddDays(1))
}

// conflict returns the fewest pins that cannot be kept: one, two, or all.
func (s *season) conflict() []pin {
	all := s.pins
	defer func() { s.pins = all }()
	for i := range all {
		s.pins = all[i : i+1]
		if !s.feasible() {
			return all[i : i+1]
		}
	}
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			s.pins = []pin{all[i], all[j]}
			if !s.feasible() {
				return s.pins
			}
		}
	}
	return all
}

// feasible tells whether any plan exists under the loosest rules.
func (s *season) feasible() bool {
	s.weigh()
	loosest := ladder[len(ladder)-2]
	free := loosest
	free.free = true
	for _, o := range []loosening{free, loosest, ladder[len(ladder)-1]} {
		if s.newGraph(o).nodes[0].ok {
			return true
		}
	}
	return false
}

// hint names the nearest later day of the last meet, within half a year, that
// leaves a plan.
func (s *season) hint() string {
	const most = 26
	last := s.end().AddDays(1)
	if !s.rolling() {
		for k := 1; k <= most; k++ {
			if s.withLast(last.AddDays(7 * k)).feasible() {
				return fmt.Sprintf("Remove or change a pin. With the meet on %s or later these pins fit.", last.AddDays(7*k))
			}
		}
	}
	return "Remove or change a pin."
}

// withLast returns the season with its last meet on another day.
func (s *season) withLast(day planner.Date) *season {
	c := *s
	mains, others, _ := promote(s.byDay)
	mains = append([]planner.Meet(nil), mains...)
	mains[len(mains)-1].Date = day
	c.setCalendar(layOut(s.Today, mains, others, s.Rules.WeekStart, 0, s.peaks()))
	if c.readPins() != nil {
		c.pins = s.pins
	}
	return &c
}
