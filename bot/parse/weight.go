package parse

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"blockbell/planner"
)

// weightForm is a number with at most two decimals behind a comma or three behind
// a point, then a unit. Three digits behind a comma could be thousands, so they
// are refused; so are signs and exponents.
var weightForm = regexp.MustCompile(`^([+-]?)(\d{1,7}(?:\.\d{1,3}|,\d{1,2})?)\s*([a-z#]*)\.?$`)

// units are the words for the two units.
var units = map[string]planner.Unit{
	"kg": planner.KG, "kgs": planner.KG, "kilo": planner.KG, "kilos": planner.KG, "kilogram": planner.KG, "kilograms": planner.KG,
	"lb": planner.LB, "lbs": planner.LB, "pound": planner.LB, "pounds": planner.LB, "#": planner.LB,
}

// Weight reads a mass such as 140, 92,5, 405lb or 225#; without a unit of its own
// it is in the given one (kg if that is empty). It must lie between
// planner.MinWeight and planner.MaxWeight, else the error names the value and the
// range.
func Weight(text string, unit planner.Unit) (planner.Grams, error) {
	return mass(text, unit, planner.MinWeight, planner.MaxWeight)
}

// Bounds of a bodyweight, wider than any class (common practice).
const (
	MinBodyweight = 20 * planner.Kilogram
	MaxBodyweight = 350 * planner.Kilogram
)

// Bodyweight is Weight for a person's own mass, between MinBodyweight and
// MaxBodyweight.
func Bodyweight(text string, unit planner.Unit) (planner.Grams, error) {
	return mass(text, unit, MinBodyweight, MaxBodyweight)
}

// mass reads a number and its unit, and refuses masses outside low to high.
func mass(text string, unit planner.Unit, low, high planner.Grams) (planner.Grams, error) {
	t := strings.ToLower(strings.TrimSpace(dashes.Replace(text)))
	m := weightForm.FindStringSubmatch(t)
	if tooLong(t, longestWord) || m == nil {
		return 0, invalid("Write a weight such as 140, 92.5 or 225lb.", "%q is not a weight", Clean(text))
	}
	if m[3] != "" {
		u, known := units[m[3]]
		if !known {
			return 0, invalid("Write kg or lb behind the number.", "%q is not a unit of weight", Clean(m[3]))
		}
		unit = u
	}
	// The form allows seven digits at most, so nothing overflows.
	value, err := strconv.ParseFloat(m[1]+strings.Replace(m[2], ",", ".", 1), 64)
	if err != nil {
		return 0, invalid("Write a weight such as 140, 92.5 or 225lb.", "%q is not a weight", Clean(text))
	}
	return bounded(value, unit, low, high)
}

// bounded converts a number to grams and refuses what is outside low to high. The
// number is compared before it becomes an integer, so a huge one cannot wrap.
func bounded(value float64, unit planner.Unit, low, high planner.Grams) (planner.Grams, error) {
	if unit == "" {
		unit = planner.KG
	}
	g := planner.In(unit, min(max(value, -1e7), 1e7))
	if unit == planner.LB {
		g = snap(g, low, high)
	}
	if g >= low && g <= high {
		return g, nil
	}
	noun := "weight"
	if low == MinBodyweight && high == MaxBodyweight {
		noun = "bodyweight"
	}
	return 0, invalid("Check the number and the unit.", "%s %s: a %s lies between %s and %s",
		figure(value), unit, noun, bound(low, unit), bound(high, unit))
}

// figure writes a typed number back, cut where it is absurdly long.
func figure(value float64) string {
	text := strconv.FormatFloat(value, 'f', -1, 64)
	if len(text) > 12 {
		text = text[:11] + "…"
	}
	return text
}

// bound writes a limit for people: whole pounds, and thousands apart.
func bound(g planner.Grams, unit planner.Unit) string {
	text := g.Number(unit)
	if unit == planner.LB {
		text = strconv.FormatFloat(math.Round(g.Lb()), 'f', 0, 64)
	}
	if n := len(text) - 3; n > 0 && !strings.Contains(text, ".") {
		text = text[:n] + "," + text[n:]
	}
	return text + " " + string(unit)
}

// snap lets the bounds, which are round in kg, be written in whole pounds or with
// one decimal: what lies between the bound and its rounded form, or less than half
// of that decimal outside, is the bound itself.
func snap(g, low, high planner.Grams) planner.Grams {
	const half = 23 // grams in 0.05 lb, rounded up
	switch {
	case g < low && g >= min(low-half, planner.Pounds(math.Round(low.Lb()))):
		return low
	case g > high && g <= max(high+half, planner.Pounds(math.Round(high.Lb()))):
		return high
	}
	return g
}

// WrittenIn returns the unit in which a weight was most likely written: usual,
// unless the weight is a multiple of a quarter kilogram or of half a pound in the
// other unit only.
func WrittenIn(g planner.Grams, usual planner.Unit) planner.Unit {
	kilos := g%(planner.Kilogram/4) == 0
	pounds := g == planner.Pounds(math.Round(g.Lb()*2)/2)
	switch {
	case kilos == pounds && usual != "":
		return usual
	case pounds && !kilos:
		return planner.LB
	}
	return planner.KG
}

// dashes turns every dash and minus into the plain one.
var dashes = strings.NewReplacer("−", "-", "–", "-", "—", "-", "‑", "-", "‐", "-")

// UnitOf returns the unit that a word such as "kilos" or "lbs" means, empty where
// it means none.
func UnitOf(word string) planner.Unit { return units[strings.ToLower(word)] }
