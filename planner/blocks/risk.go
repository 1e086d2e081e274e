package blocks

import (
	"fmt"
	"slices"

	"blockbell/planner"
)

// Lengths from which a block has something at stake, in weeks. New muscle takes
// about 18 sessions to be there (Damas et al. 2016), 5 to 6 weeks at 3 a week; the
// long ends are common practice.
const (
	growthShows = 5
	longS       = 10
	longH       = 12
)

// dullAt is the expression below which the single is still dull on meet day, about
// 1 %.
const dullAt = -0.01

// risks says what is at stake in a plan, one plain sentence each, in the order of
// its blocks.
func (c *comparing) risks(steps []step, r Row) []string {
	out := []string{}
	out = append(out, c.unusualOrder(steps)...)
	out = append(out, mixed(steps)...)
	for i, at := range c.places(steps) {
		if !slices.ContainsFunc(r.Breaches, func(b Breach) bool { return b.Block == at && b.Guard.ofLength() }) {
			out = append(out, c.risksOf(steps[i])...)
		}
	}
	out = append(out, c.practiceInMuscle(steps)...)
	out = append(out, c.dull(r)...)
	return append(out, c.withoutMuscle(steps)...)
}

// ofLength tells whether a guard is about how long a block is; what a wrong length
// puts at stake is then said already.
func (g Guard) ofLength() bool { return g == GuardShort || g == GuardLong || g == GuardLimit }

// risksOf is what one block puts at stake.
func (c *comparing) risksOf(b step) (out []string) {
	if b.weeks == 0 {
		return nil
	}
	switch limit := c.stretches[b.stretch].limit; {
	case b.kind == iP && b.total > limit:
		return []string{fmt.Sprintf("Peaking of %s is over your limit of %d: about %.1f %% of muscle goes before the meet.", plural(b.total), limit, c.muscleGone(b.total))}
	case b.kind == iP && b.total == limit && limit > 3:
		return []string{fmt.Sprintf("Peaking is as long as your limit of %d allows: a meet moved later would pass it.", limit)}
	case b.kind == iH && b.total < growthShows && !b.running:
		return []string{fmt.Sprintf("The muscle block is short: %s are too few for much new muscle to show.", plural(b.total))}
	case b.kind == iH && b.total > longH:
		return []string{fmt.Sprintf("The muscle block is long: after %d weeks the same work brings less each week.", longH)}
	case b.kind == iS && b.total > longS:
		return []string{fmt.Sprintf("Strength of %s is long: muscle fades unless a third of the muscle block's sets stay in.", plural(b.total))}
	}
	return nil
}

// muscleGone is how many percent of strength the muscle lost in peaking is worth.
func (s *season) muscleGone(weeks int) float64 {
	return 100 * s.model.Dm * float64(max(0, weeks-s.model.Grace))
}

// dull names main meets at which the single would not be sharp.
func (c *comparing) dull(r Row) (out []string) {
	at := c.model.trace(r.Blocks, c.marks)
	for i, mk := range c.marks {
		if mk.Kind == planner.Main && at[i].E < dullAt {
			out = append(out, fmt.Sprintf("At %s the single would still be dull, about %s below what you could show: too little peaking.",
				c.nameOf(mk.Date), c.by.amount(100*at[i].E)))
		}
	}
	return out
}

// withoutMuscle tells that a run-up of 11 weeks or more has no muscle block.
func (c *comparing) withoutMuscle(steps []step) []string {
	if c.main < 0 || !c.best.g.longFirst() || c.model.Start.Hypertrophy && c.main == 0 {
		return nil
	}
	for _, b := range steps {
		if b.stretch == c.main && b.kind == iH {
			return nil
		}
	}
	return []string{fmt.Sprintf("No muscle block before %s: nothing new to build strength on.", c.meetName(c.stretches[c.main]))}
}

// unusualOrder names the soft rule of what the weeks left are for, where a plan
// breaks it.
func (c *comparing) unusualOrder(steps []step) []string {
	if c.rolling() || c.best.g.allows(steps) {
		return nil
	}
	i := c.main
	r := c.season.rows(c.best.loosened)[i]
	var have []int
	for _, b := range steps {
		if b.stretch == i && b.total > 0 {
			have = append(have, b.kind)
		}
	}
	if r.shape == nil || slices.Equal(r.shape, have) {
		return nil
	}
	var names []string
	for _, k := range r.shape {
		names = append(names, screenName(k))
	}
	return []string{fmt.Sprintf("Usual with %s left: %s (common practice).", plural(c.stretches[i].weeks()), list(names))}
}

// mixed calls out aims that change so fast that none has time to work: two blocks of
// different aims in a row, both under 3 weeks, or peaking between two muscle blocks.
func mixed(steps []step) []string {
	hasty := func(b step) bool { return b.total < 3 && b.weeks > 0 && b.kind != iR }
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		if a.stretch != b.stretch {
			continue
		}
		between := i+1 < len(steps) && b.kind == iP && a.kind == iH && steps[i+1].kind == iH
		if between || a.kind != b.kind && hasty(a) && hasty(b) {
			return []string{"It changes its aim so fast that none has time to work: keep at least three weeks to one aim."}
		}
	}
	return nil
}
