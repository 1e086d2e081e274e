package parse

import "fmt"

// Efforts run from 1 to 10; repetitions in reserve are what is missing to 10
// (Zourdos et al. 2016), so effort 9.5 is half a repetition.
const (
	leastEffort = 1
	mostEffort  = 10
)

// atSign reads "@": an effort up to 10, above it a weight or a percentage.
func (r *reader) atSign() {
	from, j := r.tok(r.i).col, r.i+1
	for r.tok(j).text == "rpe" || r.tok(j).text == "about" || r.tok(j).text == "around" {
		j++
	}
	if r.isSign(j, "-") && r.tok(j+1).kind == num && !r.isSign(j+2, "%") {
		r.effortRefused(from, -r.tok(j+1).value)
		r.i = j + 2
		return
	}
	if !r.isNumber(j) {
		if r.tok(j).kind == word {
			r.addressed(j + 1) // a name
			j++
		}
		r.i = j
		return
	}
	if r.loadAt(j) || r.negative(j) {
		r.loadBehindAt(j)
		return
	}
	r.effort(from, j)
}

// loadBehindAt gives a weight behind "@" to the sets that lack one.
func (r *reader) loadBehindAt(j int) {
	a, k := r.amount(j, true)
	k = r.offTop(&a, j, k)
	low, high, after, ranged := r.rangeAt(a, k)
	switch {
	case r.last.bare() && ranged:
		r.last.load, r.last.hasLoad, r.last.other, k = high, true, &low, after
	case r.last.bare():
		r.last.load, r.last.hasLoad = a, true
	case r.last != nil && len(r.last.reps) > 0 && a.percent && !r.last.load.percent:
		// "100x5 @85%": the weight counts, whatever share of the max it was meant to be
	case r.last != nil && a.unit == "" && !a.percent && a.value < leastLoad:
		r.effortRefused(a.col, a.value)
	case r.last != nil && len(r.last.reps) > 0:
		r.last.load.twice, r.last.load.col = true, a.col
	default:
		r.begin(work{col: a.col, load: a, hasLoad: true})
	}
	r.i = k
}

// effort reads "8", "8.5", "8,5", "8-9", "8ish", "7,8,9" and gives it to the sets
// before it.
func (r *reader) effort(col, j int) {
	a, k := r.amount(j, false)
	values := []float64{a.value}
	switch {
	case (r.isSign(k, "-") || r.isSign(k, "/")) && r.tok(k+1).kind == num && r.tok(k+1).value <= mostEffort:
		values[0] = (a.value + r.tok(k+1).value) / 2
		k += 2
	case r.halfBehind(k):
		values[0] += 0.5
		k += 2
	default:
		values, k = r.effortList(values, k)
	}
	for r.tok(k).text == "ish" || r.tok(k).text == "rpe" || r.glued(k, "?") || r.glued(k, "+") || r.glued(k, "-") {
		k++
	}
	r.i = k
	for _, v := range values {
		if v < leastEffort || v > mostEffort {
			r.effortRefused(a.col, v)
			return
		}
	}
	r.rate(values, col)
}

// glued tells whether the sign s stands at i right behind the token before, and no
// number right behind it.
func (r *reader) glued(i int, s string) bool {
	return r.isSign(i, s) && r.tok(i).glued && !(r.tok(i+1).kind == num && r.tok(i+1).glued)
}

// halfBehind reads ",5" as half a point; "8,5" is no list, since a second set far
// easier than the first would be strange.
func (r *reader) halfBehind(k int) bool {
	t := r.tok(k + 1)
	return r.isSign(k, ",") && r.tok(k).glued && t.glued && t.text == "5" && !(r.isSign(k+2, ",") && r.tok(k+3).kind == num) && !r.begins(k+2)
}

// effortList reads one effort for each set: "7,8,9".
func (r *reader) effortList(values []float64, k int) ([]float64, int) {
	for r.isSign(k, ",") && r.tok(k+1).kind == num && len(values) < 30 {
		t := r.tok(k + 1)
		if t.value > mostEffort || t.value < leastEffort || r.begins(k+2) || r.unitAt(k+2) != "" || r.isSign(k+2, "@") {
			break
		}
		values = append(values, t.value)
		k += 2
	}
	return values, k
}

