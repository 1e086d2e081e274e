package parse

// numberAt reads what a number at the current place begins: a chain with
// multiplication signs, repetitions over a slash, "3 sets of 5", an effort, a list
// of repetitions, or a bare weight.
func (r *reader) numberAt() {
	sure := r.sure
	r.sure = false
	list := r.last.open() || r.ownLift()
	at := r.i
	a, j := r.amount(r.i, !list)
	if list {
		// "10,8" of pull-ups is a list, "92,5x3" and "92,5 kg" are not.
		if b, k := r.amount(r.i, true); k != j && (r.isSign(k, times) || b.unit != "") {
			a, j = b, k
		}
	}
	if low, high, k, ok := r.rangeAt(a, j); ok {
		a, j, r.lower = high, k, &low
	}
	j = r.offTop(&a, at, j)
	next := r.tok(j)
	switch {
	case r.votesAhead(), r.missedTimes(at, j):
	case r.dateBehind():
	case r.moreSets(a, j), r.repsList(a, at, j):
	case next.text == "times" && r.last.open() && r.hasLift() && a.whole() && !a.load():
		r.reps([]amount{a}, j+1) // "100 kg 5 times"
		r.last.doubtful = true
	case r.namedSets(a, j):
	case next.text == "more" && r.effortBehind(a, j): // "had 2 more in me"
	case r.passing(j):
		r.now().unknown++
		r.i = j + 1
	case r.lights(j) != "" && a.whole():
		r.lit(a.value, j)
	case r.effortBehind(a, j):
	case next.kind == sign && next.text == times && r.isNumber(j+1):
		r.chain(a, j, sure)
	case next.kind == sign && next.text == times && r.isSign(j+1, "(") && r.isNumber(j+2) && a.whole() && !a.load() && !r.last.open():
		r.setsNext, r.i = &a, j+2 // "2x(140x5)"
	case next.kind == sign && next.text == times && r.isOwn(j+1):
		r.i = j + 1 // "5 x bw": the word adds itself
		r.lone(a, j, false)
	case next.kind == sign && next.text == "/" && r.tok(j+1).kind == num:
		r.slash(a, j)
	case next.text == "sets" || next.text == "set":
		r.setsOf(a, j+1)
	case next.text == "reps" || next.text == "rep":
		r.reps([]amount{a}, j+1)
	case (next.kind == sign && next.text == "@" || next.text == "at") && !a.load() && r.loadAt(j+1):
		r.repsAt(a, j+1)
	default:
		r.lone(a, j, sure)
	}
}

// ownLift tells whether the lift spoken of is done with the lifter's own weight.
func (r *reader) ownLift() bool {
	said, ok := r.current()
	return ok && said.own
}

// passing tells whether a noun at i makes the number before it no load.
func (r *reader) passing(i int) bool {
	t := r.tok(i)
	return t.kind == word && r.s.lang.plays(passing, t.text) || t.kind == comment && t.glued
}

// loadAt tells whether the number at i is a weight when it stands behind an at
// sign: efforts end at 10.
func (r *reader) loadAt(i int) bool {
	if r.tok(i).kind != num {
		return false
	}
	a, _ := r.amount(i, true)
	return a.unit != "" || a.percent || a.value > 10
}

// slash reads "140/5", weight over repetitions, and "2/3 at 150", repetitions made
// of those tried. "3/5" alone can be two things.
func (r *reader) slash(a amount, j int) {
	b, k := r.amount(j+1, false)
	switch {
	case a.load() && b.value >= leastLoad && r.isSign(k, "/") && r.tok(k+1).kind == num && r.tok(k+1).value >= leastLoad:
		r.severalWeights(a, k)
		return
	case a.load():
		w := work{col: a.col, load: a, hasLoad: true, reps: []amount{b}}
		if r.isSign(k, "/") && r.tok(k+1).kind == num {
			w.sets, k = r.amount(k+1, false)
			w.hasSets, w.swapped = true, w.sets.value != b.value
		}
		r.add(w, k, false)
		return
	case r.last.open() && !b.load() && a.whole() && b.whole():
		// "80 8/8/6"; two numbers alone are asked about.
		reps, next := r.list(a, j)
		r.last.reps, r.last.doubtful, r.i = reps, len(reps) == 2, next
		return
	case !b.load() && (b.whole() && a.whole()):
		w := work{col: a.col, reps: []amount{a}, tried: int(b.value)}
		if next := r.weightBehind(&w, k); w.hasLoad && a.value <= b.value {
			r.begin(w)
			r.i = next
			return
		}
		if r.dateBetween(k) {
			return
		}
		if r.fraction(a) {
			r.i = k
			return
		}
	}
	r.now().unknown++
	r.i = k
}

// severalWeights refuses "140/150/160x1" up to its repetitions.
func (r *reader) severalWeights(a amount, k int) {
	r.quoted(a.col, "Write one weight for each set, for example 140x1, 150x1.", "several weights stand there")
	r.now().works++ // it was meant as a set
	for (r.isSign(k, "/") || r.isSign(k, times)) && r.tok(k+1).kind == num {
		_, k = r.amount(k+1, false)
	}
	r.i = k
}

// fraction asks what "3/5" means where a lift has been named.
func (r *reader) fraction(a amount) bool {
	if !r.hasLift() || r.now().unknown > 0 || r.works() > 0 {
		return false
	}
	r.asked = append(r.asked, Question{Line: r.number, Column: r.within(a.col),
		Text: "Sets of repetitions, or repetitions made? Write 3x5 @ 100 for sets of five, or 2/3 at 150 for two made of three."})
	return true
}
