package parse

import "blockbell/planner"

// formBehind reads a variant behind the set it belongs to: "100x3 paused".
func (r *reader) formBehind() bool {
	f, n := r.s.lang.longestForm(r.tokens, r.i)
	if n == 0 || r.last == nil && !r.afterLift() {
		return false
	}
	said, ok := r.current()
	if _, fits := f.lifts[said.lift]; !ok || !fits {
		return false
	}
	if r.last != nil && !r.meansTheSet(f, r.i+n) {
		return false
	}
	if r.last != nil && r.setAt(r.i+n) {
		r.nextForm(said, f, n) // "bench 100x5, close grip 90x8"
		return true
	}
	if r.last != nil {
		r.last.form = f
	} else {
		r.items[len(r.items)-1].said.take(f) // "deadlift (sumo)"
	}
	r.i += n
	return true
}

// meansTheSet tells whether a variant word that ends before token next speaks of the
// set before it and not of what comes: "140x5, band pull-aparts". In the clause of
// the set itself only bands and chains, which are also things, need to stand last.
func (r *reader) meansTheSet(f *forms, next int) bool {
	v := f.lifts[planner.Squat]
	things := v == Bands || v == Chains
	if r.now().works > 0 && !things {
		return true
	}
	p := r.tok(r.i - 1).text
	return r.goesNoFurther(next) || r.setAt(next) || things && (p == "with" || p == "w" || p == "+" || p == "/")
}

// setAt tells whether a set begins at i: a weight, or numbers multiplied.
func (r *reader) setAt(i int) bool {
	if r.tok(i).kind != num {
		return false
	}
	a, next := r.amount(i, true)
	return a.load() && !a.percent || r.isSign(next, times)
}

// nextForm notes a variant in front of a set of the lift spoken of.
func (r *reader) nextForm(said spoken, f *forms, n int) {
	said.variant = ""
	said.take(f)
	said.from, said.to, said.clause = r.i, r.i+n, len(r.clauses)-1
	r.items = append(r.items, item{said: &said})
	r.last = nil
	r.i, r.liftEnd = r.i+n, r.i+n
}

// tempo reads the counts of a tempo behind a lift or in front of the word: "squat
// 3-0-3 120x5", "3-1-0 tempo squat".
func (r *reader) tempo() bool {
	next, ok := countsAt(r.tokens, r.i)
	if !ok || !r.afterLift() && r.tok(next).text != "tempo" {
		return false
	}
	if r.afterLift() {
		if said := r.items[len(r.items)-1].said; said.lift.Competition() {
			said.variant = Tempo
		}
	}
	r.i = next
	return true
}

// afterLift tells whether a lift was the last thing read.
func (r *reader) afterLift() bool {
	return len(r.items) > 0 && r.items[len(r.items)-1].said != nil
}
