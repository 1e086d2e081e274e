package parse

import (
	"strings"
	"unicode"
)

// MaxQuote is the most characters of a person's text that are quoted back.
const MaxQuote = 40

// Clean returns at most MaxQuote characters of text that are safe to show in a
// chat: on one line, without control or invisible characters, without anything
// that a chat would turn into a mention, a link or formatting.
func Clean(text string) string {
	var b strings.Builder
	n, blank := 0, true
	runes := []rune(strings.TrimSpace(text))
	for i, r := range runes {
		if n == MaxQuote-1 && i < len(runes)-1 {
			b.WriteRune('…')
			break
		}
		r = harmless(r)
		if r == ' ' && blank {
			continue
		}
		blank = r == ' '
		b.WriteRune(r)
		n++
	}
	return strings.TrimSpace(strings.ReplaceAll(b.String(), "://", ": "))
}

// harmless replaces a character that means something to a chat by one that looks
// like it and means nothing. The full-width at sign keeps "@everyone" from being
// a mention and "@8" readable.
func harmless(r rune) rune {
	switch r {
	case '@':
		return '＠'
	case '<':
		return '‹'
	case '>':
		return '›'
	case '*':
		return '×'
	case '`', '~', '|', '\\', '"':
		return '\''
	case '[':
		return '('
	case ']':
		return ')'
	case '#':
		return '＃'
	case '_':
		return ' '
	case unicode.ReplacementChar:
		return '?'
	}
	if unicode.IsSpace(r) || unicode.IsControl(r) || invisible(r) {
		return ' '
	}
	return r
}

// invisible tells whether r shows nothing, or turns the direction of writing. The
// joiner inside emoji is spared.
func invisible(r rune) bool {
	return unicode.Is(unicode.Cf, r) && r != '\u200d'
}
