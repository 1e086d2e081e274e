package parse

import (
	"cmp"
	"fmt"
	"math"

	"blockbell/planner"
)

// sets adds the sets of a complete work.
func (p *placer) sets(w *work, own bool) {
	w.own = own
	if w.swapped && w.apart && p.hasLift && !p.lift.lift.Competition() && w.sets.value >= 8 && len(w.reps) == 1 && w.reps[0].value <= 5 {
		// Twelve sets of three are done with the three lifts; of anything else "60 3x12"
		// is three sets of twelve (common practice).
		w.sets, w.reps = w.reps[0], []amount{w.sets}
	}
	sets, err := p.build(w)
	switch {
	case p.hasLift && p.withImplement(w):
	case err != nil && p.slipped(w):
	case err != nil:
		p.r.serious = p.hasLift
		p.r.refuse(w.col, err)
	case !p.hasLift:
		p.noLift(w, sets)
	case len(p.candidates(w)) > 0 && w.other == nil && !w.swapped && !w.load.twice:
		p.whichLift(w)
	case len(w.row) > 0:
		p.askRow(w)
	case w.other != nil:
		p.whichWeight(w)
	case w.load.twice && w.climbs():
		p.climb(w, own)
	case w.load.twice:
		p.r.quoted(w.load.col, "Write one weight for each set, for example 5x5 @ 100.", "two different weights stand there")
	case w.load.percent && w.top != nil:
		p.backOff(w)
	case w.load.percent || w.doubtful:
		p.propose(w)
	case w.missed && w.hasSets && w.sets.value > 1 && w.reps[0].value > 0 && !w.every:
		p.missedOne(w, sets)
	case (w.unsure || p.r.tries) && !w.missed && w.tried == 0 && !p.r.lightsOn:
		p.madeIt(w, sets)
	case w.foreign:
		p.foreign = append(p.foreign, homeless{line: p.r.number, col: p.r.within(w.col), sets: sets, typed: w.load, unitSaid: w.unit != "", odd: w.odd.text})
	default:
		p.keep(w, sets)
	}
}

// climbs tells whether there is one weight for each set: "3x5 60 62.5 65".
func (w *work) climbs() bool {
	return w.hasSets && len(w.ladder) == int(w.sets.value) && len(w.reps) == 1 && !w.missed && (len(w.efforts) < 2 || len(w.efforts) == len(w.ladder))
}

// climb adds one set at each weight.
func (p *placer) climb(w *work, own bool) {
	for i, load := range w.ladder {
		one := *w
		load.unit = cmp.Or(load.unit, w.load.unit)
		one.load, one.ladder, one.hasSets = load, nil, false
		if len(w.efforts) > 1 {
			one.efforts = w.efforts[i : i+1]
		}
		p.sets(&one, own)
	}
}

// noLift keeps sets without a lift for one question, unless the line is talk.
func (p *placer) noLift(w *work, sets []planner.Set) {
	if len(w.row) > 0 {
		if p.r.words() == 0 {
			p.r.quoted(w.row[0].col, "Write the lift and one weight for each set, for example squat 100x5, 105x5.", "several weights stand there")
		}
		return
	}
	if w.load.twice && p.r.words() == 0 {
		p.r.quoted(w.load.col, "Write the lift and one weight for each set, for example squat 100x5, 105x5.", "two different weights stand there")
		return
	}
	if p.r.words() <= 2 && w.load.value >= leastLoad && !w.own {
		p.homeless = append(p.homeless, homeless{line: p.r.number, col: p.r.within(w.col), sets: sets,
			sure: p.r.words() == 0 && !w.doubtful && !w.unsure && !p.r.tries && !w.load.percent && w.other == nil && !w.load.twice && !w.foreign && len(p.r.problems) == 0})
	}
}

// keep adds sets to the result; those far from the lifter's best are pending.
func (p *placer) keep(w *work, sets []planner.Set) {
	best := p.best(p.lift.lift)
	for _, set := range sets {
		index := len(p.out.Sets)
		d := p.far(set.Weight, best)
		if d == nil && tooMany(set, best) {
			d = &p.many
		}
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

// build makes the sets of a work, or an error that names the value out of bounds.
func (p *placer) build(w *work) ([]planner.Set, error) {
	weight, err := p.weight(w)
	if err != nil {
		return nil, err
	}
	count := 1
	if w.hasSets {
		if count, err = p.whole(w.sets, 1, planner.MaxSets, "set", fmt.Sprintf("line has 1 to %d equal sets", planner.MaxSets)); err != nil {
			return nil, err
		}
	}
	reps := make([]int, 0, len(w.reps))
	for _, a := range w.reps {
		n, err := p.whole(a, 0, planner.MaxReps, "repetition", fmt.Sprintf("set has 1 to %d", planner.MaxReps))
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
	return p.c.Standard.Variant(said.variant)
}

// whole reads a count and refuses what is none or outside low to high.
func (p *placer) whole(a amount, low, high int, noun, limits string) (int, error) {
	if !a.whole() || a.value < float64(low) || a.value > float64(high) {
		return 0, &MisplacedError{Column: a.col, Cause: planner.Errorf(planner.Invalid, "Check the number.",
			"%s: a %s", counted(a.value, noun), limits)}
	}
	return int(a.value), nil
}

// counted writes a number with its noun, digits in full.
func counted(value float64, noun string) string {
	if value != 1 {
		noun += "s"
	}
	return figure(value) + " " + noun
}

// weight returns the load of a work in grams: 0 for the lifter's own weight with
// nothing added.
func (p *placer) weight(w *work) (planner.Grams, error) {
	switch {
	case !w.hasLoad:
		return 0, nil
	case w.load.ofTop:
		return p.ofTop(w)
	case w.load.percent:
		return p.share(w.load)
	}
	unit := w.load.unit
	if unit == "" {
		unit = w.unit
	}
	if unit == "" {
		unit = p.c.Unit
	}
	return bounded(w.load.value, unit, planner.MinWeight, planner.MaxWeight)
}

// share turns a percentage of the estimated maximum into a weight.
func (p *placer) share(a amount) (planner.Grams, error) {
	if a.value < 20 || a.value > 130 {
		return 0, invalid("Write the weight.", "%s %%: a share of the max lies between 20 %% and 130 %%", figure(a.value))
	}
	kg, ok := 0.0, false
	if p.c.Estimate != nil && p.hasLift {
		kg, ok = p.c.Estimate(p.lift.lift)
	}
	if !ok || !(kg > 0) {
		return 0, invalid("Write the weight.", "%s %%: there is no estimated max yet to take it of", figure(a.value))
	}
	return p.rounded(kg * a.value / 100), nil
}

// rounded is a weight in the usual steps of 2.5 kg or 5 lb.
func (p *placer) rounded(kg float64) planner.Grams {
	step := planner.Kilograms(2.5)
	if p.c.Unit == planner.LB {
		step = planner.Pounds(5)
	}
	n := math.Round(kg * 1000 / float64(step))
	return min(max(planner.Grams(n)*step, planner.MinWeight), planner.MaxWeight)
}
