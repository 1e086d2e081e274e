package parse

import (
	"fmt"
	"strings"
)

// eachWords say that the repetitions at the end of a row of weights were made with
// each of them.
var eachWords = setOf("ramp", "ramps", "ramped", "ramping", "each")

// leastRow is from how many weights on a row of them is one: two may be a slip.
const leastRow = 3

// series gives the weights of a row the repetitions said once for all of them: in front
// as "singles 105 110 112.5", behind as "60 80 100 x3". Without a word that says so the
// second is asked about.
func (r *reader) series() {
	for i := 0; i < len(r.items); i++ {
		w := r.items[i].work
		switch {
		case w == nil || w.void || len(w.reps) != 1 || !w.hasLoad || w.load.percent:
		case r.plural(w) && r.rowBehind(i) > 0:
			r.share(i, i, i+r.rowBehind(i))
		case r.rowBefore(i) == 0 || w.hasSets || w.missed || w.other != nil:
		case r.plural(w) || r.rowBefore(i) >= leastRow-1 && r.saysEach():
			r.share(i, i-r.rowBefore(i), i)
		case r.rowBefore(i) >= leastRow-1:
			n := r.rowBefore(i)
			for _, it := range r.items[i-n : i+1] {
				w.row = append(w.row, it.work.load)
			}
			r.items = append(r.items[:i-n], r.items[i:]...)
			i -= n
		}
	}
}

// share gives the repetitions of item i to the items from first to last.
func (r *reader) share(i, first, last int) {
	w := r.items[i].work
	if w.hasSets && int(w.sets.value) == last-first+1 {
		w.hasSets = false // "3 singles 105 110 112.5"
	}
	if w.hasSets {
		return
	}
	for _, it := range r.items[first : last+1] {
		it.work.reps, it.work.named = w.reps, w.named
	}
}

// rowBefore counts the weights without repetitions that stand right before item i.
func (r *reader) rowBefore(i int) int {
	n := 0
	for i-n-1 >= 0 && r.inRow(r.items[i-n-1].work, r.items[i-n].work) && r.items[i-n-1].work.open() {
		n++
	}
	return n
}

// rowBehind counts the weights without repetitions that stand right behind item i.
func (r *reader) rowBehind(i int) int {
	n := 0
	for i+n+1 < len(r.items) && r.inRow(r.items[i+n].work, r.items[i+n+1].work) && r.items[i+n+1].work.open() {
		n++
	}
	return n
}

// inRow tells whether nothing but signs, units and words such as "to" stands between
// the weights a and b.
func (r *reader) inRow(a, b *work) bool {
	if a == nil || b == nil || a.void || b.void || a.missed || a.other != nil || a.load.percent || b.load.percent || a.load.own || b.load.own {
		return false
	}
	for _, t := range r.tokens {
		if t.col <= a.load.col || t.col >= b.load.col || t.kind != word {
			continue
		}
		switch _, unit := r.s.lang.units[t.text]; t.text {
		case "to", "up", "and", "then":
		default:
			if !unit {
				return false
			}
		}
	}
	return true
}

// plural tells whether the repetitions of a work were said as "singles" or the like.
func (r *reader) plural(w *work) bool {
	for _, t := range r.tokens {
		if t.col == w.reps[0].col {
			return r.s.lang.reps[t.text] > 0 && strings.HasSuffix(t.text, "s")
		}
	}
	return false
}

func (r *reader) saysEach() bool {
	for _, t := range r.tokens {
		if t.kind == word && eachWords[t.text] {
			return true
		}
	}
	return false
}

// askRow asks whether the repetitions behind a row of weights were made with each.
func (p *placer) askRow(w *work) {
	var each Answer
	var weights []string
	for _, load := range w.row {
		one := *w
		one.load, one.row = load, nil
		if load.col != w.load.col {
			one.efforts, one.felt = nil, 0 // how hard it was is said of the last
		}
		sets, err := p.build(&one)
		if err != nil {
			p.r.serious = true
			p.r.refuse(load.col, err)
			return
		}
		each.Sets = append(each.Sets, sets...)
		weights = append(weights, sets[0].Weight.Text(p.unitOf(w, load)))
	}
	n := len(weights) - 1
	each.Label = "Yes, each"
	p.out.Questions = append(p.out.Questions, Question{Line: p.r.number, Column: p.r.within(w.row[0].col),
		Text:    fmt.Sprintf("Was that %s with each of %s and %s?", plural(int(w.reps[0].value), "repetition"), strings.Join(weights[:n], ", "), weights[n]),
		Answers: []Answer{each, {Label: "Only " + weights[n], Sets: each.Sets[n:]}, {Label: "No"}},
	})
}
