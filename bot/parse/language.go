package parse

import (
	"maps"
	"slices"

	"blockbell/planner"
)

// Language is what lifters of one tongue say: names of lifts and of their forms,
// units, and the few words around a set that mean something. It stands beside
// English, since lifters everywhere mix the two. It is built once and never
// changed.
type Language struct {
	*index
	units map[string]planner.Unit
	words map[string]meaning
}

// tables are the words of a language, as they are typed in lower case.
type tables struct {
	lifts []names
	forms []forms
	units map[string]planner.Unit
	words map[meaning][]string
}

// english is what everybody may write.
var english = &Language{index: table, units: units, words: vocabulary}

// newLanguage puts the tables of a language beside the English ones. Its own words
// win where both have them.
func newLanguage(t tables) *Language {
	l := &Language{
		index: newIndex(slices.Concat(englishLifts, t.lifts), slices.Concat(englishForms, t.forms)),
		units: maps.Clone(units), words: maps.Clone(vocabulary),
	}
	maps.Copy(l.units, t.units)
	maps.Copy(l.words, sorted(t.words))
	return l
}
