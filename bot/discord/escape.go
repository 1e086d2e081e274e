package discord

import (
	"fmt"
	"regexp"
	"strings"
	"time"
	"unicode"

	"blockbell/bot/chat"
)

// escape keeps plain text plain: the platform reads some characters as markup,
// and what the bot says has none. Only what would really be taken for markup is
// marked, so that "long_blocks" and "3 x 5" stay as they are.
//
// Moments become the platform's own, which it shows in each reader's zone.
func escape(text string) string {
	return chat.Moments(text, quoted, func(at time.Time, _ string) string { return fmt.Sprintf("<t:%d:f>", at.Unix()) })
}

// quoted marks what would be taken for markup.
func quoted(text string) string {
	in := []rune(text)
	var out strings.Builder
	for i, r := range in {
		if special(in, i, r) {
			out.WriteByte('\\')
		}
		out.WriteRune(r)
	}
	return out.String()
}

// special tells whether the character at i would be taken for markup.
func special(in []rune, i int, r rune) bool {
	switch r {
	case '\\', '*', '`':
		return true
	case '_': // inside a word it means nothing
		return !(wordRune(at(in, i-1)) && wordRune(at(in, i+1)))
	case '~', '|': // only doubled
		return at(in, i-1) == r || at(in, i+1) == r
	case '<': // a mention, a moment, a picture, a command, a hidden link
		return strings.ContainsRune("@#:/tahi", at(in, i+1))
	case ']': // a link with other words on it
		return at(in, i+1) == '('
	case '#', '>': // a heading or a quotation, followed by a blank
		return lineStart(in, i) && strings.ContainsRune("# >", at(in, i+1))
	case '-':
		return lineStart(in, i) && at(in, i+1) == '#'
	}
	return false
}

// at is the character at i, a line break outside the text.
func at(in []rune, i int) rune {
	if i < 0 || i >= len(in) {
		return '\n'
	}
	return in[i]
}

func wordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// lineStart tells whether only blanks stand before i in its line.
func lineStart(in []rune, i int) bool {
	for i--; i >= 0 && in[i] != '\n'; i-- {
		if in[i] != ' ' && in[i] != '>' && in[i] != '#' {
			return false
		}
	}
	return true
}

// cut shortens a text to at most n characters, with a mark where it was cut. It
// never leaves half of an escaped character or of a moment.
func cut(text string, n int) (short string, was bool) {
	in := []rune(text)
	if len(in) <= n {
		return text, false
	}
	if n <= 0 {
		return "", true
	}
	short = halfMoment.ReplaceAllString(string(in[:n-1]), "")
	if slashes := len(short) - len(strings.TrimRight(short, `\`)); slashes%2 == 1 {
		short = short[:len(short)-1]
	}
	return short + "…", true
}

// halfMoment is what a cut leaves of a moment at the end.
var halfMoment = regexp.MustCompile(`<(t(:(\d*(:f?)?)?)?)?$`)

func length(text string) int { return len([]rune(text)) }
