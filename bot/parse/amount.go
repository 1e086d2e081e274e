package parse

import (
	"math"
	"strings"

	"blockbell/planner"
)

// leastLoad is the number from which a bare number is a load and not a count of
// sets: the empty bar.
const leastLoad = 20

// amount is a number with what stands around it.
type amount struct {
	value   float64
	unit    planner.Unit // as typed; empty where none was
	decimal bool
	percent bool
	ofTop   bool   // with percent: of the top set and not of the max
	own     bool   // added to the lifter's own weight
	twice   bool   // another weight stands beside it that does not agree
	noun    string // "sets" or "reps" behind the number
	tail    int    // of a spelled number: what of it could be repetitions
	col     int
}

// load tells whether the number can only be a weight.
func (a amount) load() bool {
	return a.unit != "" || a.decimal || a.percent || a.own || a.value >= leastLoad || a.value <= 0
}

// whole tells whether the number can be a count.
func (a amount) whole() bool {
	return a.unit == "" && !a.percent && !a.own && a.value == math.Trunc(a.value)
}

func (r *reader) tok(i int) token {
	if i < 0 || i >= len(r.tokens) {
		return token{kind: sign, col: len(r.runes) + 1}
	}
	return r.tokens[i]
}

// isSign tells whether token i is the sign s.
func (r *reader) isSign(i int, s string) bool {
	t := r.tok(i)
	return t.kind == sign && t.text == s
}

// isNumber tells whether a number stands at i, or a dash that belongs to one.
func (r *reader) isNumber(i int) bool {
	return r.tok(i).kind == num || r.negative(i)
}

// negative tells whether a minus sign stands at i: a dash glued to a number and to
// nothing before.
func (r *reader) negative(i int) bool {
	return r.isSign(i, "-") && r.tok(i+1).kind == num && r.tok(i+1).glued && (i == 0 || !r.tok(i).glued || r.isSign(i-1, times))
}

// amount reads the number at i with decimals behind a comma, its unit and percent
// sign, and the same weight repeated in brackets. It returns the index after them.
func (r *reader) amount(i int, comma bool) (amount, int) {
	a := amount{col: r.tok(i).col}
	minus := r.negative(i)
	if minus {
		i++
	}
	t := r.tok(i)
	a.value, a.decimal, a.tail = t.value, strings.Contains(t.text, "."), t.tail
	i++
	if part, ok := r.decimals(i); ok && comma && !a.decimal && !r.inList(i-1) {
		a.value, a.decimal = a.value+part, true
		i += 2
	}
	if r.isSign(i, "½") && r.tok(i).glued && !a.decimal {
		a.value, a.decimal = a.value+0.5, true
		i++
	}
	if minus {
		a.value = -a.value
	}
	switch {
	case r.isSign(i, "%"):
		a.percent = true
		return a, i + 1
	case r.unitAt(i) != "":
		a.unit = r.unitAt(i)
		i = r.again(&a, i+1)
	}
	return a, i
}

// decimals reads ",5" behind a number: one digit, or the two of a quarter. What
// goes on with another comma is a list.
func (r *reader) decimals(i int) (float64, bool) {
	t := r.tok(i + 1)
	if !r.isSign(i, ",") || !r.tok(i).glued || t.kind != num || !t.glued || r.isSign(i+2, ",") && r.tok(i+3).kind == num && r.tok(i+3).glued {
		return 0, false
	}
	switch {
	case len(t.text) == 1:
		return t.value / 10, true
	case t.text == "25" || t.text == "50" || t.text == "75" || t.text == "00":
		return t.value / 100, true
	}
	return 0, false
}

// inList tells whether the number at i goes on a list of weights: "60,70,75 x5".
func (r *reader) inList(i int) bool {
	return r.last.open() && r.tok(i).glued && r.isSign(i-1, ",") && r.tok(i-1).glued && r.tok(i-2).kind == num
}

// unitAt returns the unit named at i.
func (r *reader) unitAt(i int) planner.Unit {
	t := r.tok(i)
	if t.kind == word || t.text == "#" && t.glued {
		return r.s.lang.units[t.text]
	}
	return ""
}

// again reads the same weight in the other unit, in brackets or behind a stroke, and checks that the
// two agree to 1.5 %.
func (r *reader) again(a *amount, i int) int {
	stroke := r.isSign(i, "/")
	if !stroke && !r.isSign(i, "(") || r.tok(i+1).kind != num {
		return i
	}
	b, j := r.amount(i+1, true)
	switch {
	case b.unit == "" || stroke && b.unit == a.unit:
		return i
	case stroke:
		j-- // "45kg/100lb x5"
	case !r.isSign(j, ")"):
		return i
	}
	one, two := planner.In(a.unit, min(a.value, 1e6)).Kg(), planner.In(b.unit, min(b.value, 1e6)).Kg()
	a.twice = math.Abs(one-two) > 0.015*math.Max(one, two)
	return j + 1
}
