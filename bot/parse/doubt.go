package parse

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/planner"
)

// Loads outside these shares of the lifter's best are asked about before they
// count.
const (
	FarAbove = 1.25
	FarBelow = 0.30
)

// Sets that would make more than manyShare of the best, each repetition counted as a
// thirtieth (Epley 1985), are asked about; of at least longReps repetitions only above
// longShare, since that formula makes too much of long sets. A told best may be old,
// which the shares allow for (common practice).
const (
	manyReps  = 2
	manyShare = 1.4
	longReps  = 12
	longShare = 1.6
)

// tooMany tells whether nobody with that best makes so many repetitions.
func tooMany(s planner.Set, best planner.Grams) bool {
	share := manyShare
	if s.Reps >= longReps {
		share = longShare
	}
	return best > 0 && s.Reps >= manyReps && float64(s.Weight)*(1+float64(s.Reps)/30) > share*float64(best)
}

// askMany asks about the sets of unlikely many repetitions.
func (p *placer) askMany() {
	for k, i := range p.many.index {
		set := p.out.Sets[i]
		set.Pending = false
		q := Question{Line: p.r.number, Column: p.r.within(p.many.typed[k].col), Sets: []int{i},
			Text: fmt.Sprintf("%s with your best %s of %s: is it right?", p.say(set), set.Lift, p.best(set.Lift).Text(p.c.Unit))}
		q.Answers = p.slips(&doubt{index: []int{i}, typed: p.many.typed[k : k+1]})
		q.Answers = append(q.Answers, Answer{Label: fmt.Sprintf("Yes, %s", plural(set.Reps, "repetition")), Sets: []planner.Set{set}}, Answer{Label: "No"})
		p.out.Questions = append(p.out.Questions, q)

	}
}

// doubt gathers the pending sets of a line that share a question.
type doubt struct {
	col   int
	index []int
	typed []amount
}

// missedOne asks which of several sets was missed.
func (p *placer) missedOne(w *work, sets []planner.Set) {
	if len(sets) == 1 { // with an effort for each set the last is apart already
		made, last := sets[0], sets[0]
		made.Missed, made.Reps = false, int(w.reps[0].value)
		made.Sets--
		last.Sets = 1
		sets = []planner.Set{made, last}
	}
	p.out.Questions = append(p.out.Questions, Question{
		Line: p.r.number, Column: p.r.within(w.col), Text: "Was it the last repetition of the last set that was missed?",
		Answers: []Answer{{Label: "Yes", Sets: sets}, {Label: "No, I write it anew"}},
	})
}

// far returns the doubt a weight raises against the best, nil for none.
func (p *placer) far(weight, best planner.Grams) *doubt {
	switch {
	case best <= 0 || weight <= 0:
		return nil
	case float64(weight) > FarAbove*float64(best):
		return &p.heavy
	case float64(weight) < FarBelow*float64(best):
		return &p.light
	}
	return nil
}

func (d *doubt) add(index int, w *work) {
	if len(d.index) == 0 {
		d.col = w.load.col
	}
	typed := w.load
	if typed.unit == "" {
		typed.unit = w.unit
	}
	d.index = append(d.index, index)
	d.typed = append(d.typed, typed)
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
	p.askMany()
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
		no := "No"
		kept := Answer{Label: "Yes, " + first.Weight.Text(p.c.Unit)}
		for _, i := range d.index {
			set := p.out.Sets[i]
			set.Pending = false
			kept.Sets = append(kept.Sets, set)
		}
		meant, inUnit := p.meant(d.doubt)
		if len(meant) > 0 {
			did := "Did you mean " + meant[0].Label
			for _, m := range meant[1:] {
				did += " or " + m.Label
			}
			q.Text = strings.Replace(q.Text, "Is it right?", did+"?", 1)
			q.Answers = append(q.Answers, meant...)
			if inUnit {
				q.Text, kept.Label, no = did+"?", "No, "+first.Weight.Text(p.c.Unit), "Neither"
			}
		}
		q.Answers = append(q.Answers, kept, Answer{Label: no})
		if d.doubt == &p.light {
			p.session.light = append(p.session.light, len(p.out.Questions))
		}
		p.out.Questions = append(p.out.Questions, q)
	}
}

// meant lists what may have been meant by the loads of a doubt: the other unit, and
// where that is not likely a slip of the thumb. inUnit: the first is the other unit.
func (p *placer) meant(d *doubt) (all []Answer, inUnit bool) {
	swapped, ok := p.inOtherUnit(d)
	switch {
	case !ok:
		return p.slips(d), false
	case slices.ContainsFunc(swapped.Sets, func(s planner.Set) bool { return !p.likely(s) }):
		return append([]Answer{swapped}, p.slips(d)...), true
	}
	return []Answer{swapped}, true
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
		if d.typed[k].unit != "" || set.Weight > planner.MaxWeight || set.Weight < planner.MinWeight ||
			p.far(set.Weight, p.best(set.Lift)) != nil {
			return Answer{}, false
		}
		a.Sets = append(a.Sets, set)
	}
	return a, true
}
