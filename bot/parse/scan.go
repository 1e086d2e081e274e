package parse

import (
	"strconv"
	"strings"
	"unicode"
)

// scanner cuts normalised characters into tokens.
type scanner struct {
	text   []rune
	pos    int
	tokens []token
	blank  bool // something was passed over since the last token
}

func (s *scanner) add(k kind, text string, value float64, from int) {
	s.tokens = append(s.tokens, token{kind: k, text: text, value: value, col: from + 1, glued: !s.blank && len(s.tokens) > 0})
	s.blank = false
}

func (s *scanner) peek(n int) rune {
	if s.pos+n < 0 || s.pos+n >= len(s.text) {
		return 0
	}
	return s.text[s.pos+n]
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// next reads one token or passes over one character.
func (s *scanner) next() {
	r := s.text[s.pos]
	switch {
	case isDigit(r):
		s.number()
	case unicode.IsLetter(r):
		s.word()
	case r == '<':
		s.angle()
	case r == '*':
		s.star()
	case strings.ContainsRune(",;:./+-@%#()!?&=|✗✓½", r):
		s.add(sign, string(r), 0, s.pos)
		s.pos++
	default:
		s.pos++
		s.blank = true
	}
}

// number reads digits: a date, a time of day, or a number with a decimal point. A
// comma stays a sign of its own; only the grammar knows what it means.
func (s *scanner) number() {
	from := s.pos
	if n := dateLength(s.text[from:]); n > 0 {
		s.pos += n
		s.add(day, string(s.text[from:s.pos]), 0, from)
		return
	}
	s.digits()
	if s.peek(0) == ':' && s.pos-from <= 2 && isDigit(s.peek(1)) && isDigit(s.peek(2)) && !isDigit(s.peek(3)) {
		s.pos += 3
		s.add(comment, "clock", 0, from)
		return
	}
	if s.peek(0) == '.' && isDigit(s.peek(1)) {
		s.pos++
		s.digits()
	}
	text := string(s.text[from:s.pos])
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		s.add(comment, "number", 0, from) // beyond what a float holds
		return
	}
	s.add(num, text, value, from)
}

func (s *scanner) digits() {
	for isDigit(s.peek(0)) {
		s.pos++
	}
}

// dateLength returns the length of a date with a four-digit year at the start of
// text, 0 where there is none.
func dateLength(text []rune) int {
	var groups [3]int
	g, sep, i := 0, rune(0), 0
	for ; i < len(text) && g < 3; i++ {
		switch r := text[i]; {
		case isDigit(r):
			groups[g]++
		case (r == '-' || r == '/' || r == '.') && groups[g] > 0 && g < 2 && (sep == 0 || r == sep):
			sep = r
			g++
		default:
			return dateShape(groups, g, i)
		}
	}
	return dateShape(groups, g, i)
}

func dateShape(groups [3]int, g, length int) int {
	small := func(n int) bool { return n == 1 || n == 2 }
	if g == 2 && (groups[0] == 4 && small(groups[1]) && small(groups[2]) || small(groups[0]) && small(groups[1]) && groups[2] == 4) {
		return length
	}
	return 0
}

// word reads letters with apostrophes inside, and parts a multiplication sign
// from a unit it is glued to, as in 140kgx5 or bwx10.
func (s *scanner) word() {
	from := s.pos
	afterDigit := from > 0 && (isDigit(s.text[from-1]) || s.text[from-1] == '#' || s.text[from-1] == ')')
	for unicode.IsLetter(s.peek(0)) || (s.peek(0) == '\'' && unicode.IsLetter(s.peek(1))) || unicode.Is(unicode.Mn, s.peek(0)) {
		s.pos++
	}
	if s.address() {
		s.add(comment, "address", 0, from)
		return
	}
	text := string(s.text[from:s.pos])
	if strings.IndexByte(text, '\'') >= 0 {
		text = strings.ReplaceAll(text, "'", "")
	}
	switch {
	case text == times:
		s.add(sign, times, 0, from)
	case len(text) > 1 && text[0] == 'x' && afterDigit:
		s.add(sign, times, 0, from)
		s.add(word, text[1:], 0, from+1)
	case len(text) > 1 && text[len(text)-1] == 'x' && isDigit(s.peek(0)) && splits(text[:len(text)-1]):
		s.add(word, text[:len(text)-1], 0, from)
		s.add(sign, times, 0, s.pos-1)
	default:
		s.add(word, text, 0, from)
	}
}

// address passes over what follows "://" up to the next blank.
func (s *scanner) address() bool {
	if s.peek(0) != ':' || s.peek(1) != '/' || s.peek(2) != '/' {
		return false
	}
	for s.pos < len(s.text) && s.text[s.pos] != ' ' {
		s.pos++
	}
	return true
}

// splits tells whether w is a word that people glue to a multiplication sign.
func splits(w string) bool {
	_, unit := units[w]
	return unit || w == "bw" || w == "bodyweight"
}

// angle reads what the chat puts into angle brackets. A phone turns "@8" into a
// mention when somebody is called so; a small number there is an effort.
func (s *scanner) angle() {
	end := 0
	for n := 1; n <= 80 && s.peek(n) != 0; n++ {
		if s.peek(n) == '>' {
			end = n
			break
		}
	}
	if end == 0 {
		s.pos++
		s.blank = true
		return
	}
	from, inside := s.pos, string(s.text[s.pos+1:s.pos+end])
	s.pos += end + 1
	if !strings.HasPrefix(inside, "@") {
		s.blank = true // a custom emoji, a channel, a time stamp
		return
	}
	if v, err := strconv.ParseFloat(strings.TrimLeft(inside, "@!&"), 64); err == nil && v >= 1 && v <= 10 {
		s.add(sign, "@", 0, from)
		s.add(num, strconv.FormatFloat(v, 'f', -1, 64), v, from)
		return
	}
	s.add(sign, mention, 0, from)
}

// star reads a multiplication sign between digits; elsewhere a star is emphasis.
func (s *scanner) star() {
	before, after := s.pos-1, s.pos+1
	for before >= 0 && s.text[before] == ' ' {
		before--
	}
	for after < len(s.text) && s.text[after] == ' ' {
		after++
	}
	if before >= 0 && after < len(s.text) && isDigit(s.text[after]) &&
		(isDigit(s.text[before]) || unicode.IsLetter(s.text[before]) && before == s.pos-1) {
		s.add(sign, times, 0, s.pos)
	} else {
		s.blank = true
	}
	s.pos++
}
