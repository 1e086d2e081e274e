package parse

import (
	"strings"

	"blockbell/planner"
)

// Standard is what a lifter counts as the competition form of a lift in training;
// the other form is a variant. The zero value is a paused bench and a conventional
// deadlift.
type Standard struct {
	TouchAndGo bool // benches touch and go in training
	Sumo       bool // pulls sumo
}

// Variant returns v as stored for a lifter with this standard: the lifter's own
// form of a lift is no variant.
func (s Standard) Variant(v planner.Variant) planner.Variant {
	if (v == TouchAndGo && s.TouchAndGo) || (v == Sumo && s.Sumo) || (v == Conventional && !s.Sumo) {
		return ""
	}
	return v
}

// index finds rows of the tables by their words.
type index struct {
	lifts  map[string]*names
	weak   map[string]*names
	forms  map[string]*forms
	starts map[string]int // first word -> most words of a phrase that begins with it
}

// table is the English index, built once and never changed.
var table = newIndex(englishLifts, englishForms)

func newIndex(rows []names, variants []forms) *index {
	x := &index{lifts: map[string]*names{}, weak: map[string]*names{}, forms: map[string]*forms{}, starts: map[string]int{}}
	for i := range rows {
		for _, w := range rows[i].words {
			x.lifts[w] = &rows[i]
			x.start(w)
		}
		for _, w := range rows[i].weak {
			x.weak[w] = &rows[i]
			x.start(w)
		}
	}
	for i := range variants {
		for _, w := range variants[i].words {
			x.forms[w] = &variants[i]
			x.start(w)
		}
	}
	return x
}

func (x *index) start(phrase string) {
	first, _, _ := strings.Cut(phrase, " ")
	x.starts[first] = max(x.starts[first], strings.Count(phrase, " ")+1)
}

// Lift reads the name of a lift, with its variant where it has one: "Squat",
// "close-grip bench", "front squats", "paused squat", "pull-ups". It is false
// where any word is left over.
func Lift(text string) (planner.Lift, planner.Variant, bool) { return LiftOf(text, Standard{}) }

// LiftOf is Lift for a lifter with the given competition forms.
func LiftOf(text string, standard Standard) (planner.Lift, planner.Variant, bool) {
	if tooLong(text, longestWord) {
		return "", "", false
	}
	l := newLine(text, 1, english)
	name, next, ok := table.readLift(l.tokens, 0, true)
	if !ok || next != len(l.tokens) {
		return "", "", false
	}
	return name.lift, standard.Variant(name.variant), true
}

// LiftNames lists the names under which lifts are stored, competition lifts first.
func LiftNames() []string {
	var list []string
	seen := map[planner.Lift]bool{}
	for _, row := range englishLifts {
		if !seen[row.lift] {
			seen[row.lift] = true
			list = append(list, string(row.lift))
		}
	}
	return list
}

// spoken is a lift as it was said.
type spoken struct {
	lift    planner.Lift
	variant planner.Variant
	own     bool // the body is the load
	weak    bool // means the lift only with weight and repetitions
	from    int  // its tokens, from the first up to and without this one
	to      int
	clause  int
}

// readLift reads the lift named at tokens[i:], with variant words before and
// behind it, and returns the index after them. Weak words count only if allowed.
func (x *index) readLift(tokens []token, i int, weak bool) (spoken, int, bool) {
	var before []*forms
	for {
		row, isWeak, n := x.longestLift(tokens, i, weak)
		form, f := x.longestForm(tokens, i)
		// "pin squat" is a lift of its own, "pin bench" a form of the bench: the
		// longer phrase wins, and a lift wins over a form.
		if n > 0 && n >= f {
			s := spoken{lift: row.lift, variant: row.variant, own: row.own, weak: isWeak}
			return x.inForm(s, before, tokens, i+n)
		}
		if f == 0 {
			return spoken{}, i, false
		}
		before = append(before, form)
		i = skipHyphen(tokens, skipTempo(tokens, i+f, form))
	}
}

// inForm applies the variant words before the lift, then those behind it. Words
// that do not fit the lift make the reading fail in front and end it behind.
func (x *index) inForm(s spoken, before []*forms, tokens []token, i int) (spoken, int, bool) {
	for _, f := range before {
		if !s.take(f) {
			return spoken{}, i, false
		}
	}
	for {
		j := skipHyphen(tokens, i)
		form, n := x.longestForm(tokens, j)
		if n == 0 || !s.take(form) {
			return s, i, true
		}
		i = skipTempo(tokens, j+n, form)
	}
}

// skipTempo passes over the counts of a tempo behind its word: "tempo 3-1-0".
func skipTempo(tokens []token, i int, form *forms) int {
	if form.lifts[planner.Squat] == Tempo {
		if next, ok := countsAt(tokens, i); ok {
			return next
		}
	}
	return i
}

// countsAt reads the counts of a tempo: three or four single digits joined by
// dashes. It returns the index behind them.
func countsAt(tokens []token, i int) (next int, ok bool) {
	n := 0
	for ; i < len(tokens) && tokens[i].kind == num && len(tokens[i].text) == 1; i++ {
		n++
		if i+1 >= len(tokens) || tokens[i+1].text != "-" || !tokens[i+1].glued || i+2 >= len(tokens) || !tokens[i+2].glued {
			i++
			break
		}
		i++
	}
	return i, n == 3 || n == 4
}

// take applies a variant word; false where the lift has no such variant.
func (s *spoken) take(f *forms) bool {
	v, ok := f.lifts[s.lift]
	if ok && v != "" {
		s.variant = v
	}
	return ok
}

func (x *index) longestLift(tokens []token, i int, weak bool) (row *names, isWeak bool, n int) {
	for n := x.most(tokens, i); n > 0; n-- {
		phrase, used := join(tokens, i, n)
		if row := x.lifts[phrase]; row != nil {
			return row, false, used
		}
		if row := x.weak[phrase]; weak && row != nil {
			return row, true, used
		}
	}
	return nil, false, 0
}

func (x *index) longestForm(tokens []token, i int) (*forms, int) {
	for n := x.most(tokens, i); n > 0; n-- {
		phrase, used := join(tokens, i, n)
		if row := x.forms[phrase]; row != nil {
			return row, used
		}
	}
	return nil, 0
}

func (x *index) most(tokens []token, i int) int {
	if i >= len(tokens) {
		return 0
	}
	return x.starts[tokens[i].text]
}

// join puts n words from tokens[i] on into one phrase, leaving out hyphens between
// them, and returns how many tokens that took. It is empty where a word is missing.
func join(tokens []token, i, n int) (string, int) {
	if n == 1 {
		return tokens[i].text, 1
	}
	var b strings.Builder
	at := i
	for k := range n {
		if k > 0 {
			at = skipHyphen(tokens, at)
			b.WriteByte(' ')
		}
		if at >= len(tokens) || (tokens[at].kind == sign && tokens[at].text != "&") {
			return "", 0
		}
		b.WriteString(tokens[at].text)
		at++
	}
	return b.String(), at - i
}

// skipHyphen passes over one hyphen between two words.
func skipHyphen(tokens []token, i int) int {
	if i+1 < len(tokens) && tokens[i].text == "-" && tokens[i+1].kind != sign {
		return i + 1
	}
	return i
}
