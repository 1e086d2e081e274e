package parse

import (
	"strings"

	"blockbell/planner"
)

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
		} else if w == nil && ok {
			r.setsNext = &a // "3 sets 140x5"
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

// count reads a number of repetitions in digits or as a word.
func (r *reader) count(i int) (amount, int, bool) {
	t := r.tok(i)
	if t.kind == num {
		a, j := r.amount(i, false)
		return a, j, a.whole()
	}
	n, ok := r.s.lang.numbers[t.text]
	if !ok {
		n, ok = r.s.lang.reps[t.text]
	}
	return amount{value: float64(n), col: t.col}, i + 1, ok && t.kind == word
}

// namedSets reads how many sets there are of what has a name: "5 singles at 65", "2 back
// offs of 5 at 115", "2 drop sets 115x5".
func (r *reader) namedSets(a amount, j int) bool {
	if !a.whole() || a.load() || a.value < 1 || a.value > mostSets {
		return false
	}
	if t := r.tok(j).text; r.s.lang.reps[t] > 0 && strings.HasSuffix(t, "s") && r.hasLift() {
		r.setsNext, r.i = &a, j
		return true
	}
	k := j
	for r.tok(k).text == "back" || r.tok(k).text == "drop" || r.tok(k).text == "down" || r.tok(k).text == "backoff" {
		k++
	}
	switch t := r.tok(k).text; {
	case k > j && (t == "offs" || t == "off") && r.tok(k+1).text == "sets", k > j && t == "-" && r.tok(k+1).text == "offs":
		k += 2
	case k > j && (t == "offs" || t == "sets"), t == "backoffs":
		k++
	default:
		return false
	}
	if r.tok(k).text == "of" {
		r.setsOf(a, k)
		return true
	}
	r.setsNext, r.i = &a, k
	return true
}

// moreSets reads "3 more sets": as many again of the set before.
func (r *reader) moreSets(a amount, j int) bool {
	w := r.last
	if r.tok(j).text != "more" || r.tok(j+1).text != "sets" && r.tok(j+1).text != "set" || w == nil || !a.whole() || len(w.reps) != 1 || !w.hasLoad && !w.own {
		return false
	}
	again := *w
	again.col, again.sets, again.hasSets, again.efforts, again.felt, again.missed, again.tried = a.col, a, true, nil, 0, false, 0
	r.begin(again)
	r.i = j + 2
	return true
}

// repsList reads the repetitions of several sets in front of their weight: "5,5,5 @
// 140".
func (r *reader) repsList(a amount, at, j int) bool {
	if a.load() || !a.whole() || !r.isSign(j, ",") || r.last.open() || r.ownLift() {
		return false
	}
	w := work{col: r.tok(at).col, reps: []amount{a}}
	for r.isSign(j, ",") && r.tok(j+1).kind == num && len(w.reps) < planner.MaxSets {
		b, k := r.amount(j+1, false)
		if b.load() || !b.whole() {
			break
		}
		w.reps, j = append(w.reps, b), k
	}
	next := r.weightBehind(&w, j)
	if len(w.reps) < 3 || !w.hasLoad {
		return false
	}
	r.begin(w)
	r.i = next
	return true
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
			l.swapped, l.apart = w.sets.value != w.reps[0].value, true
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
	signed, added := r.isSign(k, "@"), r.isSign(k, "+") && r.ownLift()
	if added {
		k++
	}
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
	if a.unit != "" && r.isOwn(next) && !signed && !added {
		return j // "3x10 62kg bw": the lifter's own weight
	}
	if low, high, after, ok := r.rangeAt(a, next); ok && !r.isSign(after, times) {
		w.load, w.hasLoad, w.other = high, true, &low
		return after
	}
	if r.isSign(next, times) || r.isSign(next, "/") || r.passing(next) {
		return j
	}
	if !a.load() && !added && !(signed && a.value > 10) {
		return j
	}
	w.load, w.hasLoad = a, true
	// "3x5 @ 100, 105, 110" and "3x5 100 105 110" are more than one weight.
	w.ladder = []amount{a}
	for r.isSign(next, ",") && r.tok(next+1).kind == num || r.tok(next).kind == num {
		at := next
		if r.isSign(at, ",") {
			at++
		}
		b, k := r.amount(at, false)
		if !b.load() || r.begins(k) || r.isSign(k, "/") || r.passing(k) || b.unit != "" && r.isOwn(k) {
			break
		}
		w.ladder = append(w.ladder, b)
		w.load.twice, next = true, k
	}
	return next
}
