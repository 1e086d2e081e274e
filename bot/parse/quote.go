package parse

import (
	"strings"
	"unicode"
)

// value reads up to the next blank, or a quoted text.
func (s *splitter) value() (value string, quoted bool, err error) {
	if closers := closing(s.text[s.pos]); closers != "" {
		value, quoted, err = s.quoted(closers)
		if quoted || err != nil {
			return value, quoted, err
		}
	}
	start := s.pos
	for !s.done() && !unicode.IsSpace(s.text[s.pos]) {
		s.pos++
	}
	return string(s.text[start:s.pos]), false, nil
}

// quoted reads a quoted text. A single quote that nothing closes is an apostrophe:
// then quoted is false and nothing is consumed.
func (s *splitter) quoted(closers string) (string, bool, error) {
	var b strings.Builder
	for i := s.pos + 1; i < len(s.text); i++ {
		r := s.text[i]
		switch {
		case r == '\\' && i+1 < len(s.text) && (s.text[i+1] == '\\' || closing(s.text[i+1]) != ""):
			i++
			b.WriteRune(s.text[i])
		case strings.ContainsRune(closers, r):
			if i+1 < len(s.text) && !unicode.IsSpace(s.text[i+1]) {
				if single(r) {
					b.WriteRune(r)
					continue
				}
				return "", false, at(i+2, "Leave a blank after the closing quote.",
					"Something stands right behind the closing quote")
			}
			s.pos = i + 1
			return b.String(), true, nil
		case lineBreak(r):
			if r == '\r' && i+1 < len(s.text) && s.text[i+1] == '\n' {
				i++
			}
			b.WriteByte('\n')
		default:
			b.WriteRune(r)
		}
	}
	if single(s.text[s.pos]) {
		return "", false, nil
	}
	return "", false, at(s.pos+1, "Close it with the same kind of quote.", "The quote that begins here is never closed")
}

// closing returns the quotes that close the one opened by r; empty where r opens
// none. Phones mix straight and typographic quotes, so a typographic one may be
// closed by a straight one.
func closing(r rune) string {
	switch r {
	case '"':
		return "\""
	case '“', '”', '„', '‟':
		return "“”\""
	case '«':
		return "»"
	case '»':
		return "«"
	case '\'':
		return "'"
	case '‘', '’', '‚':
		return "‘’'"
	}
	return ""
}

func single(r rune) bool { return strings.ContainsRune("'‘’‚", r) }
