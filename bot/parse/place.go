package parse

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// Loads outside these shares of the lifter's best are asked about before they
// count.
const (
	farAbove = 1.25
	farBelow = 0.30
)

// sets adds the sets of a complete work.
func (p *placer) sets(w *work, own bool) {
	w.own = own
	sets, err := p.build(w)
	switch {
	case err != nil:
		p.r.serious = p.hasLift
		p.r.refuse(w.col, err)
	case !p.hasLift:
		p.noLift(w, sets)
	case w.load.twice:
		p.r.problem(w.load.col, "Write one weight for each set, for example 5x5 @ 100.", "Two different weights stand there")
	case w.load.percent || w.doubtful:
		p.propose(w)
	case w.missed && w.hasSets && w.sets.value > 1 && !w.every:
		p.missedOne(w, sets)
	default:
		p.keep(w, sets)
	}
}

// noLift keeps sets without a lift for one question, unless the line is talk.
func (p *placer) noLift(w *work, sets []planner.Set) {
	if p.r.words() <= 2 && w.load.value >= leastLoad && !w.own {
		p.homeless = append(p.homeless, homeless{line: p.r.number, col: p.r.within(w.col), sets: sets})
	}
}

// missedOne asks which of several sets was missed.
func (p *placer) missedOne(w *work, sets []planner.Set) {
	made, last := sets[0], sets[0]
	made.Missed, made.Reps = false, int(w.reps[0].value)
	made.Sets--
	last.Sets = 1
	p.out.Questions = append(p.out.Questions, Question{
		Line: p.r.number, Column: p.r.within(w.col), Text: "Was it the last repetition of the last set that was missed?",
		Answers: []Answer{{Label: "Yes", Sets: []planner.Set{made, last}}, {Label: "No, I write it anew"}},
	})
}

// keep adds sets to the result; those far from the lifter's best are pending.
func (p *placer) keep(w *work, sets []planner.Set) {
	best := p.best(p.lift.lift)
	for _, set := range sets {
		index := len(p.out.Sets)
		d := p.far(set.Weight, best)
		if d != nil {
			set.Pending = true
			d.add(index, w)
		}
		p.out.Sets = append(p.out.Sets, set)
		if w.swapped && len(sets) == 1 && !set.Missed {
			p.note(set, index)
		}
	}
}

// far returns the doubt a weight raises against the best, nil for none.
func (p *placer) far(weight, best planner.Grams) *doubt {
	switch {
	case best <= 0 || weight <= 0:
		return nil
	case float64(weight) > farAbove*float64(best):
		return &p.heavy
	case float64(weight) < farBelow*float64(best):
		return &p.light
	}
	return nil
}

func (d *doubt) add(index int, w *work) {
	if len(d.index) == 0 {
		d.col = w.load.col
	}
	d.index = append(d.index, index)
	d.typed = append(d.typed, w.load)
}

