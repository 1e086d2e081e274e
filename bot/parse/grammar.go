package parse

// numberAt reads what a number at the current place begins: a chain with
// multiplication signs, repetitions over a slash, "3 sets of 5", an effort, a list
// of repetitions, or a bare weight.
func (r *reader) numberAt() {
	sure := r.sure
	r.sure = false
	list := r.last.open() || r.ownLift()
	a, j := r.amount(r.i, !list)
	if list {
		// "10,8" of pull-ups is a list, "92,5x3" and "92,5 kg" are not.
		if b, k := r.amount(r.i, true); k != j && (r.isSign(k, times) || b.unit != "") {
			a, j = b, k
		}
	}
	next := r.tok(j)
	switch {
	case r.passing(j):
		r.now().unknown++
		r.i = j + 1
	case r.effortBehind(a, j):
	case next.kind == sign && next.text == times && r.isNumber(j+1):
		r.chain(a, j)
	case next.kind == sign && next.text == times && r.isOwn(j+1):
		r.i = j + 1 // "5 x bw": the word adds itself
		r.lone(a, j, false)
	case next.kind == sign && next.text == "/" && r.tok(j+1).kind == num:
		r.slash(a, j)
	case next.text == "sets" || next.text == "set":
		r.setsOf(a, j+1)
	case next.text == "reps" || next.text == "rep":
		r.reps([]amount{a}, j+1)
	case next.kind == sign && next.text == "@" && !a.load() && r.loadAt(j+1):
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
	return t.kind == word && passing[t.text] || t.kind == comment && t.glued
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

// chain reads numbers joined by multiplication signs.
func (r *reader) chain(a amount, j int) {
	all := []amount{a}
	own := false
	for r.isSign(j, times) {
		if r.isOwn(j + 1) {
			own, j = true, j+2
			break
		}
		if !r.isNumber(j+1) || len(all) == 4 {
			break
		}
		// Only a third number can be a weight with a comma; the second is
		// repetitions, and what follows its comma is a list.
		var b amount
		b, j = r.amount(j+1, len(all) == 2)
		if r.between(j) {
			r.ranged(b)
			_, r.i = r.amount(j+1, false)
			return
		}
		b.noun, j = r.noun(j)
		all = append(all, b)
	}
	w := work{col: a.col, own: own}
	if !r.arrange(&w, all) {
		r.now().works++ // it was meant as one
		r.i = j
		return
	}
	if w.hasLoad && len(all) == 2 {
		w.reps, j = r.list(w.reps[0], j)
	}
	r.add(w, j, false)
}

// arrange says which number of a chain is what: weight first means weight x
// repetitions x sets, without a weight in front sets x repetitions [x weight].
func (r *reader) arrange(w *work, all []amount) bool {
	first := all[0]
	switch {
	case len(all) == 1: // "5 x bw"
		w.reps = all
	case len(all) == 2 && first.load():
		w.load, w.hasLoad, w.reps = first, true, all[1:]
	case len(all) == 2 && all[1].unit != "":
		w.load, w.hasLoad, w.reps, w.doubtful = all[1], true, all[:1], true
	case len(all) == 2:
		w.sets, w.hasSets, w.reps = first, true, all[1:]
	case len(all) == 3 && first.load() && (all[1].noun == "sets" || all[2].noun == "reps"):
		w.load, w.hasLoad, w.sets, w.reps, w.hasSets = first, true, all[1], all[2:], true
	case len(all) == 3 && first.load():
		w.load, w.hasLoad, w.reps, w.sets, w.hasSets = first, true, all[1:2], all[2], true
		w.swapped = all[1].value != all[2].value && all[2].noun == ""
	case len(all) == 3 && all[2].load():
		w.sets, w.hasSets, w.reps, w.load, w.hasLoad = first, true, all[1:2], all[2], true
	case len(all) == 3:
		r.problem(first.col, "Write the unit behind the weight, for example 5 x 5 x 15kg.", "It is not clear which of these numbers is the weight")
		return false
	default:
		r.problem(first.col, "Write weight x repetitions x sets, for example 100x5x3.", "Too many numbers are multiplied here")
		return false
	}
	return true
}

// list reads further repetitions behind commas: "5,5,4". A number that begins
// something of its own ends the list before its comma.
func (r *reader) list(first amount, j int) ([]amount, int) {
	reps := []amount{first}
	for (r.isSign(j, ",") || r.isSign(j, "/")) && r.tok(j+1).kind == num && len(reps) < 30 {
		b, k := r.amount(j+1, false)
		if b.load() || !b.whole() || r.begins(k) {
			break
		}
		reps = append(reps, b)
		j = k
	}
	return reps, j
}

// begins tells whether what stands at i makes the number before it the start of
// something new.
func (r *reader) begins(i int) bool {
	t := r.tok(i)
	switch t.text {
	case times, "sets", "set", "%", "@":
		return t.text != "@" || r.loadAt(i+1)
	case "in", "left", "rir", "rpe", "reps", "rep", "for":
		return true
	}
	return r.passing(i)
}

// slash reads "140/5", weight over repetitions, and "2/3 at 150", repetitions made
// of those tried. "3/5" alone can be two things.
func (r *reader) slash(a amount, j int) {
	b, k := r.amount(j+1, false)
	switch {
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
		if r.fraction(a) {
			r.i = k
			return
		}
	}
	r.now().unknown++
	r.i = k
}

// fraction asks what "3/5" means where a lift has been named.
func (r *reader) fraction(a amount) bool {
	if !r.hasLift() || r.now().unknown > 0 {
		return false
	}
	r.asked = append(r.asked, Question{Line: r.number, Column: r.within(a.col),
		Text: "Sets of repetitions, or repetitions made? Write 3x5 @ 100 for sets of five, or 2/3 at 150 for two made of three."})
	return true
}

// setsOf reads what follows "3 sets": "of five at 100", "x 5", "5 reps".
func (r *reader) setsOf(a amount, j int) {
	for r.tok(j).text == "of" || r.tok(j).text == times || r.tok(j).text == "for" {
		j++
	}
	b, k, ok := r.count(j)
	if !ok || b.value >= leastLoad {
		// "140 5 reps 3 sets": the number counts the sets before it.
		if w := r.last; w != nil && len(w.reps) == 1 && !w.hasSets {
			w.sets, w.hasSets = a, true
		}
		r.i = j
		return
	}
	_, k = r.noun(k)
	r.add(work{col: a.col, sets: a, hasSets: true, reps: []amount{b}}, k, true)
}

// noun reads "sets" or "reps" behind a number.
func (r *reader) noun(j int) (string, int) {
	switch r.tok(j).text {
	case "sets", "set":
		return "sets", j + 1
	case "reps", "rep":
		return "reps", j + 1
	}
	return "", j
}

// between tells whether a range such as "8-10" goes on at i.
func (r *reader) between(i int) bool {
	t := r.tok(i + 1)
	return r.isSign(i, "-") && r.tok(i).glued && t.kind == num && t.glued && t.value < leastLoad && !r.isSign(i+2, times)
}

func (r *reader) ranged(a amount) {
	r.problem(a.col, "Write the repetitions made, for example 100x8.", "A range is no number of repetitions")
	r.now().works++ // it was meant as one
}

// count reads a number of repetitions in digits or as a word.
func (r *reader) count(i int) (amount, int, bool) {
	t := r.tok(i)
	if t.kind == num {
		a, j := r.amount(i, false)
		return a, j, a.whole()
	}
	n, ok := numberWords[t.text]
	if !ok || t.text == "a" || t.text == "an" {
		n, ok = repWords[t.text]
	}
	return amount{value: float64(n), col: t.col}, i + 1, ok && t.kind == word
}

// reps gives repetitions to the weight before them, or begins a work with them.
func (r *reader) reps(reps []amount, j int) {
	if r.last.open() {
		r.last.reps, r.i = reps, j
		return
	}
	r.add(work{col: reps[0].col, reps: reps}, j, true)
}

// repsAt reads "5 @ 100".
func (r *reader) repsAt(a amount, j int) {
	w := work{col: a.col, reps: []amount{a}, hasLoad: true}
	w.load, j = r.amount(j, true)
	r.begin(w)
	r.i = j
}

// add begins a work, looking for its weight behind it where it has none, or joins
// it to the bare weight before it: there the weight came first, so "100 5x3" is
// five repetitions in three sets, unless it is spelled out as "3 sets of 5".
func (r *reader) add(w work, j int, spelled bool) {
	if !w.hasLoad && !w.own {
		j = r.weightBehind(&w, j)
	}
	if !w.hasLoad && !w.own && r.last.open() {
		l := r.last
		l.reps, l.sets, l.hasSets = w.reps, w.sets, w.hasSets
		if w.hasSets && !spelled {
			l.reps, l.sets = []amount{w.sets}, w.reps[0]
			l.swapped = w.sets.value != w.reps[0].value
		}
		r.i = j
		return
	}
	r.begin(w)
	r.i = j
}

// weightBehind reads the weight that follows sets and repetitions: "@ 82,5",
// "at 150", "with 60kg", or just the number.
func (r *reader) weightBehind(w *work, j int) int {
	k := j
	signed := r.isSign(k, "@")
	if t := r.tok(k); signed || t.text == "at" || t.text == "with" || t.text == "w" || t.text == "on" {
		k++
	}
	if r.isOwn(k) {
		w.own = true
		return k + 1
	}
	if r.tok(k).kind != num {
		return j
	}
	a, next := r.amount(k, true)
	if r.isSign(next, times) || r.isSign(next, "/") || r.passing(next) {
		return j
	}
	if !a.load() && !(signed && a.value > 10) {
		return j
	}
	w.load, w.hasLoad = a, true
	// "3x5 @ 100, 105, 110" is more than one weight.
	for r.isSign(next, ",") && r.tok(next+1).kind == num {
		b, k := r.amount(next+1, false)
		if !b.load() || r.begins(k) || r.isSign(k, "/") {
			break
		}
		w.load.twice, next = true, k
	}
	return next
}
