package parse

import (
	"cmp"
	"fmt"
	"strings"

	"blockbell/planner"
)

// lone reads a number that stands for itself: repetitions of the weight before it,
// the weight of the sets before it, or a weight whose repetitions are still to come.
func (r *reader) lone(a amount, j int, sure bool) {
	switch {
	case a.unit != "" && r.isOwn(j) && !r.isSign(j+1, times) && !r.isSign(j+1, "+") && !r.isNumber(j+1):
		r.weigh(a, j+1) // "62kg bw"
	case r.unitAt(j-1) == "" && a.whole() && r.ownAhead(j):
		r.begin(work{col: a.col, reps: []amount{a}, own: true, ahead: true}) // "50 push-ups"
		r.i = j
	case !a.load() && (r.last.open() || r.ownLift() && r.last == nil) && a.whole():
		reps, k := r.list(a, j)
		if len(reps) == 1 {
			reps, k, _ = r.row(a, j)
		}
		// "140 5" without a word or comma between is asked about.
		doubtful := (len(reps) == 1 || r.isNumber(j)) && !sure && r.last.open()
		open := r.last.open()
		r.reps(reps, k)
		if open {
			r.last.doubtful = doubtful
		}
	case a.load() && r.last.bare():
		r.last.load, r.last.hasLoad, r.i = a, true, j
	case a.load() && a.unit == "" && !sure && r.countedAhead(j):
		r.now().unknown++ // "100 squats today"
		r.i = j
	case a.load():
		r.begin(work{col: a.col, load: a, hasLoad: true})
		r.i = j
	default:
		r.now().unknown++
		r.i = j
	}
}

// countedAhead tells whether a lift is named at i as a thing that is counted, and
// nothing but words behind it: "100 squats today".
func (r *reader) countedAhead(i int) bool {
	t := r.tok(i)
	if r.last != nil || t.kind != word || !strings.HasSuffix(t.text, "s") || !r.liftAt(i) {
		return false
	}
	for _, t := range r.tokens[i:] {
		if t.kind != word {
			return false
		}
	}
	return true
}

// ownAhead tells whether a lift done with the lifter's own weight is named at i.
func (r *reader) ownAhead(i int) bool {
	if i >= len(r.tokens) || r.tok(i).kind != word {
		return false
	}
	said, _, ok := r.s.lang.readLift(r.tokens, i, false)
	return ok && said.own
}

// carryOn reads "x5" without a weight of its own: that of the set before holds.
func (r *reader) carryOn() {
	from := r.tok(r.i).col
	if w := r.last; w != nil && w.named && !w.hasSets && len(w.reps) == 1 { // "doubles at 62.5 x 4": sets, and asked about
		w.sets, r.i = r.amount(r.i+1, false)
		w.hasSets, w.doubtful = true, true
		return
	}
	a, j := r.amount(r.i+1, r.last.bare())
	reps, k := r.list(a, j)
	w := work{col: from, reps: reps}
	if r.isSign(j, times) && r.isNumber(j+1) {
		w.sets, k = r.amount(j+1, false)
		w.hasSets, w.swapped = true, w.sets.value != a.value
	}
	switch {
	case r.last.bare() && a.load() && !w.hasSets:
		r.last.load, r.last.hasLoad, k = a, true, j // "5 reps x 100kg"
	case r.last != nil && len(r.last.reps) == 1 && !r.last.hasSets && r.tok(k).text == "sets":
		r.last.sets, r.last.hasSets = a, true
	case r.last.open():
		r.last.reps, r.last.sets, r.last.hasSets, r.last.swapped = w.reps, w.sets, w.hasSets, w.swapped
	case r.repeats(w):
		r.last.sets, r.last.hasSets, r.last.doubtful = a, true, true
	case r.last != nil && (r.last.hasLoad || r.last.own):
		w.load, w.hasLoad, w.own = r.last.load, r.last.hasLoad, r.last.own
		r.begin(w)
	default:
		r.begin(w)
	}
	r.i = k
}

