package parse

// amendWords take back what was just written: "140x5, no wait 145".
var amendWords = setOf("no", "nope", "wait", "sorry", "oops", "actually", "scratch", "meant", "mean", "make", "rather", "correction")

// amends reads a second thought about the set before, in the same line. A new
// weight takes the place of the old; where it stands behind a bare "no", or is a
// small number that could be repetitions, the set is asked about.
func (r *reader) amends() bool {
	w := r.last
	if !amendWords[r.tok(r.i).text] || w == nil || !w.hasLoad || len(w.reps) == 0 || w.load.percent {
		return false
	}
	j, bare := r.i, true
	for ; j < len(r.tokens); j++ {
		t := r.tok(j)
		if amendWords[t.text] {
			bare = bare && t.text == "no"
		} else if !(t.text == "i" || t.text == "that" || t.text == "it" || t.text == "was" || t.text == "," || t.text == "." || t.text == "-" && !t.glued) {
			break
		}
	}
	if r.tok(j).kind != num {
		return false
	}
	a, k := r.amount(j, true)
	chained := r.isSign(k, times) && r.tok(k+1).kind == num
	if !chained && (r.passing(k) || r.begins(k) || r.isSign(k, "/")) || a.load() && a.value <= 0 {
		return false
	}
	if w.clause < len(r.clauses)-1 {
		r.clauses = r.clauses[:w.clause+1] // the second thought belongs to its set
	}
	w.doubtful = w.doubtful || bare || !a.load()
	if !a.load() && !chained {
		w.reps, r.i = []amount{a}, k
		return true
	}
	w.load, r.i = a, k
	if chained {
		b, next := r.amount(k+1, false)
		w.reps, w.hasSets, w.efforts, w.missed, w.tried, r.i = []amount{b}, false, nil, false, 0, next
		w.doubtful = w.doubtful || !a.load()
	}
	return true
}
