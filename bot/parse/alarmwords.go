package parse

import (
	"maps"
	"strings"
)

var (
	bodyParts = setOf("knee", "nee", "kne", "knees", "back", "shoulder", "shoulders", "elbow", "elbows", "hip", "hips", "wrist", "wrists", "neck",
		"hamstring", "hamstrings", "hammy", "quad", "quads", "groin", "pec", "pecs", "ankle", "ankles", "bicep", "biceps", "adductor",
		"adductors", "calf", "achilles", "chest", "arm", "arms", "leg", "legs", "rib", "ribs", "foot", "feet", "hand", "hands", "spine",
		"glute", "glutes", "lat", "lats", "trap", "traps", "forearm", "forearms", "finger", "fingers", "thumb", "thumbs", "toes", "head", "triceps", "tricep")
	painWords = setOf("hurt", "hurts", "hurting", "pain", "pains", "painful", "tweaked", "tweak", "strained", "torn", "tore", "injured",
		"sprained", "pinched", "stabbing", "twinge", "twinges", "swollen", "broken", "ruptured", "dislocated")
	firstPerson = setOf("i", "my", "me", "im", "ive", "mine")
	negations   = setOf("no", "not", "without", "zero", "never", "doesnt", "dont", "didnt", "isnt", "wasnt", "hardly", "free", "hasnt", "havent", "hadnt", "arent", "werent", "stopped", "nor", "neither")
	// injuries say with a first person alone that something happened.
	injuries = setOf("injured")
	// dizziness and numbness need no more than the lifter.
	giddy = setOf("dizzy", "lightheaded", "woozy")
	dead  = setOf("numb", "tingling", "tingly")
	// things are what makes of a part of the body something else: a day, a lift, a
	// garment.
	things = setOf("day", "days", "press", "presses", "curl", "curls", "extension", "extensions", "raise", "raises", "thrust", "thrusts", "sleeve", "sleeves",
		"wrap", "wraps", "squat", "squats", "pulldown", "pulldowns", "pullover", "off", "offs", "room", "start")
)

// alarmPhrases need no more than themselves.
var alarmPhrases = byFirstWord("chest pain", "chest pains", "pain in my chest", "fainted", "passed out", "blacked out", "cannot see", "cant see",
	"can not see", "cant feel my", "cannot feel my", "cant breathe", "cannot breathe", "something popped", "heard a pop",
	"felt a pop", "felt something pop", "heard something pop", "felt it pop", "heard it pop", "felt a snap", "heard a snap", "something snapped",
	"chest tightness", "tight chest", "feinted", "feel faint", "felt faint", "feeling faint", "saw stars", "seeing stars", "light headed", "vision went", "went black",
	"cant breath", "something tore", "felt it tear", "felt a tear", "went pop", "heard a crack",
	"blacking out", "passing out", "nearly fainted", "almost fainted")

func byFirstWord(phrases ...string) map[string][][]string {
	m := map[string][][]string{}
	for _, p := range phrases {
		words := strings.Fields(p)
		m[words[0]] = append(m[words[0]], words)
	}
	return m
}

// others are the words for other people.
var others = setOf("he", "she", "they", "his", "her", "their", "someone", "somebody", "guy", "you", "your")

// alerting are all words with which any of this can begin; most lines have none.
var alerting = func() map[string]bool {
	all := setOf("popped", "pulled", "pulling")
	for _, words := range []map[string]bool{bodyParts, painWords, injuries, giddy, dead} {
		maps.Copy(all, words)
	}
	for first := range alarmPhrases {
		all[first] = true
	}
	return all
}()
