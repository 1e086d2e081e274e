package parse

// lit notes n lights of the colour named at i.
func (r *reader) lit(n float64, i int) {
	next := i + 1
	if r.tok(next).text == "light" || r.tok(next).text == "lights" {
		next++
	}
	if votes, k, ok := r.votes(next); ok { // "red lights 2-1"
		r.decided(votes, i, k)
		return
	}
	r.lightsOn = true
	r.i = next
	if colour := r.lights(i); (colour == "red" && n >= 2 || colour == "white" && n < 2) && r.last != nil {
		r.last.missed = true
	}
}

// votes reads how the three lights were parted, "2-1" or "3-0", and returns the first
// number.
func (r *reader) votes(i int) (first float64, next int, ok bool) {
	a, b, between := r.tok(i), r.tok(i+2), r.tok(i+1).text
	ok = a.kind == num && b.kind == num && (between == "-" || between == ":" || between == "to") && a.value+b.value == 3 && (a.value == 1 || a.value == 2 || a.value == 3 || a.value == 0)
	return a.value, i + 3, ok
}

// votesAhead reads "2-1 red lights" at the current place.
func (r *reader) votesAhead() bool {
	first, k, ok := r.votes(r.i)
	if !ok || r.lights(k) == "" {
		return false
	}
	next := k + 1
	if t := r.tok(next).text; t == "light" || t == "lights" {
		next++
	}
	r.decided(first, k, next)
	return true
}

// decided notes a decision with the lights parted: the greater number first, they are
// of the colour named at i. The other way round it is not clear which are, so it is
// asked about. What follows begins at token next.
func (r *reader) decided(first float64, i, next int) {
	r.i = next
	switch {
	case r.last == nil:
	case first < 2:
		r.last.unsure = true
	default:
		r.lightsOn = true
		r.last.missed = r.last.missed || r.lights(i) == "red"
	}
}
