package parse

import (
	"slices"
	"strings"
)

// being stands between what hurts and that it does.
var being = setOf("is", "was", "feels", "felt", "got", "has", "seems")

// behindHurt may follow when nothing more is said than that somebody was hurt.
var behindHurt = setOf("again", "today", "now", "sorry", "unfortunately", "since", "so", "but", "and", "badly", "tonight", "yesterday", "at", "during", "on", "a", "bit", "slightly", "myself", "my")

// hurtSelf reads "I hurt myself", "I'm injured", and "injured" or "got injured" where the
// line begins so or ends so behind a set.
func hurtSelf(tokens []token) bool {
	for i, t := range tokens {
		before := ""
		if i > 0 {
			before = tokens[i-1].text
		}
		ends := i+1 == len(tokens) || behindHurt[tokens[i+1].text] || tokens[i+1].kind == sign
		switch {
		case t.text == "myself" && painWords[before], injuries[t.text] && (before == "im" || before == "am" || before == "got") && firstOf(tokens):
			return firstOf(tokens)
		case injuries[t.text] && ends && (i == 0 || i == 1 && before == "got" || i > 0 && tokens[i-1].kind != word && implied(tokens)):
			return true
		}
	}
	return false
}

// pulled reads "pulled a hamstring" and "pulled a muscle"; what is pulled else is a deadlift.
func pulled(tokens []token, i int) bool {
	if tokens[i].text != "pulled" && tokens[i].text != "pulling" {
		return false
	}
	for k := i + 1; k < len(tokens) && k <= i+4; k++ {
		switch t := tokens[k].text; {
		case t == "muscle" || t == "muscles":
			return true
		case partAt(tokens, k):
			return k+1 == len(tokens) || !strings.HasPrefix(tokens[k+1].text, "pull") // not the lat pulldown
		case t != "a" && t != "something" && t != "in" && t != "my" && t != "the" && t != "left" && t != "right" && t != "lower" && t != "upper":
			return false
		}
	}
	return false
}

// pulledBehind reads "my hamstring pulled" and "hamstring is pulled"; with a number or a
// lift behind, something else was pulled.
func pulledBehind(tokens []token, i int) bool {
	if tokens[i].text != "pulled" || i == 0 {
		return false
	}
	k := i - 1
	if k > 0 && being[tokens[k].text] {
		k--
	}
	return partAt(tokens, k) && (i+1 == len(tokens) || behindHurt[tokens[i+1].text] || tokens[i+1].kind == sign)
}

// overNow tells whether a line speaks of what is over: "last year", "3 years ago", "in
// 2019", "fine now", unless it says that it is there still or again.
func overNow(tokens []token) bool {
	has := func(word string) bool {
		return slices.ContainsFunc(tokens, func(t token) bool { return t.text == word })
	}
	if has("still") || has("again") || has("worse") || has("hurts") || has("hurting") {
		return false
	}
	if has("healed") || has("recovered") {
		return true
	}
	for i, t := range tokens {
		before, next := "", ""
		if i > 0 {
			before = tokens[i-1].text
		}
		if i+1 < len(tokens) {
			next = tokens[i+1].text
		}
		switch {
		case t.text == "year" && before == "last", (t.text == "years" || t.text == "months") && next == "ago":
			return true
		case t.kind == num && len(t.text) == 4 && before == "in" && (strings.HasPrefix(t.text, "19") || strings.HasPrefix(t.text, "20")):
			return true
		case (t.text == "fine" || t.text == "good" || t.text == "ok" || t.text == "okay") && (next == "now" || before == "now"):
			return true
		}
	}
	return false
}
