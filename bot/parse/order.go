package parse

import (
	"regexp"
	"strings"
)

var (
	undoForm    = regexp.MustCompile(`^(?:please )?(?:undo|scratch|delete|remove|forget)(?: that| it| last| the last one| the last set| last set)?(?: please)?[.!]*$`)
	correctForm = regexp.MustCompile(`^(?:no|nope|sorry|oops|actually|i meant|i mean|meant|should be|make that|make it|\*)[,:]?\s*(?:no[, ]+)?(?:i meant|i mean|it was|meant)?\s*(\d{1,4}(?:[.,]\d{1,2})?\s*(?:kgs?|kilos?|lbs?|pounds?|#)?)[.!*]*$`)
	doneForm    = regexp.MustCompile(`^(?:(?:all )?done|did it all|did (?:it|everything)|all of it|finished|as planned|done as planned|👍)[.! ]*$`)
)

// orderStarts are the first words of an order; they spare other lines the forms
// above.
var orderStarts = setOf("please", "undo", "scratch", "delete", "remove", "forget", "no", "nope", "sorry", "oops", "actually", "i", "meant",
	"should", "make", "all", "done", "did", "finished", "as", "👍")

// order reads a message that is one of the few orders about the last set or the
// day's work, and tells whether it was one.
func (s *session) order(text string) bool {
	if len(text) > 80 {
		return false
	}
	t := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	first, _, _ := strings.Cut(strings.TrimLeft(t, "*"), " ")
	if t == "" || t[0] != '*' && !orderStarts[strings.TrimRight(first, ".,:!🏻🏼🏽🏾🏿")] {
		return false
	}
	switch m := correctForm.FindStringSubmatch(t); {
	case undoForm.MatchString(t) && t != "forget" && t != "forget it":
		s.out.Undo = true
	case doneForm.MatchString(strings.TrimRight(t, "🏻🏼🏽🏾🏿")):
		s.out.Done = true
	case m != nil:
		g, err := Weight(m[1], s.c.Unit)
		if err != nil {
			r := &reader{line: newLine(text, 1), s: s}
			r.refuse(1, err)
			s.out.Problems = r.problems
			return true
		}
		s.out.Correct = &g
	default:
		return false
	}
	return true
}
