package parse

import (
	"regexp"
	"strings"
)

var (
	undoForm = regexp.MustCompile(`^(?:please )?(?:undo|scratch|delete|remove|forget)(?: that| it| last| the last one| the last set| last set)?(?: please)?[.!]*$`)
	doneForm = regexp.MustCompile(`^(?:(?:all )?done|did it all|did (?:it|everything)|all of it|finished|as planned|done as planned|👍)[.! ]*$`)
)

// orderStarts are the first words of an order; they spare other lines the forms
// above.
var orderStarts = setOf("please", "undo", "scratch", "delete", "remove", "forget", "no", "nope", "sorry", "oops", "typo", "actually", "wait", "i", "meant",
	"should", "make", "that", "that's", "it", "it's", "was", "felt", "only", "just", "missed", "failed", "all", "done", "did", "finished", "as", "👍")

// order reads a message that is one of the few orders about the last set or the
// day's work, and tells whether it was one.
func (s *session) order(text string) bool {
	if len(text) > 80 {
		return false
	}
	t := strings.Join(strings.Fields(string(normal([]rune(text)))), " ")
	if starForm.MatchString(t) {
		t = "*" + strings.TrimSuffix(t, "*")
	}
	first, _, _ := strings.Cut(strings.TrimLeft(t, "*"), " ")
	if t == "" || t[0] != '*' && !orderStarts[strings.TrimRight(first, ".,:!🏻🏼🏽🏾🏿")] {
		return false
	}
	switch {
	case undoForm.MatchString(t) && t != "forget" && t != "forget it":
		s.out.Undo = true
	case doneForm.MatchString(strings.TrimRight(t, "🏻🏼🏽🏾🏿")):
		s.out.Done = true
	default:
		return s.corrects(text, t) || s.lang.spells(t) && s.corrects(text, s.lang.inDigits(t))
	}
	return true
}
