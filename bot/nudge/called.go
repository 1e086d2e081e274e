package nudge

import (
	"regexp"
	"strings"

	"blockbell/bot/parse"
)

// plainName is a name that nobody takes for a sentence of the bot's: a few words
// of letters and digits.
var plainName = regexp.MustCompile(`^[\p{L}\p{M}\p{N}'&+/-]+( [\p{L}\p{M}\p{N}'&+/-]+){0,4}$`)

// called is a name that people chose, in a form that can stand in a post of the
// bot's: safe for a chat, at most parse.MaxQuote characters, and in quotes where
// it could be read as something the bot says.
func called(name string) string {
	clean := parse.Clean(name)
	if plainName.MatchString(clean) {
		return clean
	}
	return `"` + strings.ReplaceAll(clean, `"`, "'") + `"`
}
