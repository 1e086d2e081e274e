package blocks

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"blockbell/planner"
)

// Part is one block of a split: its kind and its training weeks.
type Part struct {
	Kind  planner.BlockKind `json:"kind"`
	Weeks int               `json:"weeks"`
}

// Split is an order of blocks as a coach types it, for example "H6 S8 P4". The
// first part may be the block that runs.
type Split []Part

// letterOf are the letters a split is written with.
var letterOf = map[planner.BlockKind]string{
	planner.Hypertrophy: "H", planner.Strength: "S", planner.Peaking: "P", planner.Recovery: "R",
}

// kindWords are the words a coach may write for a kind.
var kindWords = map[string]planner.BlockKind{
	"h": planner.Hypertrophy, "hyp": planner.Hypertrophy, "hypertrophy": planner.Hypertrophy, "muscle": planner.Hypertrophy, "m": planner.Hypertrophy,
	"s": planner.Strength, "str": planner.Strength, "strength": planner.Strength,
	"p": planner.Peaking, "peak": planner.Peaking, "peaking": planner.Peaking,
	"r": planner.Recovery, "rec": planner.Recovery, "recovery": planner.Recovery, "rest": planner.Recovery,
}

// fillers are words that say nothing.
var fillers = []string{"w", "wk", "wks", "week", "weeks", "block", "blocks", "and", "then", "of"}

// maxParts is how many blocks one split may have.
const maxParts = 40

// splitHint says how a split is written.
const splitHint = "Write a letter and weeks for each block, for example H6 S8 P4: H muscle block (hypertrophy), S strength, P peaking, R recovery."

// String writes the split as "H6 S8 P4".
func (s Split) String() string {
	words := make([]string, len(s))
	for i, p := range s {
		words[i] = fmt.Sprintf("%s%d", letterOf[p.Kind], p.Weeks)
	}
	return strings.Join(words, " ")
}

// Weeks returns the training weeks of all parts together.
func (s Split) Weeks() (n int) {
	for _, p := range s {
		n += p.Weeks
	}
	return n
}

// SplitOf returns the split that blocks make; blocks of no training week are left
// out.
func SplitOf(blocks []planner.Block) Split {
	var s Split
	for _, b := range blocks {
		if b.Weeks > 0 {
			s = append(s, Part{b.Kind, b.Weeks})
		}
	}
	return s
}

// word is one run of letters or digits in a typed split, with its place counted in
// characters from 1.
type word struct {
	text string
	at   int
}

func (w word) isNumber() bool { return unicode.IsDigit([]rune(w.text)[0]) }

// ParseSplit reads a split: letters H, S, P and R or the words they stand for, each
// with its weeks before or behind it ("H6 S8 P4", "6 hypertrophy, 8 strength + 4
// peaking"). Errors are *planner.Error of kind Invalid and name the place.
func ParseSplit(text string) (Split, error) {
	words, err := splitWords(text)
	if err != nil {
		return nil, err
	}
	if len(words) == 0 {
		return nil, planner.Errorf(planner.Invalid, splitHint, "the split is empty")
	}
	numberFirst := words[0].isNumber()
	var s Split
	for i := 0; i < len(words); i += 2 {
		if i+1 == len(words) {
			return nil, lonely(words[i])
		}
		kind, weeks := words[i], words[i+1]
		if numberFirst {
			kind, weeks = weeks, kind
		}
		p, err := readPart(kind, weeks)
		if err != nil {
			return nil, err
		}
		s = append(s, p)
	}
	if len(s) > maxParts {
		return nil, planner.Errorf(planner.Invalid, "", "the split has %d blocks: at most %d are possible", len(s), maxParts)
	}
	return s, nil
}

// lonely is the error for a last word without its other half.
func lonely(w word) error {
	if w.isNumber() {
		return planner.Errorf(planner.Invalid, splitHint, "the %s at place %d belongs to no block", w.text, w.at)
	}
	return planner.Errorf(planner.Invalid, splitHint, "%q at place %d has no number of weeks", w.text, w.at)
}

func readPart(kind, weeks word) (Part, error) {
	switch {
	case kind.isNumber():
		return Part{}, planner.Errorf(planner.Invalid, splitHint, "the %s at place %d belongs to no block", kind.text, kind.at)
	case !weeks.isNumber():
		return Part{}, lonely(kind)
	}
	n := 0
	for _, r := range weeks.text {
		n = min(n*10+int(r-'0'), 10*maxWeeks)
	}
	if n < 1 || n > maxWeeks {
		return Part{}, planner.Errorf(planner.Invalid, splitHint, "%s weeks at place %d: a block lasts 1 to %d weeks", weeks.text, weeks.at, maxWeeks)
	}
	return Part{kindWords[strings.ToLower(kind.text)], n}, nil
}

// separates tells whether r may stand between the parts of a split.
func separates(r rune) bool {
	return unicode.IsSpace(r) || strings.ContainsRune(",;+/|&>:()-–—→.", r)
}

// splitWords cuts a typed split into words and numbers; anything else is an error.
func splitWords(text string) ([]word, error) {
	runes := []rune(text)
	var words []word
	for i := 0; i < len(runes); {
		is := unicode.IsLetter
		switch r := runes[i]; {
		case separates(r):
			i++
			continue
		case r >= '0' && r <= '9':
			is = func(r rune) bool { return r >= '0' && r <= '9' }
		case !unicode.IsLetter(r):
			return nil, planner.Errorf(planner.Invalid, splitHint, "%q at place %d of the split means nothing", string(r), i+1)
		}
		from := i
		for i < len(runes) && is(runes[i]) {
			i++
		}
		w := word{string(runes[from:i]), from + 1}
		if low := strings.ToLower(w.text); !w.isNumber() && kindWords[low] == "" {
			if !slices.Contains(fillers, low) {
				return nil, planner.Errorf(planner.Invalid, splitHint, "%q at place %d is not a kind of block: H, S, P and R are possible", w.text, w.at)
			}
			continue
		}
		words = append(words, w)
	}
	return words, nil
}
