package nudge

import (
	"regexp"
	"strings"
	"unicode"
)

// plainName is a name that nobody takes for a sentence of the bot's: a few words
// of letters and digits.
var plainName = regexp.MustCompile(`^[\p{L}\p{M}\p{N}'&-]+( [\p{L}\p{M}\p{N}'&-]+){0,4}$`)

// addressDot is a dot that could stand in an address.
var addressDot = regexp.MustCompile(`\.+(\p{L}\p{L})`)

// longestName is the most characters of a chosen name that a post shows.
const longestName = 40

// called is a name that people chose, in a form that can stand in a post of the
// bot's: without signs that a chat takes for mentions, links or formatting, without
// addresses, cut to longestName, and in quotes where it could be read as something the bot says.
func called(name string) string {
	if plainName.MatchString(name) && len([]rune(name)) <= longestName {
		return name
	}
	name = addressDot.ReplaceAllString(strings.Map(harmless, name), " $1")
	clean := []rune(strings.Join(strings.Fields(name), " "))
	if len(clean) > longestName {
		clean = append(clean[:longestName-1], '…')
	}
	return `"` + string(clean) + `"`
}

// harmless keeps letters, digits and quiet punctuation; everything else goes.
func harmless(r rune) rune {
	switch {
	case unicode.IsLetter(r), unicode.IsMark(r), unicode.IsNumber(r), strings.ContainsRune("'&+/-.,!?()", r):
		return r
	}
	return ' '
}
