package parse

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// Part is what a message says about one person.
type Part struct {
	Who          string // the handle or name, without its @
	Text         string // what is said of them
	Line, Column int    // 1-based place of Text in the message
}

// person is a mention as the chat writes it, or @name as people type it. A name
// begins with a letter: "@8" is an effort.
var person = regexp.MustCompile(`<@!?(\d{15,20})>|@(\pL[\pL\pN_.\-]*)`)

// Several splits a message that speaks of people one after the other, as a coach
// writes it: "@ana squat 140x5, @ben 160x5", or a line for each. The message begins
// with a person, and each further one stands at the beginning of a line or behind a
// comma or semicolon. ok is false for any other message.
func Several(text string) (parts []Part, ok bool) {
	if utf8.RuneCountInString(text) > MaxMessage {
		return nil, false
	}
	var begins [][]int
	for _, m := range person.FindAllStringSubmatchIndex(text, -1) {
		before := strings.TrimRight(text[:m[0]], " \t\u00a0")
		first := strings.TrimSpace(before) == ""
		if first || len(begins) > 0 && strings.ContainsAny(before[len(before)-1:], ",;\n\r") {
			begins = append(begins, m)
		}
	}
	if len(begins) == 0 || strings.TrimSpace(text[:begins[0][0]]) != "" {
		return nil, false
	}
	for i, m := range begins {
		end := len(text)
		if i+1 < len(begins) {
			end = begins[i+1][0]
		}
		who := 2
		if m[2] < 0 {
			who = 4
		}
		body := strings.TrimLeft(text[m[1]:end], " \t\u00a0:,-")
		from := end - len(body)
		line := strings.LastIndexAny(text[:from], "\n") + 1
		parts = append(parts, Part{
			Who: text[m[who]:m[who+1]], Text: strings.TrimRight(body, " \t\u00a0\r\n,;"),
			Line: strings.Count(text[:from], "\n") + 1, Column: utf8.RuneCountInString(text[line:from]) + 1,
		})
	}
	return parts, true
}
