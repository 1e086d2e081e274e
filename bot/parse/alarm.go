package parse

import (
	"slices"

	"github.com/hbollon/go-edlib"
)

// AlarmKind says whether a message speaks of pain. Nothing of its words is kept.
type AlarmKind string

// Pain is a body part that hurts; Alarm is what should stop a session.
const (
	NoAlarm AlarmKind = ""
	Pain    AlarmKind = "pain"
	Alarm   AlarmKind = "alarm"
)

// alarm listens to one line. Pain needs a body part and the lifter: the first
// person, or nobody named in a line that logs a set or begins with the injury. So
// soreness, jokes and other people's troubles are none; alarm words need less.
func (s *session) alarm(tokens []token) {
	if s.out.Alarm == Alarm || !slices.ContainsFunc(tokens, func(t token) bool { return t.kind == word && alerting[t.text] }) {
		return
	}
	pain, part, stop := false, false, false
	popped, chest := false, false
	for i, t := range tokens {
		if t.kind != word {
			continue
		}
		no := denied(tokens, i)
		tugged := pulled(tokens, i) || pulledBehind(tokens, i)
		pain = pain || (painWords[t.text] || tugged) && !no
		part = part || partAt(tokens, i) || tugged
		popped = popped || t.text == "popped" && !no
		chest = chest || t.text == "chest"
		stop = stop || !no && (deadened(tokens, i) || giddy[t.text] && (firstOf(tokens) || i < 3) || alarming(tokens, i))
	}
	if !pain && !part && !stop && !popped || s.someoneElse(tokens) {
		return
	}
	first := firstOf(tokens)
	if part != pain && !popped {
		first = first || pain && slices.ContainsFunc(tokens, func(t token) bool { return t.text == "my" })
		part, pain = part || slipOf(tokens, bodyParts), pain || slipOf(tokens, painWords)
	}
	switch {
	case stop, popped && part, chest && part && pain:
		s.out.Alarm = Alarm
	case overNow(tokens):
	case pain && part && (first || implied(tokens)), pain && hurtSelf(tokens):
		s.out.Alarm = Pain
	}
}

// denied tells whether what is said at i is said not to be: "no pain", "did not hurt".
func denied(tokens []token, i int) bool {
	if i+1 < len(tokens) && tokens[i+1].text == "free" {
		return true
	}
	for k := i - 1; k >= 0 && k >= i-5; k-- {
		t := tokens[k].text
		if negations[t] {
			return true
		}
		if k < i-1 && !bodyParts[t] && t != "more" && t != "or" && t != "and" { // "no more hip or knee pain"
			return false
		}
	}
	return false
}

// deadened tells whether something is numb at i; "numb to it" is no feeling of the
// body.
func deadened(tokens []token, i int) bool {
	return dead[tokens[i].text] && !(i+1 < len(tokens) && tokens[i+1].text == "to") && !(i > 0 && tokens[i-1].text == "comfortably")
}

// slipOf tells whether a word is one slip of the thumb away from one of a list: long
// ones only, that begin alike and mean nothing else.
func slipOf(tokens []token, list map[string]bool) bool {
	for i, t := range tokens {
		if t.kind != word || len(t.text) < 4 || len(t.text) > 12 || list[t.text] || fillers[t.text] || english.words[t.text] != unknown || english.lifts[t.text] != nil || denied(tokens, i) {
			continue
		}
		for w := range list {
			if len(w) >= 4 && w[0] == t.text[0] && edlib.OSADamerauLevenshteinDistance(t.text, w) == 1 {
				return true
			}
		}
	}
	return false
}

// partAt tells whether a body part is named at i. "back" is one only where it is
// owned: "my back", not "back squat".
func partAt(tokens []token, i int) bool {
	if !bodyParts[tokens[i].text] {
		return false
	}
	if i+1 < len(tokens) && things[tokens[i+1].text] {
		return false
	}
	if tokens[i].text != "back" {
		return true
	}
	next := i + 1
	if next+1 < len(tokens) && being[tokens[next].text] {
		next++
	}
	return i > 0 && (tokens[i-1].text == "my" || tokens[i-1].text == "lower" || tokens[i-1].text == "upper") || next < len(tokens) && painWords[tokens[next].text]
}

// implied tells whether a line without a first person speaks of the lifter: it
// logs a set, or begins with what happened.
func implied(tokens []token) bool {
	for i, t := range tokens {
		if t.kind == sign && t.text == times && i > 0 && i+1 < len(tokens) && tokens[i+1].kind == num {
			return true
		}
	}
	for i := range min(3, len(tokens)) {
		if partAt(tokens, i) {
			return true // "lower back hurts"
		}
	}
	return len(tokens) > 0 && (painWords[tokens[0].text] || pulled(tokens, 0) || len(tokens) > 1 && tokens[0].text == "think" && painWords[tokens[1].text])
}

func alarming(tokens []token, i int) bool {
	for _, words := range alarmPhrases[tokens[i].text] {
		if follows(tokens[i:], words) {
			return true
		}
	}
	return false
}

func follows(tokens []token, words []string) bool {
	if len(tokens) < len(words) {
		return false
	}
	for k, w := range words {
		if tokens[k].text != w {
			return false
		}
	}
	return true
}

// firstOf tells whether the lifter speaks of themselves: "I", or something of the
// body behind "my".
func firstOf(tokens []token) bool {
	for i, t := range tokens {
		if t.text == "my" {
			for k := i + 1; k < len(tokens) && k <= i+3; k++ {
				if partAt(tokens, k) {
					return true
				}
			}
		} else if firstPerson[t.text] {
			return true
		}
	}
	return false
}

// someoneElse tells whether the line speaks of other people and not of the lifter.
func (s *session) someoneElse(tokens []token) bool {
	if firstOf(tokens) {
		return false
	}
	for _, t := range tokens {
		if others[t.text] || s.lang.plays(kin, t.text) {
			return true
		}
	}
	return false
}
