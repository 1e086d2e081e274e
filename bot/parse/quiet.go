package parse

import "strings"

// Quiet returns a captain's own words, whole and with their lines, in a form that
// rings nobody's bell: mentions of everyone, of roles and of people become plain
// text, control and invisible characters go.
func Quiet(text string) string {
	var b strings.Builder
	for _, r := range strings.ReplaceAll(text, "\r\n", "\n") {
		switch {
		case r == '\n':
			b.WriteRune(r)
		case r == '@':
			b.WriteRune(harmless(r))
		case r == '<' || r == '>':
			b.WriteRune(harmless(r))
		case r < ' ' || r == 0x7f || invisible(r):
			b.WriteRune(' ')
		default:
			b.WriteRune(r)
		}
	}
	return strings.TrimSpace(b.String())
}
