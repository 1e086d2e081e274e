package terminal

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// DefaultChannel is where people speak when a line names no channel.
const DefaultChannel = "#training-log"

// maxName keeps a name to what a platform would allow too.
const maxName = 32

type verb int

const (
	nothing verb = iota // a comment or a blank line
	clockTo
	clockOn
	say
	press
	edit
	remove
)

// line is one understood line. Which fields count depends on the verb.
type line struct {
	verb    verb
	at      time.Time     // clockTo
	by      time.Duration // clockOn
	channel string        // say, edit, remove
	person  string        // say, press, edit, remove: as typed, without the @
	text    string        // say, edit: what is said; press: the label
}

// parseLine reads one line. The error is a sentence for whoever wrote the line.
func parseLine(raw string) (line, error) {
	raw = strings.TrimSpace(strings.ToValidUTF8(raw, "\uFFFD"))
	if raw == "" || isComment(raw) {
		return line{}, nil
	}
	word, rest := cutWord(raw)
	switch strings.ToLower(word) {
	case "clock":
		return parseClock(rest)
	case "press":
		return parsePress(rest)
	case "edit":
		return parseSpeech(edit, rest)
	case "delete":
		return parseSpeech(remove, rest)
	}
	if strings.HasPrefix(word, "@") || strings.HasPrefix(word, "#") {
		return parseSpeech(say, raw)
	}
	return line{}, fmt.Errorf(`%q is not understood: begin with @name, #channel @name, clock, press, edit, delete, or "# " for a comment`, word)
}

// isComment tells "# words" and "####" from "#channel @name words".
func isComment(raw string) bool {
	rest, found := strings.CutPrefix(raw, "#")
	if !found {
		return false
	}
	first, _ := utf8.DecodeRuneInString(rest)
	return rest == "" || !isNameRune(first)
}

// cutWord splits at the first run of blanks; a line break counts as one.
func cutWord(s string) (word, rest string) {
	i := strings.IndexFunc(s, unicode.IsSpace)
	if i < 0 {
		return s, ""
	}
	return s[:i], strings.TrimSpace(s[i:])
}

func parseSpeech(v verb, rest string) (line, error) {
	l := line{verb: v, channel: DefaultChannel}
	if strings.HasPrefix(rest, "#") {
		word, after := cutWord(rest)
		if !isName(word[1:]) || !strings.HasPrefix(after, "@") {
			return line{}, fmt.Errorf(`after %q comes @name and what is said; a comment has a blank after its #`, word)
		}
		l.channel, rest = strings.ToLower(word), after
	}
	person, text, err := parsePerson(rest)
	if err != nil {
		return line{}, err
	}
	if text == "" && v != remove {
		return line{}, fmt.Errorf("@%s says nothing: write the message after the name", person)
	}
	if text != "" && v == remove {
		return line{}, fmt.Errorf("nothing comes after @%s: delete removes the newest message", person)
	}
	l.person, l.text = person, text
	return l, nil
}

// parsePerson reads "@name rest"; a colon after the name is let pass.
func parsePerson(s string) (name, rest string, err error) {
	word, rest := cutWord(s)
	name, found := strings.CutPrefix(word, "@")
	name = strings.TrimSuffix(name, ":")
	if !found || !isName(name) {
		return "", "", fmt.Errorf("%q is not a person: write @name, letters and digits, at most %d", word, maxName)
	}
	return name, rest, nil
}

func isName(s string) bool {
	if s == "" || utf8.RuneCountInString(s) > maxName {
		return false
	}
	for i, r := range s {
		if !isNameRune(r) && (i == 0 || !strings.ContainsRune("-.", r)) {
			return false
		}
	}
	return true
}

func isNameRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) || r == '_'
}

// quotes pairs the marks that may stand around a label. The German pair closes
// with the mark that opens the English one.
var quotes = map[rune]string{'"': `"`, '“': "”", '„': "“”", '«': "»", '\'': "'", '‘': "’"}

func parsePress(rest string) (line, error) {
	person, label, err := parsePerson(rest)
	if err != nil {
		return line{}, err
	}
	open, size := utf8.DecodeRuneInString(label)
	if closing, quoted := quotes[open]; quoted {
		last, lastSize := utf8.DecodeLastRuneInString(label)
		if len(label) < size+lastSize || !strings.ContainsRune(closing, last) {
			return line{}, fmt.Errorf("the quote around the label %s does not close", label)
		}
		label = label[size : len(label)-lastSize]
	}
	label = strings.TrimSpace(label)
	if label == "" {
		return line{}, fmt.Errorf(`which button? Write press @%s "label"`, person)
	}
	return line{verb: press, person: person, text: label}, nil
}
