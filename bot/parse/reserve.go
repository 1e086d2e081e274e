package parse

import "fmt"

// feltLike tells whether "felt like an" stands in front of the current token.
func (r *reader) feltLike() bool {
	i := r.i - 1
	if t := r.tok(i).text; t == "a" || t == "an" {
		i--
	}
	return r.last != nil && r.tok(i).text == "like" && (r.tok(i-1).text == "felt" || r.tok(i-1).text == "feels")
}

// couldHave tells whether "could have done" or the like stands in front of the current
// token.
func (r *reader) couldHave() bool {
	for i := r.i - 3; i < r.i; i++ {
		if t := r.tok(i).text; t == "could" || t == "couldve" {
			return true
		}
	}
	return false
}

// reserveWord passes over the words for repetitions left.
func (r *reader) reserveWord(j int) (int, bool) {
	if r.tok(j).text == "more" && r.last != nil && (r.tok(j+1).text == "in" && r.tok(j+2).text == "me" || r.couldHave() && r.endsAt(j+1)) {
		return j + 1, true // "had 2 more in me", "could have done 2 more"
	}
	if t := r.tok(j).text; t == "reps" || t == "rep" || t == "more" {
		j++
	}
	switch r.tok(j).text {
	case "rir", "left":
		if r.tok(j+1).text == "in" && r.tok(j+2).text == "the" && r.tok(j+3).text == "tank" {
			return j + 4, true
		}
		return j + 1, true
	case "in":
		switch {
		case r.tok(j+1).text == "reserve":
			return j + 2, true
		case r.tok(j+1).text == "the" && r.tok(j+2).text == "tank":
			return j + 3, true
		}
	}
	return j, false
}

// reserve notes repetitions left as the effort they mean.
func (r *reader) reserve(col int, left float64) {
	if left < 0 || left > mostEffort-leastEffort {
		r.problem(col, "Write @8 for two repetitions left.",
			fmt.Sprintf("%s left: the repetitions left lie between 0 and %d", figure(left), mostEffort-leastEffort))
		return
	}
	r.rate([]float64{mostEffort - left}, col)
}
