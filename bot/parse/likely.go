package parse

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"blockbell/planner"
)

// A load that was meant lies between these shares of the lifter's best, the second
// with its repetitions counted (common practice).
const (
	leastLikely = 0.50
	mostLikely  = 1.10
)

// mostSlips is how many slips are offered at most; more would be guessing.
const mostSlips = 2

// slips returns the sets of a doubt as they would be if one slip of the thumb were
// undone: two digits swapped, one typed twice or too often, the key beside the first, a
// decimal sign or the last zero left out. Only weights that the lifter may well have moved, and that
// plates make, are offered.
func (p *placer) slips(d *doubt) []Answer {
	if len(d.index) != 1 {
		return nil
	}
	set, typed := p.out.Sets[d.index[0]], d.typed[0]
	unit := typed.unit
	if unit == "" {
		unit = p.c.Unit
	}
	var out []Answer
	for _, v := range meantBy(typed.value, d == &p.light) {
		set.Weight, set.Pending = planner.In(unit, v), false
		if p.likely(set) && platesMake(v, unit) && len(out) < mostSlips {
			out = append(out, Answer{Label: strconv.FormatFloat(v, 'f', -1, 64) + " " + string(unit), Sets: []planner.Set{set}})
		}
	}
	return out
}

// slipped asks whether a weight that nobody lifts is one with a slip in it; false
// where no slip explains it.
func (p *placer) slipped(w *work) bool {
	return p.hasLift && w.hasLoad && !w.load.percent && w.load.value > 0 && p.askSlip(w, w.load, false)
}

// lostZero asks whether a number of sets that nobody does was a weight without its
// last digit: "squat 15x5".
func (p *placer) lostZero(w *work) bool {
	return w.hasSets && w.sets.value > mostSets && w.sets.value < leastLoad && len(w.reps) == 1 && p.lift.lift.Competition() && p.askSlip(w, w.sets, true)
}

// mostSets is the highest number of equal sets that is read without a weight.
const mostSets = 12

func (p *placer) askSlip(w *work, typed amount, light bool) bool {
	q := Question{Line: p.r.number, Column: p.r.within(typed.col), Text: "Did you mean "}
	for _, v := range meantBy(typed.value, light) {
		one := *w
		one.load, one.hasLoad = typed, true
		one.load.value = v
		one.hasSets = w.hasSets && !light
		if unit := p.unitOf(w, typed); !platesMake(v, unit) || len(q.Answers) == mostSlips {
			continue
		}
		sets, err := p.build(&one)
		if err != nil || slices.ContainsFunc(sets, func(s planner.Set) bool { return !p.likely(s) }) {
			continue
		}
		if len(q.Answers) > 0 {
			q.Text += " or "
		}
		q.Text += p.words(sets)
		q.Answers = append(q.Answers, Answer{Label: sets[0].Weight.Text(p.unitOf(w, typed)), Sets: sets})
	}
	if len(q.Answers) == 0 {
		return false
	}
	q.Text += "?"
	q.Answers = append(q.Answers, Answer{Label: "No"})
	p.out.Questions = append(p.out.Questions, q)
	return true
}

// likely tells whether the lifter may well have lifted a set, by their best and the
// rough rule that each repetition more is worth a thirtieth (Epley 1985).
func (p *placer) likely(s planner.Set) bool {
	best := float64(p.best(s.Lift))
	w := float64(s.Weight)
	return w >= leastLikely*best && w*(1+float64(max(s.Reps-1, 0))/30) <= mostLikely*best
}

// platesMake tells whether usual plates make a weight: steps of 2.5 kg or 5 lb.
func platesMake(v float64, unit planner.Unit) bool {
	step := 2.5
	if unit == planner.LB {
		step = 5
	}
	return math.Abs(v/step-math.Round(v/step)) < 1e-9
}

// meantBy lists the numbers that one slip may have made into v, the likeliest
// first.
func meantBy(v float64, light bool) []float64 {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if strings.Contains(text, ".") || len(text) > 5 || v <= 0 {
		return nil
	}
	var all []float64
	add := func(digits string) {
		if n, err := strconv.ParseFloat(digits, 64); err == nil && n != v && !slices.Contains(all, n) {
			all = append(all, n)
		}
	}
	if light {
		if v < leastLoad { // lighter than the empty bar
			add(text + "0")
		}
		return all
	}
	for i := 1; i < len(text); i++ {
		if text[i] == text[i-1] {
			add(text[:i] + text[i+1:])
		}
	}
	for i := 1; i < len(text); i++ {
		add(text[:i-1] + text[i:i+1] + text[i-1:i] + text[i+1:])
	}
	add(text[:len(text)-1] + "." + text[len(text)-1:])
	if len(text) == 3 && text[0] > '1' {
		add(string(text[0]-1) + text[1:]) // the key beside it
	}
	for i := range text {
		add(text[:i] + text[i+1:])
	}
	return all
}
