package parse

// feeling are the words for how hard a set was and the efforts they stand for.
// Words are vague, so each is read so that it claims least: "easy" leaves three
// repetitions, though it may have been more (common practice).
var feeling = map[string]float64{
	"easy": 7, "ez": 7, "light": 7, "smooth": 7,
	"hard": 9, "tough": 9, "heavy": 9, "slow": 9,
	"grinder": 9.5, "grind": 9.5, "grindy": 9.5, "ground": 9.5,
	"limit": 10, "maximal": 10,
}

// mild are those of them that are as often said of the day or the bar as of the
// set: they count only behind "felt", "was" and the like.
var mild = setOf("light", "smooth", "heavy", "slow", "ground", "limit")

// feels are the words in front of how it was, and more those that strengthen it.
var (
	feels = setOf("felt", "feels", "feeling", "was", "were", "moved", "went", "a", "an", "bit", "pretty", "quite", "kinda", "really", "that", "it", "of")
	more  = setOf("very", "super", "so", "too", "way", "extremely")
)

// few are the words for how many repetitions were left.
var few = map[string]float64{"no": 0, "nothing": 0, "none": 0, "zero": 0, "one": 1, "two": 2, "couple": 2, "three": 3, "four": 4, "five": 5}

// felt reads how hard the set before was: "easy", "felt hard", "a real grinder". A
// number or another word that goes on with it makes it a comment on something
// else: "easy day".
func (r *reader) felt() bool {
	t := r.tok(r.i)
	effort, known := feeling[t.text]
	next := r.i + 1
	if r.maximum() {
		effort, known, next = mostEffort, true, r.i+2
	}
	w := r.last
	if !known || w == nil || len(w.reps) == 0 || w.clause < len(r.clauses)-2 || r.now().works == 0 && w.clause == len(r.clauses)-1 || !r.goesNoFurther(next) {
		return false
	}
	strong, said, denied := false, false, false
	for i := r.i - 1; i >= 0 && r.tok(i).kind == word; i-- {
		p := r.tok(i).text
		strong, said = strong || more[p], said || feels[p]
		denied = denied || negations[p] || p == "less"
		if !more[p] && !feels[p] {
			break
		}
	}
	if denied || mild[t.text] && !said && !strong {
		return false
	}
	if strong && effort < 9 {
		effort--
	}
	several := len(w.reps) > 1 || w.hasSets && w.sets.value > 1
	if w.felt == 0 && !(several && effort >= 9) { // of several sets only the last was that hard
		w.felt = effort
	}
	r.i = next
	return true
}

// maximum tells whether "max effort", "all out" or the like stands here.
func (r *reader) maximum() bool {
	a, b := r.tok(r.i).text, r.tok(r.i+1).text
	return (a == "max" || a == "full") && b == "effort" || a == "all" && b == "out"
}

// goesNoFurther tells whether a comment ends before token i.
func (r *reader) goesNoFurther(i int) bool {
	t := r.tok(i)
	switch t.text {
	case "?":
		return false // "felt heavy?"
	case "then", "and", "but", "today", "again", "tho", "though", "lol", "af", "set", "one", "now", "for", "@":
		return t.text != "for" || r.tok(i+1).text == "me"
	}
	return r.endsAt(i) || t.kind == num || t.text == "-" || r.liftAt(i)
}

// leftInWords reads "two left", "one in the tank", "nothing left".
func (r *reader) leftInWords() bool {
	n, ok := few[r.tok(r.i).text]
	if !ok || r.last == nil {
		return false
	}
	j := r.i + 1
	if r.tok(j).text == "of" {
		j++
	}
	next, ok := r.reserveWord(j)
	if !ok || !r.goesNoFurther(next) {
		return false
	}
	col := r.tok(r.i).col
	r.i = next
	r.reserve(col, n)
	return true
}
