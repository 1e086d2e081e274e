package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxCommand is the longest command read, in characters.
const MaxCommand = 2000

// Option is one name:value of a command.
type Option struct {
	Name   string // lower case
	Value  string // as typed, without its quotes; never empty
	Column int    // 1-based character where the name begins
}

// Command splits the text of a command, with or without its leading slash, into
// the words before the first option and the options. A value runs up to the next
// name: or the end, so `name:River Open` needs no quotes; quotes, straight or
// typographic, protect names, blanks and line breaks inside, and \" is a quote
// inside quotes. `date: today` with a blank is the same as `date:today`, and a
// first word with a colon, as in `/block:`, is a word. Bare words come in lower
// case, quoted ones as typed; every line break of a quoted one is \n.
//
// Unclosed quotes, a name without a value or given twice, line breaks outside
// quotes, control and invisible characters, and texts above MaxCommand are refused
// with a MisplacedError.
func Command(text string) (words []string, options []Option, err error) {
	s, err := newSplitter(text)
	if err != nil {
		return nil, nil, err
	}
	for s.skipBlanks(); !s.done(); s.skipBlanks() {
		if err := s.next(); err != nil {
			return nil, nil, err
		}
	}
	for _, o := range s.options {
		if strings.TrimSpace(o.Value) == "" {
			return nil, nil, at(o.Column, "Write it right behind the colon, or leave "+o.Name+" out.", "%s: has no value", o.Name)
		}
	}
	return s.words, s.options, nil
}

// splitter walks through the characters of one command.
type splitter struct {
	text    []rune
	pos     int
	words   []string
	options []Option
	closed  bool // the value of the last option was quoted, so nothing joins it
}

func newSplitter(text string) (*splitter, error) {
	if tooLong(text, MaxCommand) {
		return nil, at(MaxCommand+1, "Say it in fewer words.",
			"A command can have at most %d characters", MaxCommand)
	}
	if !utf8.ValidString(text) {
		return nil, at(1, "Type it again.", "The command holds broken characters")
	}
	s := &splitter{text: []rune(text)}
	for i, r := range s.text {
		switch {
		case r == '\t' || r == '\u00a0' || r == '\u202f':
			s.text[i] = ' '
		case lineBreak(r):
		case unicode.IsControl(r) || invisible(r):
			return nil, at(i+1, "Type that part again instead of pasting it.",
				"There is an invisible character in the command")
		}
	}
	for n := len(s.text); n > 0 && unicode.IsSpace(s.text[n-1]); n-- {
		s.text = s.text[:n-1] // what a phone adds behind the last word
	}
	s.skipBlanks()
	if !s.done() && s.text[s.pos] == '/' {
		s.pos++
	}
	return s, nil
}

// lineBreak tells whether r ends a line.
func lineBreak(r rune) bool { return r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029' }

func (s *splitter) done() bool { return s.pos >= len(s.text) }

func (s *splitter) skipBlanks() {
	for !s.done() && unicode.IsSpace(s.text[s.pos]) {
		s.pos++
	}
}

// next reads one option, word, or further word of a value.
func (s *splitter) next() error {
	start := s.pos
	for i := start; i > 0 && unicode.IsSpace(s.text[i-1]); i-- {
		if lineBreak(s.text[i-1]) && len(s.words)+len(s.options) > 0 {
			return at(i, "Please write it on one line.", "There is a line break in the command")
		}
	}
	if name, ok := s.name(); ok {
		if len(s.words)+len(s.options) == 0 && (s.done() || unicode.IsSpace(s.text[s.pos])) {
			s.words = append(s.words, name)
			return nil
		}
		return s.option(start, name)
	}
	value, quoted, err := s.value()
	if err != nil {
		return err
	}
	if len(s.options) == 0 {
		if !quoted {
			value = strings.ToLower(value)
		}
		s.words = append(s.words, value)
		return nil
	}
	last := &s.options[len(s.options)-1]
	if s.closed || (quoted && last.Value != "") {
		return at(start+1, "Put a whole value into one pair of quotes.",
			"%q belongs to no option", Clean(value))
	}
	if last.Value != "" {
		value = last.Value + " " + value
	}
	last.Value, s.closed = value, quoted
	return nil
}

// option reads the value that stands right behind name: and adds the option.
func (s *splitter) option(start int, name string) error {
	for _, o := range s.options {
		if o.Name == name {
			return at(start+1, "Leave one of them out.", "%s stands there twice", name)
		}
	}
	o := Option{Name: name, Column: start + 1}
	s.closed = false
	if !s.done() && !unicode.IsSpace(s.text[s.pos]) {
		value, quoted, err := s.value()
		if err != nil {
			return err
		}
		o.Value, s.closed = value, quoted
	}
	s.options = append(s.options, o)
	return nil
}

// name reads a name and its colon: a letter, then letters, digits, - and _. An
// address such as https://... is no name.
func (s *splitter) name() (string, bool) {
	for i := s.pos; i < len(s.text); i++ {
		r := s.text[i]
		switch {
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z':
		case i > s.pos && (r >= '0' && r <= '9' || r == '-' || r == '_'):
		case i > s.pos && r == ':' && !(i+1 < len(s.text) && s.text[i+1] == '/'):
			name := strings.ToLower(string(s.text[s.pos:i]))
			s.pos = i + 1
			return name, true
		default:
			return "", false
		}
	}
	return "", false
}