// note says how repetitions and sets were read, with the other reading beside it.
func (p *placer) note(set planner.Set, index int) {
	other := set
	other.Reps, other.Sets = set.Sets, set.Reps
	at := "at " + set.Weight.Text(p.c.Unit)
	if set.Weight == 0 {
		at = "with your own weight"
	}
	p.out.Notes = append(p.out.Notes, fmt.Sprintf("Read as %s of %s %s.",
		plural(set.Sets, "set"), plural(set.Reps, "repetition"), at))
	if other.Sets <= planner.MaxSets && other.Sets >= 1 && other.Reps <= planner.MaxReps {
		p.out.Swaps = append(p.out.Swaps, Swap{Index: index, Other: other})
	}
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// ask puts the questions about pending sets of the line.
func (p *placer) ask() {
	for _, d := range []struct {
		*doubt
		how string
	}{{&p.heavy, "far above"}, {&p.light, "far below"}} {
		if len(d.index) == 0 {
			continue
		}
		first := p.out.Sets[d.index[0]]
		q := Question{Line: p.r.number, Column: p.r.within(d.col), Sets: d.index,
			Text: fmt.Sprintf("%s is %s your best %s. Is it right?", first.Weight.Text(p.c.Unit), d.how, first.Lift)}
		kept := Answer{Label: "Yes, " + first.Weight.Text(p.c.Unit)}
		for _, i := range d.index {
			set := p.out.Sets[i]
			set.Pending = false
			kept.Sets = append(kept.Sets, set)
		}
		if swapped, ok := p.inOtherUnit(d.doubt); ok {
			q.Text = fmt.Sprintf("%s? %s is %s your best %s.", otherUnit(p.c.Unit), first.Weight.Text(p.c.Unit), d.how, first.Lift)
			q.Answers = append(q.Answers, swapped)
		}
		q.Answers = append(q.Answers, kept, Answer{Label: "No"})
		p.out.Questions = append(p.out.Questions, q)
	}
}

func otherUnit(u planner.Unit) planner.Unit {
	if u == planner.LB {
		return planner.KG
	}
	return planner.LB
}

// inOtherUnit offers the sets in the unit the lifter does not usually write, where
// no unit was typed and they would then be plausible.
func (p *placer) inOtherUnit(d *doubt) (Answer, bool) {
	unit := otherUnit(p.c.Unit)
	a := Answer{Label: fmt.Sprintf("%g %s", d.typed[0].value, unit)}
	for k, i := range d.index {
		set := p.out.Sets[i]
		set.Weight, set.Pending = planner.In(unit, d.typed[k].value), false
		if d.typed[k].unit != "" || p.r.unit != "" || set.Weight > planner.MaxWeight || set.Weight < planner.MinWeight ||
			p.far(set.Weight, p.best(set.Lift)) != nil {
			return Answer{}, false
		}
		a.Sets = append(a.Sets, set)
	}
	return a, true
}

// build makes the sets of a work, or an error that names the value out of bounds.
func (p *placer) build(w *work) ([]planner.Set, error) {
	weight, err := p.weight(w)
	if err != nil {
		return nil, err
	}
	count := 1
	if w.hasSets {
		if count, err = p.whole(w.sets, 1, planner.MaxSets, "set"); err != nil {
			return nil, err
		}
	}
	reps := make([]int, 0, len(w.reps))
	for _, a := range w.reps {
		n, err := p.whole(a, 0, planner.MaxReps, "repetition")
		if err != nil {
			return nil, err
		}
		reps = append(reps, n)
	}
	base := planner.Set{Day: p.day, Lift: p.lift.lift, Variant: p.variant(w), Weight: weight, Sets: 1, Gear: w.gear}
	return p.spread(w, base, reps, count), nil
}

func (p *placer) variant(w *work) planner.Variant {
	said := p.lift
	if w.form != nil {
		said.take(w.form)
	}
	return p.c.Standard.variant(said.variant)
}

// whole reads a count and refuses what is none or outside low to high.
func (p *placer) whole(a amount, low, high int, noun string) (int, error) {
	if !a.whole() || a.value < float64(low) || a.value > float64(high) {
		return 0, &MisplacedError{Column: a.col, Cause: planner.Errorf(planner.Invalid, "Check the number.",
			"%g %ss are outside %d to %d", a.value, noun, max(low, 1), high)}
	}
	return int(a.value), nil
}

// weight returns the load of a work in grams: 0 for the lifter's own weight with
// nothing added.
func (p *placer) weight(w *work) (planner.Grams, error) {
	switch {
	case !w.hasLoad:
		return 0, nil
	case w.load.percent:
		return p.share(w.load)
	}
	unit := w.load.unit
	if unit == "" {
		unit = p.r.unit
	}
	if unit == "" {
		unit = p.c.Unit
	}
	return bounded(w.load.value, unit, planner.MinWeight, planner.MaxWeight)
}

// share turns a percentage of the estimated maximum into a weight, rounded to the
// usual steps of 2.5 kg or 5 lb.
func (p *placer) share(a amount) (planner.Grams, error) {
	if a.value < 20 || a.value > 130 {
		return 0, invalid("Write the weight.", "%g %% is outside 20 to 130 %% of a max", a.value)
	}
	kg, ok := 0.0, false
	if p.c.Estimate != nil && p.hasLift {
		kg, ok = p.c.Estimate(p.lift.lift)
	}
	if !ok || !(kg > 0) {
		return 0, invalid("Write the weight.", "There is no estimated max yet to take %g %% of", a.value)
	}
	step := planner.Kilograms(2.5)
	if p.c.Unit == planner.LB {
		step = planner.Pounds(5)
	}
	n := math.Round(kg * 10 * a.value / float64(step))
	return min(max(planner.Grams(n)*step, planner.MinWeight), planner.MaxWeight), nil
}
