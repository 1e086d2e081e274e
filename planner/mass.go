package planner

import (
	"math"
	"strconv"
)

// Grams is a mass in whole grams, the only mass the program calculates with.
// Kilograms and pounds exist at the edges only.
type Grams int64

// Kilogram is 1,000 g.
const Kilogram Grams = 1000

// gramsPerPound is exact by the international yard and pound agreement of 1959:
// 1 lb = 0.45359237 kg.
const gramsPerPound = 453.59237

// Unit is the unit a lifter reads and writes.
type Unit string

// The two units of the trade.
const (
	KG Unit = "kg"
	LB Unit = "lb"
)

// Kilograms converts kg to whole grams, rounding half away from zero.
func Kilograms(kg float64) Grams { return Grams(math.Round(kg * 1000)) }

// Pounds converts lb to whole grams, rounding half away from zero.
func Pounds(lb float64) Grams { return Grams(math.Round(lb * gramsPerPound)) }

// In converts a number of the given unit to grams.
func In(unit Unit, value float64) Grams {
	if unit == LB {
		return Pounds(value)
	}
	return Kilograms(value)
}

// Kg returns the mass in kilograms.
func (g Grams) Kg() float64 { return float64(g) / 1000 }

// Lb returns the mass in pounds.
func (g Grams) Lb() float64 { return float64(g) / gramsPerPound }

// Number writes the mass in the unit without naming it: at most two decimals in
// kg, one in lb, no trailing zeros.
func (g Grams) Number(unit Unit) string {
	if unit == LB {
		return strconv.FormatFloat(math.Round(g.Lb()*10)/10, 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(g.Kg()*100)/100, 'f', -1, 64)
}

// Text writes the mass with its unit, for example "92.5 kg".
func (g Grams) Text(unit Unit) string {
	if unit == "" {
		unit = KG
	}
	return g.Number(unit) + " " + string(unit)
}
