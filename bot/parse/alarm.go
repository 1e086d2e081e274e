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

// alarm listens to one line. Pain needs the first person and a body part, so that
// soreness, jokes and other people's troubles are none; alarm words need less.
func (s *session) alarm(tokens []token) {
	pain, part, self, popped, numb := false, false, false, false, false
	for i, t := range tokens {
		if t.kind != word {
			continue
		}
		denied := i > 0 && negations[tokens[i-1].text] || i > 1 && negations[tokens[i-2].text] || i+1 < len(tokens) && tokens[i+1].text == "free"
		pain = pain || painWords[t.text] && !denied
		// "back" is a body part only with a possessive: "my back", not "back squat".
		part = part || bodyParts[t.text] && (t.text != "back" || i > 0 && (tokens[i-1].text == "my" || tokens[i-1].text == "lower"))
		self = self || firstPerson[t.text]
		popped = popped || t.text == "popped" && !denied
		numb = numb || t.text == "numb" && !denied
		if !denied && alarming(tokens, i) && !someoneElse(tokens) {
			s.out.Alarm = Alarm
			return
		}
	}
	switch {
	case (popped || numb) && (part || self && numb):
		s.out.Alarm = Alarm
	case pain && part && self && s.out.Alarm == NoAlarm:
		s.out.Alarm = Pain
	}
}

// alarmPhrases need no more than themselves.
var alarmPhrases = byFirstWord("chest pain", "chest pains", "pain in my chest", "fainted", "passed out", "blacked out", "cannot see", "cant see",
	"can not see", "cant feel my", "cannot feel my", "cant breathe", "cannot breathe", "something popped", "heard a pop")

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

func someoneElse(tokens []token) bool {
	for _, t := range tokens {
		if firstPerson[t.text] {
			return false
		}
	}
	for _, t := range tokens {
		if t.text == "he" || t.text == "she" || t.text == "they" || t.text == "someone" || t.text == "guy" {
			return true
		}
	}
	return false
}
