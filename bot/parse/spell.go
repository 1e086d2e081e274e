package parse

import (
	"strconv"
	"strings"
)

// spelledNumbers are the English number words below a hundred.
var spelledNumbers = map[string]int{
	"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// number tells whether a word is one of a spelled number.
func (l *Language) number(word string) bool {
	_, ok := l.numbers[word]
	return ok || l.plays(hundreds, word)
}

// spellOut puts numbers in the place of spelled ones where nothing else can be meant:
// loads ("one hundred", "ninety two point five") and what is multiplied ("three by
// five"). Small numbers elsewhere stay words; the grammar knows the few places where
// they count ("for five", "two left").
func (l *Language) spellOut(tokens []token) []token {
	from := 0
	for from < len(tokens) && (tokens[from].kind != word || !l.number(tokens[from].text)) {
		from++
	}
	if from == len(tokens) {
		return tokens
	}
	if from > 0 && (tokens[from-1].text == "a" || tokens[from-1].text == "an") && l.plays(hundreds, tokens[from].text) {
		from--
	}
	out := tokens[:from]
	for i := from; i < len(tokens); {
		s, ok := l.spelledAt(tokens, i)
		if ok && (s.value >= leastLoad || rates(out) || l.multiplies(out, tokens[s.next:], s.value)) {
			text := strconv.FormatFloat(s.value, 'f', -1, 64)
			out = append(out, token{kind: num, text: text, value: s.value, col: tokens[i].col, glued: tokens[i].glued, spelled: true, tail: s.tail})
			i = s.next
			continue
		}
		out = append(out, tokens[i])
		i++
	}
	return out
}

// rates tells whether the number behind these tokens is an effort: "rpe eight".
func rates(before []token) bool {
	n := len(before)
	return n > 0 && (before[n-1].text == "rpe" || before[n-1].text == "rir" || before[n-1].text == "@")
}

// multiplies tells whether a small spelled number stands beside a sign or word of
// multiplication with another number behind it. "One by one" is none.
func (l *Language) multiplies(before, behind []token, v float64) bool {
	sign := func(t token) bool { return t.text == times || t.kind == word && l.plays(multiplying, t.text) }
	numeral := func(t token) bool { return t.kind == num || t.kind == word && l.number(t.text) }
	if n := len(before); n > 1 && sign(before[n-1]) && before[n-2].kind == num {
		return true
	}
	if len(behind) < 2 || !sign(behind[0]) || !numeral(behind[1]) {
		return false
	}
	return v != 1 || behind[1].text != "one"
}

// spelledOut is a number in words: its value, where it ends, and what of it could be
// repetitions instead: "one forty five" is 145, or 140 for five.
type spelledOut struct {
	value float64
	tail  int
	next  int
}

// spelledAt reads the number in words at tokens[i].
func (l *Language) spelledAt(tokens []token, i int) (spelledOut, bool) {
	at := func(k int) string {
		if k < len(tokens) && tokens[k].kind == word {
			return tokens[k].text
		}
		return ""
	}
	hundred := func(k int) bool { return l.plays(hundreds, at(k)) }
	n, ok := l.numbers[at(i)]
	s := spelledOut{value: float64(n), next: i + 1}
	behind := skipHyphen(tokens, i+1)
	switch more, goesOn := l.numbers[at(behind)]; {
	case hundred(i):
		s.value = 100
		s.below(l, tokens)
	case (at(i) == "a" || at(i) == "an") && hundred(i+1):
		s.value, s.next = 100, i+2
		s.below(l, tokens)
	case !ok:
		return s, false
	case n > 0 && n < 10 && hundred(i+1):
		s.value, s.next = float64(100*n), i+2
		s.below(l, tokens)
	case n > 0 && n < 10 && goesOn && more >= 10:
		s.value, s.next = float64(100*n), behind // "one forty"
		s.below(l, tokens)
	case n >= 20:
		s.value, s.next = 0, i
		s.below(l, tokens)
	}
	l.point(&s, tokens)
	return s, true
}

// below adds what stands behind the hundreds: "and five", "forty", "forty-five".
func (s *spelledOut) below(l *Language, tokens []token) {
	i, joined := s.next, false
	if i+1 < len(tokens) && tokens[i].kind == word && l.plays(joining, tokens[i].text) {
		i, joined = i+1, true
	}
	read := func(k int) (int, bool) {
		if k >= len(tokens) || tokens[k].kind != word {
			return 0, false
		}
		n, ok := l.numbers[tokens[k].text]
		return n, ok
	}
	n, ok := read(i)
	if !ok || n == 0 {
		return
	}
	s.value, s.next = s.value+float64(n), i+1
	if n >= 20 {
		hyphen := skipHyphen(tokens, s.next)
		unit, ok := read(hyphen)
		if !ok || unit == 0 || unit >= 10 {
			return
		}
		s.value, s.next = s.value+float64(unit), hyphen+1
		n, joined = unit, joined || hyphen > i+1
	}
	if !joined && n < leastLoad {
		s.tail = n
	}
}

// point reads "point five" and "point seven five" behind a spelled number.
func (l *Language) point(s *spelledOut, tokens []token) {
	if s.next >= len(tokens) || !l.plays(pointing, tokens[s.next].text) {
		return
	}
	share := 0.1
	for k := s.next + 1; k < len(tokens) && share > 0.001; k++ {
		n, ok := l.numbers[tokens[k].text]
		if !ok || n > 9 {
			return
		}
		s.value, s.next, s.tail = s.value+share*float64(n), k+1, 0
		share /= 10
	}
}

// spelledSet says that a set in words was not understood: a lift and a spelled number
// stand together, in a line of few other words, and nothing came of them.
func (r *reader) spelledSet() {
	if len(r.problems) > 0 || r.words() > 3 {
		return
	}
	for i := range r.tokens {
		t := r.tok(i)
		if r.isSign(i, "?") {
			return
		}
		next := r.tok(i + 1).text
		near := t.kind == word && r.s.lang.number(t.text) && r.endsLift(i) && next != "set" && next != "sets" && next != "rep" && next != "reps"
		if (!t.spelled && !near) || next != "times" && r.passing(i+1) || !r.hasLift() {
			continue
		}
		r.quoted(t.col, "Write it in digits, weight first, for example squat 100x5.", "it is not clear which number is what")
		r.serious = true
		return
	}
}

// endsLift tells whether the name of a lift ends right before token i.
func (r *reader) endsLift(i int) bool {
	for _, it := range r.items {
		if it.said != nil && it.said.to == i {
			return true
		}
	}
	return false
}

// spells tells whether a number word stands in a text.
func (l *Language) spells(text string) bool {
	for _, w := range strings.Fields(text) {
		if l.number(strings.Trim(w, ",.!")) {
			return true
		}
	}
	return false
}

// inDigits writes a text with its spelled numbers in digits. "no one" stays.
func (l *Language) inDigits(text string) string {
	tokens := newLine(text, 1, l).tokens
	var b strings.Builder
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		if i > 0 && !t.glued {
			b.WriteByte(' ')
		}
		if n, ok := l.numbers[t.text]; ok && t.kind == word && (i == 0 || tokens[i-1].text != "no") {
			t.text = strconv.Itoa(n)
		}
		b.WriteString(t.text)
	}
	return b.String()
}
