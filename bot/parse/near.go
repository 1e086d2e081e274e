package parse

import (
	"strings"

	"github.com/hbollon/go-edlib"

	"blockbell/planner"
)

// nearEnough is the share of letters two words must have in common, counting two
// swapped letters as one slip.
const nearEnough = 0.55

// longestWord is the length above which no near miss is looked for.
const longestWord = 40

// shortForms are abbreviations that no count of slips would recognise.
var shortForms = map[string]string{
	"sq": "squat", "bp": "bench", "dl": "deadlift", "pull": "deadlift",
	"f": "women", "female": "women", "woman": "women", "w": "women",
	"m": "men", "male": "men", "man": "men",
	"bw": "bodyweight", "dob": "born", "birthday": "born", "tz": "zone", "timezone": "zone",
	"hyp": "hypertrophy", "muscle": "hypertrophy", "force": "strength", "peak": "peaking",
	"beginner": "novice", "starter": "new", "dm": "direct", "wt": "weight", "wl": "weight",
	"competition": "main", "mock": "test", "practice": "tune-up", "delete": "drop", "remove": "drop",
	"day": "today", "del": "drop",
}

// Near returns the one of among that word most likely meant: the same word in
// other case, a known abbreviation, the only one that begins with it, or the
// closest by slips. It is false where nothing is close.
func Near(word string, among []string) (string, bool) {
	w := strings.ToLower(strings.TrimSpace(word))
	if w == "" || tooLong(w, longestWord) {
		return "", false
	}
	for _, want := range []string{w, shortForms[w]} {
		for _, a := range among {
			if want != "" && strings.EqualFold(a, want) {
				return a, true
			}
		}
	}
	if a, ok := onlyPrefix(w, among); ok {
		return a, true
	}
	return closest(w, among)
}

// onlyPrefix returns the single choice that begins with at least two letters w.
func onlyPrefix(w string, among []string) (string, bool) {
	found := ""
	for _, a := range among {
		if len(w) >= 2 && strings.HasPrefix(strings.ToLower(a), w) {
			if found != "" {
				return "", false
			}
			found = a
		}
	}
	return found, found != ""
}

func closest(w string, among []string) (string, bool) {
	best, share := "", float32(0)
	for _, a := range among {
		s, err := edlib.StringsSimilarity(w, strings.ToLower(a), edlib.OSADamerauLevenshtein)
		if err == nil && s > share {
			best, share = a, s
		}
	}
	return best, share >= nearEnough
}

// Choice reads one word out of among, whatever its case. Other words are an
// Unknown error that names the choices and, where one is close, asks whether that
// was meant. what names the option, for example "level".
func Choice(what, word string, among []string) (string, error) {
	w := strings.TrimSpace(word)
	for _, a := range among {
		if strings.EqualFold(a, w) {
			return a, nil
		}
	}
	hint := "Choose one of: " + strings.Join(among, ", ") + "."
	if near, ok := Near(w, among); ok {
		hint = "Did you mean " + near + "? " + hint
	}
	return "", planner.Errorf(planner.Unknown, hint, "%s cannot be %q", what, Clean(w))
}

// Bool reads yes or no in its usual forms.
func Bool(text string) (bool, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "yes", "y", "on", "true", "1", "yep", "yeah":
		return true, nil
	case "no", "n", "off", "false", "0", "nope":
		return false, nil
	}
	return false, invalid("Write yes or no.", "%q is neither yes nor no", Clean(text))
}
