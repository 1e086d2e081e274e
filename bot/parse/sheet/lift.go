package sheet

import (
	"regexp"
	"slices"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// named is a lift as a file calls it.
type named struct {
	lift    planner.Lift
	variant planner.Variant
	known   bool
}

// bracketed is "Squat (Barbell)": a name with more about it behind.
var bracketed = regexp.MustCompile(`^([^()\[\]]+?)\s*[(\[]([^()\[\]]+)[)\]]$`)

// liftNamed reads the name of a lift with its variant, whatever side of the name
// and in whatever brackets the variant stands. A barbell is no news.
func liftNamed(name, variant string, standard parse.Standard) named {
	name, variant = strings.TrimSpace(name), strings.TrimSpace(variant)
	for _, text := range spellings(name, variant) {
		if l, v, ok := parse.LiftOf(without(text, "barbell", "bb"), standard); ok {
			return named{l, v, true}
		}
	}
	// With what an accessory is done makes no other lift of it.
	for _, text := range spellings(name, variant) {
		if l, v, ok := parse.LiftOf(without(text, "dumbbell", "db", "cable", "machine", "kettlebell"), standard); ok && !l.Competition() {
			return named{l, v, true}
		}
	}
	plain := strings.ToLower(parse.Clean(strings.Join(strings.Fields(variant+" "+name), " ")))
	return named{lift: planner.Lift(plain)}
}

// spellings are the ways in which a name and its variant may be read.
func spellings(name, variant string) []string {
	all := []string{name}
	if m := bracketed.FindStringSubmatch(name); m != nil {
		all = []string{m[2] + " " + m[1], m[1] + " " + m[2]}
	}
	var out []string
	for _, n := range all {
		if variant != "" {
			n = variant + " " + n
		}
		out = append(out, n)
	}
	return out
}

// without drops words from a name.
func without(name string, words ...string) string {
	var kept []string
	for _, w := range strings.Fields(name) {
		if !slices.Contains(words, strings.ToLower(w)) {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// nameable tells whether the name of a lift that is not known can be kept: letters,
// digits and blanks, short enough to show.
var nameable = regexp.MustCompile(`^[\p{L}\p{N}][\p{L}\p{M}\p{N} '/&+().,-]{1,39}$`)
