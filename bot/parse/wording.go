package parse

import "blockbell/planner"

// wordAt reads a word that is no lift.
func (r *reader) wordAt(t token) {
	r.now().words++
	switch {
	case r.dateWords():
	case t.text == "bw" || t.text == "bodyweight":
		r.ownWeight()
	case t.text == "weighed":
		r.weighed(r.i + 1)
	case t.text == "rpe" || t.text == "rir":
		r.effortWord(t)
	case r.refusedLift(), r.amends(), r.fellShort(), r.trying(), r.notDone(t), r.perSide():
	case r.contrast(t):
	case r.leftInWords(), r.felt():
	case t.text == "twice" && r.missedSets(2, r.i+1), r.spelledSets():
	case r.repWord(t):
	case r.formBehind(), r.misspelt():
	default:
		r.meant(t)
	}
}

// meant acts on a word of the vocabulary.
func (r *reader) meant(t token) {
	m, n := r.s.lang.meaningAt(r.tokens, r.i)
	r.now().words += n - 1
	r.i += n - 1
	switch m {
	case unknown:
		if r.s.lang.plays(kin, t.text) {
			r.somebody()
		} else {
			r.stranger(t)
		}
	case neutral:
		r.sure = t.text == "for" && r.last.open()
	case intent:
		r.intends(t)
	case gone:
		r.void = r.void || r.works() == 0
		r.now().unknown++
	case other:
		if c := r.now(); c.works == 0 {
			c.void = true
			c.denies = c.words == 1 && t.text == "not"
		}
		r.now().unknown++
	case separate:
		r.split()
	case missing:
		r.miss()
		return
	case making:
		r.madeOnly()
		return
	case failing:
		if r.last != nil {
			r.last.amrap = true
		}
	case gear:
		r.gearWord(t)
	}
	r.i++
}

// intends notes a word about the future. In front of all sets it makes the line
// talk; behind a set only the plain ones do.
func (r *reader) intends(t token) {
	c := r.now()
	if r.works() == 0 {
		r.void = true
		r.s.planning = r.s.planning || r.isHeading()
	}
	switch {
	case c.works == 0:
		c.void = true
		c.future = c.future || c.words <= 2
	case r.s.lang.plays(lasting, t.text) && !r.isNumber(r.i+2):
		c.late = true
	}
}

// contrast reads what was not done behind what was: "140x5 instead of 150x5",
// "140x5 (planned 145x5)".
func (r *reader) contrast(t token) bool {
	if !r.s.lang.plays(contrasting, t.text) || r.now().works == 0 || !r.isNumber(r.i+1) && !r.isNumber(r.i+2) {
		return false
	}
	r.split()
	r.now().void = true
	r.i++
	return true
}

// notDone reads "no squat": sets that follow are none of today.
func (r *reader) notDone(t token) bool {
	c := r.now()
	switch {
	case t.text == "no" && r.tok(r.i+1).text == "belt":
		r.i += 2 // not the belt squat
		return true
	case t.text == "no" && r.liftAt(r.i+1):
	default:
		return false
	}
	c.void = c.void || c.works == 0
	c.unknown++
	r.i++
	return true
}

// perSide reads "60kg per side": with a bar that is not the weight lifted.
func (r *reader) perSide() bool {
	a, b := r.tok(r.i).text, r.tok(r.i+1).text
	if a != "per" && a != "each" && a != "a" || b != "side" && b != "end" {
		return false
	}
	said, ok := r.current()
	if w := r.last; ok && said.lift.Competition() && w != nil && w.hasLoad {
		r.quoted(w.load.col, "Write the whole weight with the bar.", "the weight of one side is not the weight lifted")
		w.void = true
	}
	r.now().unknown++
	r.i += 2
	return true
}

// works counts the sets read so far.
func (r *reader) works() int {
	n := 0
	for i := range r.clauses {
		n += r.clauses[i].works
	}
	return n
}

// isHeading tells whether the line ends with a colon behind the current word, so
// that what it says holds for the lines below.
func (r *reader) isHeading() bool {
	last := len(r.tokens) - 1
	return r.isSign(last, ":") || r.i == last && last == 0
}

// spelledSets reads "three sets of five", and "five" behind "for".
func (r *reader) spelledSets() bool {
	a, j, ok := r.count(r.i)
	if !ok {
		return false
	}
	switch t := r.tok(j).text; {
	case t == "sets" || t == "set":
		r.setsOf(a, j+1)
	case (t == "reps" || t == "rep") && a.value > 0:
		r.reps([]amount{a}, j+1)
	case r.sure && r.last.open():
		r.sure = false
		r.reps([]amount{a}, j)
	case (t == "@" || t == "at") && r.loadAt(j+1) && !r.last.open():
		named := r.s.lang.reps[r.tok(r.i).text] > 0
		r.repsAt(a, j+1)
		r.last.named = named
	default:
		return false
	}
	return true
}

// repWord reads "double" as the repetitions of the weight before it, or of the
// bare weight that follows.
func (r *reader) repWord(t token) bool {
	n, ok := r.s.lang.reps[t.text]
	if !ok {
		return false
	}
	a := amount{value: float64(n), col: t.col}
	if w := r.last; w.open() {
		w.reps = []amount{a}
		if r.setsNext != nil && !w.hasSets { // "65 for 5 singles"
			w.sets, w.hasSets, r.setsNext = *r.setsNext, true, nil
		}
	} else {
		r.repsNext = &a
	}
	r.i++
	return true
}

// miss notes that the lift before was missed, or the one that follows where
// nothing stands before in the clause.
func (r *reader) miss() {
	r.i++
	if n, next, ok := r.ordinal(r.i); ok && r.missedAt(n, next) {
		return
	}
	next := r.isNumber(r.i)
	if r.last == nil || r.now().works == 0 && next {
		r.missed = true
		return
	}
	r.last.missed = true
	if p := r.tok(r.i - 2).text; p == "all" || p == "both" {
		r.last.every = true
	}
}

// madeOnly reads "got 2": the repetitions really made of those written before.
func (r *reader) madeOnly() {
	j := r.i + 1
	for r.tok(j).text == "only" || r.tok(j).text == "got" {
		j++
	}
	a, k := r.amount(j, false)
	w := r.last
	if r.tok(j).kind == num && r.lastShort(a, k) {
		r.i = k
		return
	}
	if r.tok(j).kind != num || w == nil || len(w.reps) != 1 || w.hasSets || !a.whole() || a.value > w.reps[0].value || r.begins(k) {
		r.i++
		return
	}
	w.tried, w.reps = int(w.reps[0].value), []amount{a}
	r.i = k
}

// gearWord notes supportive gear: of the set before it, else of the line.
func (r *reader) gearWord(t token) {
	g := planner.SinglePly
	if t.text == "wraps" || t.text == "wrapped" {
		g = planner.Wraps
	}
	if p := r.tok(r.i - 1).text; p == "no" || p == "without" {
		return
	}
	if r.last != nil {
		r.last.gear = g
		return
	}
	r.gear = g
}
