package parse

import "strings"

// AlarmKind says whether a message speaks of pain. Nothing of its words is kept.
type AlarmKind string

// Pain is a body part that hurts; Alarm is what should stop a session.
const (
	NoAlarm AlarmKind = ""
	Pain    AlarmKind = "pain"
	Alarm   AlarmKind = "alarm"
)

var (
	bodyParts = setOf("knee", "knees", "back", "shoulder", "shoulders", "elbow", "elbows", "hip", "hips", "wrist", "wrists", "neck",
		"hamstring", "hamstrings", "hammy", "quad", "quads", "groin", "pec", "pecs", "ankle", "ankles", "bicep", "biceps", "adductor",
		"adductors", "calf", "achilles", "chest", "arm", "arms", "leg", "legs", "rib", "ribs", "foot", "feet", "hand", "hands", "spine",
		"glute", "glutes", "lat", "lats", "trap", "traps", "forearm", "forearms", "finger", "fingers", "thumb", "thumbs", "toes", "head", "triceps", "tricep")
	painWords = setOf("hurt", "hurts", "hurting", "pain", "pains", "painful", "tweaked", "tweak", "strained", "torn", "tore", "injured",
		"sprained", "pinched", "stabbing")
	firstPerson = setOf("i", "my", "me", "im", "ive", "mine")
	negations   = setOf("no", "not", "without", "zero", "never", "doesnt", "dont", "didnt", "isnt", "wasnt", "hardly", "free")
)

// alarm listens to one line. Pain needs a body part and the lifter: the first
// person, or nobody named in a line that logs a set or begins with the injury. So
// soreness, jokes and other people's troubles are none; alarm words need less.
func (s *session) alarm(tokens []token) {
	if s.out.Alarm == Alarm {
		return
	}
	pain, part, popped, numb := false, false, false, false
	for i, t := range tokens {
		if t.kind != word {
			continue
		}
		denied := i > 0 && negations[tokens[i-1].text] || i > 1 && negations[tokens[i-2].text] || i+1 < len(tokens) && tokens[i+1].text == "free"
		pain = pain || (painWords[t.text] || pulled(tokens, i)) && !denied
		part = part || partAt(tokens, i)
		popped = popped || t.text == "popped" && !denied
		// "numb to it" is no feeling of the body.
		numb = numb || t.text == "numb" && !denied && !(i+1 < len(tokens) && tokens[i+1].text == "to") && !(i > 0 && tokens[i-1].text == "comfortably")
		if !denied && alarming(tokens, i) && !s.someoneElse(tokens) {
			s.out.Alarm = Alarm
			return
		}
	}
	if !pain && !popped && !numb || s.someoneElse(tokens) {
		return
	}
	switch {
	case numb, popped && part:
		s.out.Alarm = Alarm
	case pain && part && (firstOf(tokens) || implied(tokens)):
		s.out.Alarm = Pain
	}
}

// partAt tells whether a body part is named at i. "back" is one only where it is
// owned: "my back", not "back squat".
func partAt(tokens []token, i int) bool {
	if !bodyParts[tokens[i].text] {
		return false
	}
	return tokens[i].text != "back" || i > 0 && (tokens[i-1].text == "my" || tokens[i-1].text == "lower" || tokens[i-1].text == "upper")
}

// pulled reads "pulled a hamstring"; what is pulled else is a deadlift.
func pulled(tokens []token, i int) bool {
	if tokens[i].text != "pulled" && tokens[i].text != "pulling" {
		return false
	}
	for k := i + 1; k < len(tokens) && k <= i+3; k++ {
		switch t := tokens[k].text; {
		case partAt(tokens, k):
			return k+1 == len(tokens) || !strings.HasPrefix(tokens[k+1].text, "pull") // not the lat pulldown
		case t != "a" && t != "my" && t != "the" && t != "left" && t != "right" && t != "lower" && t != "upper":
			return false
		}
	}
	return false
}

// implied tells whether a line without a first person speaks of the lifter: it
// logs a set, or begins with what happened.
func implied(tokens []token) bool {
	for i, t := range tokens {
		if t.kind == sign && t.text == times && i > 0 && i+1 < len(tokens) && tokens[i+1].kind == num {
			return true
		}
	}
	return len(tokens) > 0 && (painWords[tokens[0].text] || pulled(tokens, 0) || len(tokens) > 1 && tokens[0].text == "think" && painWords[tokens[1].text])
}

// alarmPhrases need no more than themselves.
var alarmPhrases = byFirstWord("chest pain", "chest pains", "pain in my chest", "fainted", "passed out", "blacked out", "cannot see", "cant see",
	"can not see", "cant feel my", "cannot feel my", "cant breathe", "cannot breathe", "something popped", "heard a pop",
	"felt a pop", "felt something pop", "heard something pop", "felt it pop", "heard it pop", "felt a snap", "heard a snap", "something snapped",
	"blacking out", "passing out", "nearly fainted", "almost fainted")

func byFirstWord(phrases ...string) map[string][][]string {
	m := map[string][][]string{}
	for _, p := range phrases {
		words := strings.Fields(p)
		m[words[0]] = append(m[words[0]], words)
	}
	return m
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

// others are the words for other people.
var others = setOf("he", "she", "they", "his", "her", "their", "someone", "somebody", "guy", "you", "your")

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
