package parse

import (
	"maps"
	"slices"
	"strings"

	"blockbell/planner"
)

// Language is what lifters of one tongue say: names of lifts and of their forms,
// units, numbers, and the words around a set that mean something. It stands beside
// English, since lifters everywhere mix the two. It is built once and never
// changed.
type Language struct {
	*index
	units   map[string]planner.Unit
	words   map[string]meaning // also of several words with one blank between
	longest map[string]int     // first word of such -> most words
	roles   [rolesEnd]map[string]bool
	numbers map[string]int
	reps    map[string]int
}

// role is a part that a word plays in some places only, whatever else it means.
type role uint8

const (
	lasting     role = iota // of the words of intent, those that also count behind a set: "140x5 tomorrow"
	asking                  // begins a question
	contrasting             // stands between what was done and what was not
	passing                 // makes the number before it something else than a load: minutes, people
	kin                     // a person in the lifter's life
	multiplying             // stands between the numbers of a set: "5 by 5"
	hundreds                // multiplies the number word before it by a hundred
	joining                 // may stand inside a spelled number: "one hundred and five"
	pointing                // begins the decimals of a spelled number: "ninety two point five"
	rolesEnd
)

// tables are the words of a language, as they are typed in lower case.
type tables struct {
	lifts   []names
	forms   []forms
	units   map[string]planner.Unit
	words   map[meaning][]string
	roles   map[role][]string
	numbers map[string]int // number words up to 99
	reps    map[string]int // names for sets of few repetitions
}

// english is what everybody may write.
var english = build(table, englishTables)

// newLanguage puts the tables of a language beside the English ones. Its own words
// win where both have them.
func newLanguage(t tables) *Language {
	l := build(newIndex(slices.Concat(englishLifts, t.lifts), slices.Concat(englishForms, t.forms)), englishTables)
	l.learn(t)
	return l
}

func build(x *index, t tables) *Language {
	l := &Language{index: x, units: map[string]planner.Unit{}, words: map[string]meaning{}, longest: map[string]int{},
		numbers: map[string]int{}, reps: map[string]int{}}
	for i := range l.roles {
		l.roles[i] = map[string]bool{}
	}
	l.learn(t)
	return l
}

// learn adds the words of tables; what they say wins over what was known.
func (l *Language) learn(t tables) {
	maps.Copy(l.units, t.units)
	maps.Copy(l.words, sorted(t.words))
	maps.Copy(l.numbers, t.numbers)
	maps.Copy(l.reps, t.reps)
	for r, words := range t.roles {
		maps.Copy(l.roles[r], setOf(words...))
	}
	for w := range l.words {
		first, _, _ := strings.Cut(w, " ")
		l.longest[first] = max(l.longest[first], strings.Count(w, " ")+1)
	}
}

// plays tells whether a word plays a role.
func (l *Language) plays(r role, word string) bool { return l.roles[r][word] }

// meaningAt returns what the longest phrase of the vocabulary at tokens[i] means and
// how many tokens it takes; one token of unknown meaning where there is none.
func (l *Language) meaningAt(tokens []token, i int) (meaning, int) {
	for n := min(l.longest[tokens[i].text], len(tokens)-i); n > 1; n-- {
		phrase, used := join(tokens, i, n)
		if m, ok := l.words[phrase]; ok {
			return m, used
		}
	}
	return l.words[tokens[i].text], 1
}
