package parse

import "blockbell/planner"

// ordinals in words, as in "failed the sixth".
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10}

// ordinal reads "6th", "the sixth", "on 6th", "rep 6" at i: which repetition was
// missed.
func (r *reader) ordinal(i int) (n, next int, ok bool) {
	named := false
	for t := r.tok(i).text; t == "the" || t == "on" || t == "at" || t == "my" || t == "rep" || t == "number" || t == "no"; t = r.tok(i).text {
		named = named || t == "rep" || t == "number"
		i++
	}
	t, suffix := r.tok(i), r.tok(i+1)
	switch {
	case t.kind == word && ordinals[t.text] > 0:
		n, i = ordinals[t.text], i+1
	case t.kind == num && suffix.glued && (suffix.text == "st" || suffix.text == "nd" || suffix.text == "rd" || suffix.text == "th"):
		n, i = int(min(t.value, 1000)), i+2
	case t.kind == num && named && t.value < leastLoad && !r.begins(i+1):
		n, i = int(t.value), i+1
	default:
		return 0, i, false
	}
	if r.tok(i).text == "set" || r.tok(i).text == "sets" {
		return 0, i, false
	}
	if r.tok(i).text == "rep" || r.tok(i).text == "one" {
		i++
	}
	return n, i, n > 0
}

// missedAt notes which repetition of the set before was missed: "140x5 failed
// 6th" is five made and then a miss, "failed 4th" is three.
func (r *reader) missedAt(n, next int) bool {
	w := r.last
	if w == nil || len(w.reps) == 0 || n > maxTried {
		return false
	}
	last := &w.reps[len(w.reps)-1]
	if !last.whole() || float64(n) > last.value+1 {
		return false
	}
	w.missed, r.i = true, next
	if w.hasSets {
		return true // which of the sets is asked
	}
	if len(w.reps) == 1 {
		w.tried = n
		last.value = float64(n - 1)
	} else {
		w.failedAt = n
	}
	return true
}

// maxTried keeps an absurd number from being taken as a repetition.
const maxTried = 100

// refusedLift reads "no lift", "no rep" and the lights of the referees behind a
// set: two or three red ones are a miss. It tells whether it read something.
func (r *reader) refusedLift() bool {
	t, next := r.tok(r.i).text, r.tok(r.i+1).text
	switch {
	case t == "no" && (next == "lift" || next == "rep") && (r.last != nil || r.liftAt(r.i+2)):
		r.i++
		r.miss()
	case t == "not" && next == "good" && r.last != nil && r.now().works > 0 && r.endsAt(r.i+2):
		r.last.unsure = true
		r.i += 2
	case r.lights(r.i) != "":
		n := 3.0
		if p := r.tok(r.i - 1); r.s.lang.number(p.text) {
			n = float64(r.s.lang.numbers[p.text])
		}
		r.lit(n, r.i)
	default:
		return false
	}
	return true
}

// liftAt tells whether a lift is named at i.
func (r *reader) liftAt(i int) bool {
	_, _, ok := r.s.lang.readLift(r.tokens, i, false)
	return ok
}

// lights returns the colour of the lights named at i.
func (r *reader) lights(i int) string {
	t, next := r.tok(i).text, r.tok(i+1).text
	switch {
	case t == "reds" || t == "red" && (next == "light" || next == "lights") || t == "redlights" || t == "redlight" || t == "redlit":
		return "red"
	case t == "whites" || t == "white" && (next == "light" || next == "lights"):
		return "white"
	}
	return ""
}

// fellShort reads words that may mean a miss: "didn't get it", "couldn't lock",
// "almost" at the end. It is asked about.
func (r *reader) fellShort() bool {
	if r.last == nil || r.now().works == 0 && r.i > 0 && r.tok(r.i-1).text != "," && r.tok(r.i-1).text != "but" {
		return false
	}
	t, next, after := r.tok(r.i).text, r.tok(r.i+1).text, r.tok(r.i+2).text
	if t == "did" || t == "could" {
		if next != "not" {
			return false
		}
		t, next, after = t+"nt", after, r.tok(r.i+3).text
	}
	short := false
	switch t {
	case "didnt", "couldnt":
		switch next {
		case "lock", "finish", "stand", "count", "complete":
			short = true
		case "get", "make", "hit", "hold":
			short = after == "it" || after == "that" || after == "up" || after == "depth" || after == "lockout" || after == "one" || after == "them" || after == "the"
		}
	case "almost", "nearly":
		short = r.endsAt(r.i+1) || next == "got" || next == "had" || next == "made"
	case "stapled", "buried", "pinned", "dumped", "bailed":
		short = true
	}
	if !short {
		return false
	}
	r.last.unsure = true
	r.i++
	return true
}

// trying notes "attempted" and "tried": whether it was made is asked unless said.
func (r *reader) trying() bool {
	t := r.tok(r.i).text
	if t != "attempted" && t != "tried" {
		return false
	}
	r.tries = true
	r.i++
	return true
}

// madeIt asks whether a try was made.
func (p *placer) madeIt(w *work, sets []planner.Set) {
	missed := *w
	missed.missed, missed.unsure = true, false
	failed, err := p.build(&missed)
	if err != nil {
		p.r.refuse(w.col, err)
		return
	}
	p.out.Questions = append(p.out.Questions, Question{
		Line: p.r.number, Column: p.r.within(w.col), Text: "Did you make " + p.words(sets) + "?",
		Answers: []Answer{{Label: "Made", Sets: sets}, {Label: "Missed", Sets: failed}, {Label: "Neither"}},
	})
}
