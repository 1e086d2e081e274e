package parse

import (
	"regexp"
	"strings"
)

var struckForm = regexp.MustCompile(`(?s)~~.+?~~`)

// Unstruck returns a message with blanks in the place of what was struck out, so that
// the rest keeps its lines and columns: who strikes a set out takes it back.
func Unstruck(text string) string {
	if !strings.Contains(text, "~~") {
		return text
	}
	return struckForm.ReplaceAllStringFunc(text, func(struck string) string {
		return strings.Map(func(r rune) rune {
			if r == '\n' || r == '\r' {
				return r
			}
			return ' '
		}, struck)
	})
}
