package parse

import "github.com/hbollon/go-edlib"

// slipNames are the names of the competition lifts in which a slip of the thumb is
// seen: long enough that nothing else is a slip away.
var slipNames = []string{"squat", "squats", "bench", "deadlift", "deadlifts"}

// misspelt reads a lift with one slip in it right before a number: a letter swapped,
// doubled, left out or struck beside. How it was read is said.
func (r *reader) misspelt() bool {
	t := r.tok(r.i)
	after := r.i + 1
	if r.isSign(after, ":") {
		after++
	}
	if r.tok(after).kind != num || len(t.text) < 4 || len(t.text) > 10 || !r.strange(t) || r.tok(r.i-1).text == "for" || r.tok(r.i-1).text == "by" {
		return false
	}
	for _, name := range slipNames {
		// The first letter is hit: "pitch" and "bench" are words apart.
		if t.text[0] != name[0] || edlib.OSADamerauLevenshteinDistance(t.text, name) != 1 {
			continue
		}
		said := spoken{lift: r.s.lang.lifts[name].lift, from: r.i, to: after, clause: len(r.clauses) - 1}
		r.read = append(r.read, "Read "+t.text+" as "+string(said.lift)+".")
		if r.hasLift() || !r.last.bare() && !r.last.open() {
			r.last = nil
		}
		r.foreign = r.notOwn(true)
		r.items = append(r.items, item{said: &said})
		r.i, r.liftEnd = r.i+1, r.i+1
		return true
	}
	return false
}
