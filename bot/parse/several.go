package parse

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// Part is what a message says about one person.
type Part struct {
	Who          string // the handle or name, without its @
	Under        string // the lift that stands as a heading over everybody; empty without one
	Text         string // what is said of them
	Line, Column int    // 1-based place of Text in the message
}

// person is a mention as the chat writes it, or @name as people type it. A name
// begins with a letter: "@8" is an effort.
var person = regexp.MustCompile(`<@!?(\d{15,20})>|@(\pL[\pL\pN_.\-]*)`)

// joined is what may stand between two people of whom the same is said, and in front of
// a person who is one more.
var joined = regexp.MustCompile(`(?i)(^|[\s,;])(and|&|\+)$`)

// Several splits a message that speaks of people one after the other, as a coach
// writes it: "@ana squat 140x5, @ben 160x5", "squat: @ana 140x5 @ben 160x5", "@ana and
// @ben: squat 100x5", or a line for each. The message begins with a person, or with a
// lift that stands as a heading over them. A further one stands at the beginning of a
// line, behind a comma, a semicolon, "and" or another person, or right in front of a
// number. ok is false for any other message.
func Several(text string) (parts []Part, ok bool) {
	if utf8.RuneCountInString(text) > MaxMessage {
		return nil, false
	}
	var begins [][]int
	for _, m := range person.FindAllStringSubmatchIndex(text, -1) {
		if len(begins) == 0 || oneMore(text, begins[len(begins)-1][1], m) {
			begins = append(begins, m)
		}
	}
	if len(begins) == 0 {
		return nil, false
	}
	under, ok := headingOver(text[:begins[0][0]])
	if !ok || len(begins) == 1 && under != "" && !strings.ContainsAny(text[:begins[0][0]], ":\n") { // "bench @hard 60x5"
		return nil, false
	}
	for i, m := range begins {
		end := len(text)
		if i+1 < len(begins) {
			end = begins[i+1][0]
		}
		parts = append(parts, partOf(text, m, end, under))
	}
	for i := len(parts) - 2; i >= 0; i-- {
		if parts[i].Text == "" { // "@ana and @ben: squat 100x5"
			who := parts[i].Who
			parts[i] = parts[i+1]
			parts[i].Who = who
		}
	}
	return parts, true
}

// oneMore tells whether the mention m, behind one that ends at last, begins what is said
// of another person; "140x5 @hard" is none.
func oneMore(text string, last int, m []int) bool {
	before := strings.TrimRight(text[last:m[0]], " \t\u00a0")
	behind := strings.TrimLeft(text[m[1]:], " \t\u00a0:")
	switch {
	case before == "", joined.MatchString(before):
		return true
	case strings.ContainsAny(before[len(before)-1:], ",;\n\r"):
		return true
	}
	return behind != "" && behind[0] >= '0' && behind[0] <= '9'
}

// headingOver returns the lift that stands alone in front of the first person; nothing
// may stand there too.
func headingOver(text string) (under string, ok bool) {
	under = strings.TrimRight(strings.TrimSpace(text), ":-, \t\u00a0")
	if under == "" {
		return "", strings.Trim(text, ",; \t\r\n\u00a0") == "" // what stood before a comma may be struck out
	}
	under = strings.TrimSpace(strings.TrimSuffix(under, " today"))
	_, _, ok = LiftOf(under, Standard{})
	return under, ok
}

// partOf is what the text says, as far as end, of the person mentioned at m.
func partOf(text string, m []int, end int, under string) Part {
	who := 2
	if m[2] < 0 {
		who = 4
	}
	body := strings.TrimLeft(text[m[1]:end], " \t\u00a0:,-")
	from := end - len(body)
	line := strings.LastIndexAny(text[:from], "\n") + 1
	body = strings.TrimRight(body, " \t\u00a0\r\n,;")
	if at := joined.FindStringIndex(body); at != nil && end < len(text) {
		body = strings.TrimRight(body[:at[0]], " \t\u00a0\r\n,;")
	}
	return Part{Who: text[m[who]:m[who+1]], Under: under, Text: body,
		Line: strings.Count(text[:from], "\n") + 1, Column: utf8.RuneCountInString(text[line:from]) + 1}
}
