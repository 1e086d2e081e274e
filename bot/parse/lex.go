package parse

import (
	"unicode"
)

// kind sorts the tokens of a line.
type kind uint8

const (
	word    kind = iota // letters, lower case, apostrophes dropped
	num                 // digits with at most one decimal point
	sign                // one character that means something, or a mention
	day                 // a calendar date in digits
	comment             // something to pass over: a time of day, an address
)

// Texts of signs that stand for several characters.
const (
	times   = "x"       // a multiplication sign of any shape
	cross   = "✗"       // a missed lift
	tick    = "✓"       // a made one
	mention = "mention" // a person or role named by the chat
)

// token is one piece of a line. Its column counts characters from 1.
type token struct {
	kind    kind
	text    string
	value   float64 // of a num
	col     int
	glued   bool // nothing lies between it and the token before
	spelled bool // a num that was typed in words
	tail    int  // of a spelled num: what of it could be repetitions; 0: nothing
}

// line is a line of a message, cut into tokens once.
type line struct {
	number int
	runes  []rune // as typed
	tokens []token
	hidden int // character of something unseen inside a number; 0: none
}

// newLine normalises and cuts one line. Normalising replaces character by
// character, so columns stay those of the text as typed.
func newLine(text string, number int, lang *Language) line {
	runes := []rune(text)
	l := line{number: number, runes: runes, tokens: make([]token, 0, len(runes)/2+1), hidden: hiddenIn(runes)}
	s := scanner{text: normal(runes)}
	for s.pos < len(s.text) {
		s.next()
	}
	l.tokens = lang.spellOut(append(l.tokens, s.tokens...))
	lang.multiplied(l.tokens)
	return l
}

// multiplied turns the "by" that phones write between two spoken numbers into the
// sign: "5 by 5". "140 by 6 pm" is no multiplication.
func (l *Language) multiplied(tokens []token) {
	for i := 1; i+1 < len(tokens); i++ {
		t := &tokens[i]
		if t.kind == word && l.plays(multiplying, t.text) && tokens[i-1].kind == num && tokens[i+1].kind == num && !(i+2 < len(tokens) && l.plays(passing, tokens[i+2].text)) {
			t.kind, t.text = sign, times
		}
	}
}

// normal returns a lower-case copy in which look-alikes have become one character.
func normal(runes []rune) []rune {
	out := make([]rune, len(runes))
	code := false
	for i, r := range runes {
		if r == '`' {
			code = !code && restHas(runes[i+1:], '`')
			out[i] = ' '
			continue
		}
		if code {
			r = ' '
		}
		out[i] = plain(r)
	}
	return out
}

func restHas(runes []rune, r rune) bool {
	for _, c := range runes {
		if c == r {
			return true
		}
	}
	return false
}

func plain(r rune) rune {
	if r < 0x80 {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		if r < 0x20 || r == 0x7f {
			return ' '
		}
		return r
	}
	switch r {
	case '×', '✕', '⨯', '✖', '╳', 'х', 'Х': // the last two are Cyrillic
		return 'x'
	case '–', '—', '−', '‐', '‑', '‒', '―':
		return '-'
	case '❌', '✗', '✘':
		return '✗'
	case '✅', '✔', '☑', '✓':
		return '✓'
	case '’', '‘', 'ʼ':
		return '\''
	case '，', '、':
		return ','
	}
	if r >= '０' && r <= '９' {
		return r - '０' + '0'
	}
	if unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
		return ' '
	}
	return unicode.ToLower(r)
}