func (r *reader) effortRefused(col int, v float64) {
	r.problem(col, "Write @8 for two repetitions left.",
		fmt.Sprintf("Effort %s: it lies between %d and %d", figure(v), leastEffort, mostEffort))
}

// rate gives efforts to the last sets, or keeps them for the next.
func (r *reader) rate(values []float64, col int) {
	if w := r.beforeLift(); w != nil && r.last == nil {
		w.efforts, w.effortCol = values, col
		return
	}
	if r.last == nil {
		r.efforts, r.effortCol = values, col
		return
	}
	switch {
	case r.last.efforts == nil:
		r.last.efforts, r.last.effortCol = values, col
	case len(values) == 1 && len(r.last.efforts) == 1 && values[0] != r.last.efforts[0]:
		r.problem(col, "Write one effort for each set.",
			fmt.Sprintf("Effort %s: the set has effort %s already", figure(values[0]), figure(r.last.efforts[0])))
		r.last.unrated = true
	}
}

// beforeLift returns the set that an effort behind its lift speaks of: "105x2 squat, @8";
// nil where the effort stands in front of a number, and so of a set to come, or the set
// has one.
func (r *reader) beforeLift() *work {
	n := len(r.items)
	if n < 2 || r.items[n-1].said == nil || r.items[n-2].work == nil || r.items[0].work == nil || r.tok(r.i).kind == num {
		return nil
	}
	if w := r.items[n-2].work; w.efforts == nil {
		return w
	}
	return nil
}

// effortBehind reads an effort or reserve whose name stands behind the number: "8
// rpe", "8-9 rpe", "2 in reserve", "2 left", "2 rir", "2 in the tank".
func (r *reader) effortBehind(a amount, j int) bool {
	value := a.value
	if (r.isSign(j, "-") || r.isSign(j, "/")) && r.tok(j+1).kind == num {
		value = (value + r.tok(j+1).value) / 2
		j += 2
	}
	if a.unit != "" || a.percent {
		return false
	}
	if r.feltLike() && value >= 5 && value <= mostEffort && !r.begins(j) {
		r.i = j
		r.rate([]float64{value}, a.col)
		return true
	}
	if r.effortAhead(j) {
		return false // "5 5 rpe 8": the name belongs to what follows
	}
	if t := r.tok(j).text; t == "rpe" || t == "ish" && r.tok(j+1).text == "rpe" {
		for r.tok(j).text == "ish" || r.tok(j).text == "rpe" {
			j++
		}
		r.i = j
		if value < leastEffort || value > mostEffort {
			r.effortRefused(a.col, value)
			return true
		}
		r.rate([]float64{value}, a.col)
		return true
	}
	if k, ok := r.reserveWord(j); ok {
		r.i = k
		r.reserve(a.col, value)
		return true
	}
	return false
}

// effortAhead tells whether "rpe" at i names the number behind it and not the one in
// front.
func (r *reader) effortAhead(i int) bool {
	t := r.tok(i + 1)
	return r.tok(i).text == "rpe" && t.kind == num && t.value >= leastEffort && t.value <= mostEffort && !r.begins(i+2) && r.unitAt(i+2) == ""
}

// named effort: "rpe 8", "rpe: 8", "rir 2".
func (r *reader) effortWord(t token) {
	j := r.i + 1
	for r.isSign(j, ":") || r.isSign(j, "@") || r.isSign(j, "=") {
		j++
	}
	switch {
	case !r.isNumber(j):
		r.i++
	case t.text == "rpe":
		r.effort(t.col, j)
	default:
		a, k := r.amount(j, false)
		if r.isSign(k, "-") && r.tok(k).glued && r.tok(k+1).kind == num && r.tok(k+1).glued {
			a.value, k = (a.value+r.tok(k+1).value)/2, k+2
		} else if r.halfBehind(k) {
			a.value, k = a.value+0.5, k+2
		}
		r.i = k
		r.reserve(t.col, a.value)
	}
}