// repeats tells whether "x2" counts the set it stands behind, as in "140x5 @8 x2":
// right behind an effort it is no new set, and is asked about.
func (r *reader) repeats(w work) bool {
	l := r.last
	return l != nil && len(l.reps) == 1 && !l.hasSets && len(l.efforts) > 0 && l.clause == len(r.clauses)-1 &&
		len(w.reps) == 1 && !w.hasSets && !w.reps[0].load() && !r.isSign(r.i-1, ",")
}

// isOwn tells whether a word at i means the lifter's own weight.
func (r *reader) isOwn(i int) bool {
	t := r.tok(i)
	return t.kind == word && (t.text == "bw" || t.text == "bodyweight")
}

// ownWeight reads "bw": the load of an exercise, or an entry of the lifter's
// bodyweight.
func (r *reader) ownWeight() {
	j := r.i + 1
	col := r.tok(r.i).col
	switch {
	case r.isSign(j, "+") && r.tok(j+1).kind == num:
		a, k := r.amount(j+1, true)
		a.own = true
		if r.isSign(k, times) && r.isNumber(k+1) {
			r.chain(a, k, false)
			return
		}
		r.begin(work{col: col, load: a, hasLoad: true})
		r.i = k
	case r.last.bare():
		r.last.own = true
		r.i = j
	case r.isSign(j, times) && r.tok(j+1).kind == num:
		r.ownChain(col, j)
	case r.ownLift():
		r.i = j // "dips bw 3x10": the sets that follow need no weight
	default:
		r.weighed(j)
	}
}

// ownChain reads "bw x 10 x 3" and "bw x 10,8,6".
func (r *reader) ownChain(col, j int) {
	a, k := r.amount(j+1, false)
	w := work{col: col, own: true}
	w.reps, k = r.list(a, k)
	if r.isSign(k, times) && r.tok(k+1).kind == num {
		w.sets, k = r.amount(k+1, false)
		w.hasSets, w.swapped = true, w.sets.value != a.value
	}
	r.begin(w)
	r.i = k
}

// weighed reads the number behind "bw" as the lifter's bodyweight.
func (r *reader) weighed(j int) {
	for r.isSign(j, ":") || r.isSign(j, "=") || r.tok(j).text == "in" || r.tok(j).text == "at" || r.tok(j).text == "was" || r.tok(j).text == "is" {
		j++
	}
	if !r.isNumber(j) {
		r.now().unknown++
		r.i = j
		return
	}
	a, k := r.amount(j, true)
	if a.decimal || !r.isSign(k, ",") || !r.tok(k).glued || r.tok(k+1).kind != num || !r.tok(k+1).glued {
		r.weigh(a, k)
		return
	}
	// 82,45 kg: scales show two decimals.
	part := r.tok(k + 1)
	for range part.text {
		part.value /= 10
	}
	a.value += part.value
	k += 2
	if u := r.unitAt(k); u != "" {
		a.unit, k = u, k+1
	}
	r.weigh(a, k)
}

func (r *reader) weigh(a amount, k int) {
	r.i = k
	unit := cmp.Or(a.unit, r.s.c.Unit, planner.KG)
	g, err := bounded(a.value, unit, MinBodyweight, MaxBodyweight)
	if err != nil { // in front of everybody no bodyweight is repeated, not even a slip of one
		r.problem(a.col, "Check the number and the unit.", fmt.Sprintf("A bodyweight lies between %s and %s", bound(MinBodyweight, unit), bound(MaxBodyweight, unit)))
		return
	}
	switch {
	case r.now().void && r.now().works == 0: // somebody else's
		return
	case r.notOwn(false):
		r.problem(a.col, "Write your own on a line for itself, for example: bw 82.4", "It is not clear whose bodyweight that is")
		r.serious = true
		return
	}
	r.mass = g
}
