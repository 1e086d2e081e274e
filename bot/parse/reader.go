package parse

import (
	"strings"
	"unicode"

	"blockbell/planner"
)

// work is one group of sets as it was written, before a lift, bounds and the
// lifter's best have been looked at.
type work struct {
	col       int
	clause    int
	load      amount
	hasLoad   bool
	unit      planner.Unit // said for it or for sets beside it; empty: none
	own       bool         // the body is the load
	reps      []amount     // of each set where several are listed; else one
	sets      amount
	hasSets   bool
	efforts   []float64 // one, or one for each set
	effortCol int
	missed    bool
	every     bool // all sets were missed
	amrap     bool
	felt      float64 // the effort that words stand for; 0: none said
	top       *work   // the heaviest set of the lift before it on the line
	unrated   bool    // the efforts contradict each other
	tried     int     // repetitions tried where "2/3" said so; 0: as many as reps
	swapped   bool    // repetitions x sets was read, and could be the other way round
	apart     bool    // with swapped: "60 3x12", the weight for itself
	doubtful  bool    // read, but to be asked about first
	gear      planner.Equipment
	void      bool     // refused already
	form      *forms   // a variant said behind the set
	foreign   bool     // could be somebody else's
	odd       token    // with foreign: the word beside the lift that may be a name or a form
	named     bool     // the repetitions are a word's, such as "doubles"
	ladder    []amount // all weights behind the repetitions, where there are several
	row       []amount // weights in a row, this one last, that the repetitions may be meant for too
	ahead     bool     // "50 push-ups": its lift comes next
	unsure    bool     // could have been missed
	alone     bool     // the weight was all that was said
	failedAt  int      // of a list of sets, the repetition of the last one that was missed
	other     *amount  // "140-145": the weight is one of two
}

// open tells whether only the weight of the work has been read.
func (w *work) open() bool { return w != nil && w.hasLoad && len(w.reps) == 0 }

// bare tells whether only sets and repetitions have been read.
func (w *work) bare() bool { return w != nil && !w.hasLoad && !w.own && len(w.reps) > 0 }

// item is a lift or a work, in the order written.
type item struct {
	said *spoken
	work *work
}

// clause is a stretch of the line between separators.
type clause struct {
	works       int
	words       int
	wordsBehind int  // words when its last set began
	unknown     int  // words that mean nothing here
	strange     int  // those of them that could be a name
	denies      bool // begins with "not", as in "not bad"
	void        bool // speaks of the future or of others
	late        bool // speaks of the future behind its sets
	future      bool // speaks of the future in its first words
	asks        bool // has a question mark
}

// reader walks through one line.
type reader struct {
	line
	s         *session
	i         int
	items     []item
	clauses   []clause
	last      *work
	unit      planner.Unit // said last: it holds until another is said
	efforts   []float64    // said before their set
	effortCol int
	missed    bool    // said before the set
	misses    int     // how often it was, with missed; 0: not said
	repsNext  *amount // "single at 150"
	sure      bool    // "for" stands before the number
	void      bool    // the whole line is talk
	dayless   bool    // a day was named that cannot be
	serious   bool    // a complete set was refused
	asked     []Question
	gear      planner.Equipment
	day       planner.Date
	hasDay    bool
	problems  []Problem
	mass      planner.Grams
	strangeAt int      // token of the last word that could be a name, -1 for none
	liftEnd   int      // token behind the last lift
	foreign   bool     // a name stands in front: the sets to come are asked about
	others    bool     // a person stands in front
	lower     *amount  // of two weights in front of a set
	setsNext  *amount  // "3 sets 140x5"
	read      []string // how misspelt words were read
	tries     bool     // it speaks of a try
	lightsOn  bool     // the referees' lights were told
}

// read reads one line and adds what it says to the result.
func (s *session) read(l line) {
	s.alarm(l.tokens)
	r := &reader{line: l, s: s, clauses: make([]clause, 1, 4), strangeAt: -1, foreign: s.whose}
	r.mark()
	r.front()
	for r.i < len(r.tokens) {
		r.step()
	}
	s.finish(r)
}

func (r *reader) now() *clause { return &r.clauses[len(r.clauses)-1] }

func (r *reader) split() { r.clauses = append(r.clauses, clause{}) }

// mark passes over a list mark: "1.", "2)", "A1)", "-".
func (r *reader) mark() {
	switch {
	case r.isSign(0, "-") && !r.tok(1).glued:
		r.i = 1
	case r.tok(0).kind == num && !strings.Contains(r.tok(0).text, ".") && (r.isSign(1, ")") || r.isSign(1, ".") && !r.tok(2).glued):
		r.i = 2
	case r.tok(0).kind == word && len(r.tok(0).text) == 1 && r.isSign(1, ")"):
		r.i = 2
	case r.tok(0).kind == word && len(r.tok(0).text) == 1 && r.tok(1).kind == num && r.tok(1).glued && r.isSign(2, ")"):
		r.i = 3
	}
}

