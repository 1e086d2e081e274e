package parse

// missedTimes reads "3 times" behind a lift that was missed.
func (r *reader) missedTimes(at, j int) bool {
	n := r.tok(at)
	return j == at+1 && r.tok(j).text == "times" && n.value >= 2 && n.value <= maxTimes && r.missedSets(int(n.value), j+1)
}

// maxTimes is how often one weight is missed in a session at most, as far as one
// believes it (common practice).
const maxTimes = 10

// missedSets notes how often the lift before was missed, or the one to come where only
// the miss was said: "failed 145 twice", "failed twice at 145". Of more than a single it
// is not clear what was missed twice, so that is asked about.
func (r *reader) missedSets(n, next int) bool {
	w := r.last
	switch {
	case r.missed && r.missesNow():
		r.misses = n
	case w == nil || !w.missed || w.hasSets:
		return false
	case len(w.reps) > 1 || len(w.reps) == 1 && w.reps[0].value != 1:
		w.doubtful = true
	default:
		w.sets, w.hasSets, w.every = amount{value: float64(n), col: w.col}, true, true
	}
	r.i = next
	return true
}

// missesNow tells whether the word for a miss stands right in front.
func (r *reader) missesNow() bool {
	return r.s.lang.words[r.tok(r.i-1).text] == missing
}
