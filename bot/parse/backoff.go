package parse

import (
	"fmt"

	"blockbell/planner"
)

// lighter are the words around a percentage that is taken off the top set.
var lighter = setOf("drop", "dropped", "minus", "less", "down", "off", "by", "take", "took", "cut", "reduce", "reduced")

// mostOff is the largest share that is taken off a top set.
const mostOff = 60

// offTop makes a percentage that is taken off, "-10%", "10% off", "drop 10%", the
// share of the top set that is left. It returns the index behind it.
func (r *reader) offTop(a *amount, at, j int) int {
	off, behind := a.value < 0, lighter[r.tok(j).text]
	for i := at - 1; i >= at-2 && i >= 0; i-- {
		off = off || lighter[r.tok(i).text]
	}
	share := a.value
	if share < 0 {
		share = -share
	}
	if !a.percent || !off && !behind || share < 1 || share > mostOff || r.topSet() == nil {
		return j
	}
	a.value, a.ofTop = 100-share, true
	if behind {
		j++
	}
	if r.tok(j).text == "for" || r.tok(j).text == "x" {
		j++
	}
	return j
}

// topSet returns the heaviest set of the lift that the line speaks of, nil where
// there is none with a weight of its own.
func (r *reader) topSet() *work {
	var top *work
	for i := len(r.items) - 1; i >= 0 && r.items[i].work != nil; i-- {
		w := r.items[i].work
		if w.hasLoad && !w.load.percent && !w.load.own && len(w.reps) > 0 && (top == nil || w.load.value > top.load.value) {
			top = w
		}
	}
	return top
}

// backOff asks which weight a percentage behind a top set was: that of the top set,
// or of the max where it was not taken off.
func (p *placer) backOff(w *work) {
	q := Question{Line: p.r.number, Column: p.r.within(w.col), Text: "Which weight was that?"}
	add := func(of string, ofTop bool) error {
		one := *w
		one.load.ofTop = ofTop
		sets, err := p.build(&one)
		if err == nil {
			label := fmt.Sprintf("%s, %s %% of %s", sets[0].Weight.Text(p.c.Unit), figure(w.load.value), of)
			q.Answers = append(q.Answers, Answer{Label: label, Sets: sets})
		}
		return err
	}
	if err := add("the top set", true); err != nil {
		p.r.refuse(w.col, err)
		return
	}
	if !w.load.ofTop {
		_ = add("your max", false) // where there is no estimate there is one answer less
	}
	q.Answers = append(q.Answers, Answer{Label: "Neither"})
	p.out.Questions = append(p.out.Questions, q)
}

// ofTop is the share of the top set that a back-off set was done with.
func (p *placer) ofTop(w *work) (planner.Grams, error) {
	top := *w.top
	top.top = nil
	g, err := p.weight(&top)
	if err != nil {
		return 0, err
	}
	return p.rounded(g.Kg() * w.load.value / 100), nil
}
