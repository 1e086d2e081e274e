package parse

import (
	"strings"
	"unicode"
)

// healthWords are beside the words for pain what a text about health would say.
var healthWords = setOf("injury", "injuries", "ill", "illness", "sick", "sickness", "flu", "covid", "fever", "surgery", "operation", "doctor",
	"physio", "physiotherapist", "medication", "medicine", "pregnant", "pregnancy", "diagnosed", "diagnosis", "hospital", "depressed", "depression", "fainted", "dizzy", "numb",
	"sore", "ache", "aches", "aching", "tendonitis", "tendinitis", "hernia")

// SpeaksOfPain tells whether a text that would be kept as it stands speaks of pain or
// health. It is stricter than the reading of a log line, of which no words are kept:
// rather ten harmless sentences are turned away than one about an illness is kept.
func SpeaksOfPain(text string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if painWords[w] || healthWords[w] {
			return true
		}
	}
	return Log(text, Context{}).Alarm != NoAlarm
}