// step reads what stands at the current place; it always moves on.
func (r *reader) step() {
	t := r.tok(r.i)
	switch t.kind {
	case sign:
		r.signAt(t)
	case day:
		r.calendar(t)
	case num:
		if !r.named() && !r.tempo() && !r.formBehind() {
			r.numberAt()
		}
	case word:
		if !r.named() {
			r.wordAt(t)
		}
	default:
		r.now().unknown++
		r.i++
	}
}

func (r *reader) signAt(t token) {
	switch t.text {
	case ",", ";", ".":
		r.foreign = r.foreign || r.nameOnly()
		r.split()
	case ":":
		r.called()
	case "@":
		r.atSign()
		return
	case times:
		if r.isNumber(r.i + 1) {
			r.carryOn()
			return
		}
	case cross:
		r.miss()
		return
	case tick:
		if r.last.open() {
			r.last.reps = []amount{{value: 1, col: t.col}} // "150 ✅": a single, made
		}
	case "-":
		if r.negative(r.i) {
			r.numberAt()
			return
		}
	case "?":
		r.now().asks = true
		if r.last != nil && r.last.clause == len(r.clauses)-1 && r.now().wordsBehind == r.now().words {
			r.last.doubtful = true // "140x5?"
		}
	case mention:
		r.addressed(r.i + 1)
	}
	r.i++
}

// addressed notes a mention that ends before token i: in front of everything it means that
// the line speaks to or about somebody else, right in front of a number that what
// follows could be somebody else's.
func (r *reader) addressed(i int) {
	if len(r.items) == 0 && r.i == 0 {
		r.void = true
	}
	r.foreign = r.foreign || r.tok(i).kind == num
}

// named reads a lift.
func (r *reader) named() bool {
	said, next, ok := r.s.lang.readLift(r.tokens, r.i, true)
	if !ok {
		return false
	}
	if r.hasLift() || !r.last.bare() && !r.last.open() {
		r.last = nil // "5x5 squat at 100" and "140 squat x 5" still wait
	}
	r.foreign = r.notOwn(true)
	said.from, said.to, said.clause = r.i, next, len(r.clauses)-1
	r.items = append(r.items, item{said: &said})
	r.i, r.liftEnd = next, next
	return true
}

// current returns the lift that a set written here belongs to as far as the line
// has been read.
func (r *reader) current() (spoken, bool) {
	for i := len(r.items) - 1; i >= 0; i-- {
		if r.items[i].said != nil {
			return *r.items[i].said, true
		}
	}
	return r.s.lift, r.s.hasLift
}

// begin adds a work and gives it what was said before it.
func (r *reader) begin(w work) *work {
	w.clause = len(r.clauses) - 1
	p := &w
	r.sameUnit(p)
	if p.foreign = r.notOwn(false); p.foreign {
		p.odd = r.oddWord()
	}
	p.efforts, p.effortCol, r.efforts = r.efforts, r.effortCol, nil
	p.missed, r.missed = r.missed, false
	if p.missed && r.misses > 0 && !p.hasSets {
		p.sets, p.hasSets, p.every = amount{value: float64(r.misses), col: p.col}, true, true
	}
	r.misses = 0
	p.gear = r.gear
	if r.repsNext != nil && len(p.reps) == 0 {
		p.reps, p.named = []amount{*r.repsNext}, true
	}
	r.repsNext = nil
	if r.lower != nil && p.hasLoad {
		p.other, p.col = r.lower, r.lower.col
		if p.load.unit == "" {
			p.load.unit = r.lower.unit
		}
	}
	r.lower = nil
	if r.setsNext != nil && !p.hasSets {
		p.sets, p.hasSets = *r.setsNext, true
	}
	r.setsNext = nil
	p.top = r.topSet()
	r.now().works++
	r.now().wordsBehind = r.now().words
	r.items = append(r.items, item{work: p})
	r.last = p
	return p
}

// problem reports something at a column of the line.
func (r *reader) problem(col int, hint, text string) {
	r.problems = append(r.problems, Problem{Line: r.number, Column: r.within(col), Text: text, Hint: hint})
}

// quoted reports something at a column of the line, the typed words first.
func (r *reader) quoted(col int, hint, text string) {
	r.problem(col, hint, r.typed(col)+": "+text)
}

// typed returns what stands at a column up to the next blank, its units apart.
func (r *reader) typed(col int) string {
	from := r.within(col) - 1
	to := from
	for to < len(r.runes) && !unicode.IsSpace(r.runes[to]) && r.runes[to] != ';' {
		to++
	}
	text := strings.Trim(Clean(string(r.runes[from:to])), ",.:!＠")
	for i := 1; i < len(text); i++ {
		if isDigit(rune(text[i-1])) && (strings.HasPrefix(text[i:], "kg") || strings.HasPrefix(text[i:], "lb")) {
			text = text[:i] + " " + text[i:]
		}
	}
	if text == "" {
		return "this"
	}
	return text
}

// within keeps a column inside the line.
func (r *reader) within(col int) int { return max(1, min(col, len(r.runes))) }
