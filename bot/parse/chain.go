package parse

import "blockbell/planner"

// chain reads numbers joined by multiplication signs; sure: "for" stands in front.
func (r *reader) chain(a amount, j int, sure bool) {
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
	if last := &all[len(all)-1]; len(all) > 1 && all[0].load() && all[0].unit == "" && last.unit != "" && last.value < leastLoad {
		all[0].unit, last.unit = last.unit, "" // "145x3 lb"
	}
	w := work{col: a.col, own: own, doubtful: a.tail > 0}
	if !r.arrange(&w, all) {
		r.now().works++ // it was meant as one
		r.i = j
		return
	}
	if w.hasLoad && len(all) == 2 {
		w.reps, j = r.list(w.reps[0], j)
		if len(w.reps) == 1 {
			found := false
			w.reps, j, found = r.row(w.reps[0], j)
			w.doubtful = w.doubtful || found
		}
	}
	// "150 for 3x5" spells out that the sets come first.
	r.add(w, j, sure || r.last.open() && r.last.load.ofTop)
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
		r.quoted(first.col, "Write the unit behind the weight, for example 5 x 5 x 15 kg.", "it is not clear which of these numbers is the weight")
		return false
	default:
		r.quoted(first.col, "Write weight x repetitions x sets, for example 100x5x3.", "too many numbers are multiplied here")
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
		if b.load() || !b.whole() || r.begins(k) || r.ownAhead(k) {
			break
		}
		reps = append(reps, b)
		j = k
	}
	return reps, j
}

// row reads further repetitions behind blanks: "80 5 5 5", "100x 5 5". Nothing but
// their number and likeness says that they are repetitions, so they are to be asked
// about.
func (r *reader) row(first amount, j int) (reps []amount, next int, found bool) {
	reps, next = []amount{first}, j
	for r.tok(next).kind == num && !r.tok(next).glued && len(reps) < planner.MaxSets {
		b, k := r.amount(next, false)
		if b.load() || !b.whole() || r.begins(k) && !r.effortAhead(k) || r.ownAhead(k) || r.isSign(k, "/") || r.isSign(k, "-") || r.lights(k) != "" || r.tok(k).text == "more" {
			break
		}
		reps, next = append(reps, b), k
	}
	if n := len(reps); n > 2 || n == 2 && reps[0].value == reps[1].value {
		return reps, next, true
	}
	return []amount{first}, j, false
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

// between tells whether a range such as "8-10" goes on at i.
func (r *reader) between(i int) bool {
	t := r.tok(i + 1)
	return r.isSign(i, "-") && r.tok(i).glued && t.kind == num && t.glued && t.value < leastLoad && !r.isSign(i+2, times)
}

func (r *reader) ranged(a amount) {
	r.quoted(a.col, "Write the repetitions made, for example 100x8.", "a range is no number of repetitions")
	r.now().works++ // it was meant as one
}
