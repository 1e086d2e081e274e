package parse

import (
	"fmt"
	"strconv"
	"strings"

	"blockbell/planner"
)

// implements are what a competition lift is not done with: "incline db", "smith squat".
var implements = setOf("db", "dbs", "dumbbell", "dumbbells", "kb", "kbs", "kettlebell", "kettlebells", "machine", "smith", "cable", "landmine")

// bars are bars that no form of a lift stands for, without the word bar.
var bars = setOf("axle", "cambered", "fat", "thick", "swiss", "football", "bow", "curved", "earthquake", "bamboo")

// mostNamed is how many sets a question names before it counts the rest.
const mostNamed = 3

// oddWord returns the word without a meaning that stands right beside the lift of the
// set that begins here: it may be a name, or a form that nothing is known of. A name
// with an s, or behind "for" or "with", is a name. Empty: there is none.
func (r *reader) oddWord() token {
	t := r.tok(r.strangeAt)
	if r.strangeAt < 0 || t.kind != word {
		return token{}
	}
	if implements[t.text] {
		if r.isSign(r.strangeAt+1, ":") { // "Smith: squat 140x5"
			return token{}
		}
		return t
	}
	for i := len(r.items) - 1; i >= 0; i-- {
		said := r.items[i].said
		if said == nil || !r.besideLift(said) {
			continue
		}
		before := r.tok(r.strangeAt - 1).text
		if strings.ContainsAny(r.typed(t.col), "'’") || before == "for" || before == "with" || before == "w" {
			return token{}
		}
		return t
	}
	return token{}
}

// besideLift tells whether the word without a meaning stands right beside a lift, or
// with the word bar between: "axle bar deadlift".
func (r *reader) besideLift(said *spoken) bool {
	front := said.from - 1
	if r.tok(front).text == "bar" {
		front--
	}
	return r.strangeAt == front || r.strangeAt == said.to
}

// withImplement tells whether a lift was done with something else than a bar. An
// accessory is the same with any of them; a competition lift is refused, since that is
// none of the lifts that the log keeps.
func (p *placer) withImplement(w *work) bool {
	if !w.foreign || !implements[w.odd.text] || p.lift.own {
		return false
	}
	if !p.lift.lift.Competition() {
		w.foreign = false
		return false
	}
	p.r.serious = true
	p.r.quoted(w.odd.col, "I keep the lifts done with a bar, dumbbell bench, and common accessories such as rows and curls. Leave this one out.",
		"that "+said(planner.Set{Lift: p.lift.lift, Variant: p.variant(w)})+" is not one of the lifts I keep")
	return true
}

// whoseText asks about the sets that could be somebody else's or of another form.
func (s *session) whoseText() string {
	odd, lift, same := s.foreign[0].odd, s.foreign[0].sets[0], true
	var plain, named []string
	for _, f := range s.foreign {
		for _, set := range f.sets {
			same = same && f.odd == odd && said(set) == said(lift)
			how := (&placer{session: s}).say(set)
			plain, named = append(plain, how), append(named, said(set)+", "+how)
		}
	}
	switch {
	case !same || odd == "":
		return "Was this yours: " + some(named) + "?"
	case bars[odd]:
		return fmt.Sprintf("I know no %s called %q. Keep it as a plain %s: %s?", said(lift), odd, said(lift), some(plain))
	}
	return fmt.Sprintf("I do not know the word %q. Was this yours, and a plain %s: %s?", odd, said(lift), some(plain))
}

// some joins what a question names, as far as one can read that.
func some(list []string) string {
	if n := len(list) - mostNamed; n > 0 {
		list = append(list[:mostNamed:mostNamed], "and "+strconv.Itoa(n)+" more")
	}
	return strings.Join(list, "; ")
}

// askWhose asks once for all sets that could be somebody else's.
func (s *session) askWhose() {
	if len(s.foreign) == 0 {
		return
	}
	first := s.foreign[0]
	q := Question{Line: first.line, Column: first.col, Text: s.whoseText()}
	var typed, other Answer
	swaps := true
	for _, f := range s.foreign {
		for _, set := range f.sets {
			typed.Sets = append(typed.Sets, set)
			swapped, ok := s.meantInOtherUnit(f, set)
			swaps = swaps && ok
			other.Sets = append(other.Sets, swapped)
		}
	}
	typed.Label = "Yes"
	if swaps {
		typed.Label, other.Label = "Yes, in "+string(s.c.Unit), "Yes, in "+string(otherUnit(s.c.Unit))
		q.Answers = append(q.Answers, other)
	}
	q.Answers = append(q.Answers, typed, Answer{Label: "No"})
	s.out.Questions = append(s.out.Questions, q)
}

// meantInOtherUnit returns the set in the unit the lifter does not write, where it
// would then be plausible and is not as it stands.
func (s *session) meantInOtherUnit(f homeless, set planner.Set) (planner.Set, bool) {
	p := placer{session: s}
	unit := otherUnit(s.c.Unit)
	swapped := set
	swapped.Weight = planner.In(unit, f.typed.value)
	ok := f.typed.unit == "" && !f.unitSaid && p.far(set.Weight, s.best(set.Lift)) != nil && swapped.Weight >= planner.MinWeight &&
		swapped.Weight <= planner.MaxWeight && p.far(swapped.Weight, s.best(set.Lift)) == nil
	return swapped, ok
}
