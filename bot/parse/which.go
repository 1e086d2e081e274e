package parse

import "blockbell/planner"

// otherLifts returns the lifts named right before the one that item i of the line
// stands for, with nothing but a stroke, a comma or "and" between them: then it is
// not clear whose set follows.
func (r *reader) otherLifts(items []item, i int) []spoken {
	var list []spoken
	for ; i > 0 && items[i].said != nil && items[i-1].said != nil; i-- {
		a, b := items[i-1].said, items[i].said
		if a.clause < len(r.clauses) && r.clauses[a.clause].void || !r.joined(a.to, b.from) || a.lift == b.lift && a.variant == b.variant {
			break
		}
		list = append([]spoken{*a}, list...)
	}
	return list
}

// joined tells whether the tokens between two lifts leave both standing.
func (r *reader) joined(from, to int) bool {
	for ; from < to; from++ {
		switch r.tok(from).text {
		case "/", ",", "+", "&", "|", "or", "and", "n", "-":
		default:
			return false
		}
	}
	return true
}

// paired tells whether the line names n lifts, joined, and behind them as many sets:
// "squat/bench/deadlift 140x5/100x5/180x5". Then each lift has its own.
func (r *reader) paired() (n int, ok bool) {
	n = len(r.items) / 2
	if n < 2 || len(r.items) != 2*n {
		return 0, false
	}
	for i, it := range r.items {
		switch {
		case i < n && it.said == nil, i >= n && (it.work == nil || it.work.void || !it.work.hasLoad || len(it.work.reps) == 0):
			return 0, false
		case i > 0 && i < n && !r.joined(r.items[i-1].said.to, it.said.from):
			return 0, false
		}
	}
	return n, true
}

// candidates returns the other lifts a work could belong to: without a weight on it
// only those done with the lifter's own.
func (p *placer) candidates(w *work) []spoken {
	var list []spoken
	for _, lift := range p.among {
		if lift.own || w.hasLoad && !w.load.own {
			list = append(list, lift)
		}
	}
	return list
}

// whichLift asks which of several lifts the sets that follow were.
func (p *placer) whichLift(w *work) {
	q := Question{Line: p.r.number, Column: p.r.within(w.col), Text: "Which lift was that?"}
	said, among := p.lift, p.candidates(w)
	for _, lift := range append(among, said) {
		p.lift = lift
		sets, err := p.build(w)
		if err != nil {
			p.r.serious = true
			p.r.refuse(w.col, err)
			break
		}
		label := string(lift.lift)
		if v := p.variant(w); v != "" {
			label = string(v) + " " + label
		}
		q.Answers = append(q.Answers, Answer{Label: label, Sets: sets})
	}
	p.lift = said
	if len(q.Answers) > len(among) {
		q.Answers = append(q.Answers, Answer{Label: "None"})
		p.out.Questions = append(p.out.Questions, q)
	}
}

// whichWeight asks which end of "140-145" was on the bar.
func (p *placer) whichWeight(w *work) {
	q := Question{Line: p.r.number, Column: p.r.within(w.col), Text: "Which weight was that?"}
	for _, a := range []amount{*w.other, w.load} {
		one := *w
		one.load, one.other = a, nil
		sets, err := p.build(&one)
		if err != nil {
			p.r.serious = true
			p.r.refuse(a.col, err)
			return
		}
		label := sets[0].Weight.Text(p.unitOf(w, a))
		q.Answers = append(q.Answers, Answer{Label: label, Sets: sets})
	}
	q.Answers = append(q.Answers, Answer{Label: "Neither"})
	p.out.Questions = append(p.out.Questions, q)
}

// unitOf returns the unit of a weight that a work was written with.
func (p *placer) unitOf(w *work, a amount) planner.Unit {
	switch {
	case a.unit != "":
		return a.unit
	case w.unit != "":
		return w.unit
	}
	return p.c.Unit
}

// widest is how far two weights of one range lie apart at most, as a ratio.
const widest = 1.25

// rangeAt reads the second of two weights, "140-145" or "140/145", whose first is
// a and ends before token j. Both get the unit that either names.
func (r *reader) rangeAt(a amount, j int) (low, high amount, next int, ok bool) {
	dash, stroke := r.isSign(j, "-"), r.isSign(j, "/")
	if !dash && !stroke || r.tok(j+1).kind != num || r.tok(j).glued != r.tok(j+1).glued || a.percent || a.value < leastLoad {
		return a, a, j, false
	}
	b, k := r.amount(j+1, true)
	if b.percent || b.value < leastLoad || b.value > widest*a.value || a.value > widest*b.value || a.value == b.value || r.passing(k) {
		return a, a, j, false
	}
	if stroke && !r.isSign(k, times) {
		return a, a, j, false // "25/20 squat" is weight over repetitions
	}
	if a.unit == "" {
		a.unit = b.unit
	}
	return a, b, k, true
}
