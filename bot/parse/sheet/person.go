package sheet

import (
	"strconv"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// categories are the words for the two categories of the rule books.
var categories = map[string]planner.Category{
	"women": planner.Women, "woman": planner.Women, "w": planner.Women, "f": planner.Women, "female": planner.Women,
	"men": planner.Men, "man": planner.Men, "m": planner.Men, "male": planner.Men,
}

func categoryOf(cell string) (planner.Category, error) {
	if c, ok := categories[strings.ToLower(cell)]; ok {
		return c, nil
	}
	return "", planner.Errorf(planner.Invalid, "Write women or men.", "%q is no category", parse.Clean(cell))
}

func levelOf(cell string) (planner.Level, error) {
	var all []string
	for _, l := range planner.Levels() {
		if strings.EqualFold(string(l), cell) {
			return l, nil
		}
		all = append(all, string(l))
	}
	return "", planner.Errorf(planner.Invalid, "Allowed are "+strings.Join(all, ", ")+".", "%q is no level", parse.Clean(cell))
}

// Ages of lifters: the platform admits nobody under 13, and the oldest lifter on
// record is below 110 (common practice).
const youngest, oldest = 13, 110

// grownUp is the age from which a lifter is no minor.
const grownUp = 18

// bornOn reads a day of birth, or a year alone. Of a year the end is taken that asks
// for more care: its last day where the lifter may still be under 18, else its first.
func bornOn(cell string, today planner.Date) (day planner.Date, yearOnly bool, err error) {
	if year, bad := strconv.Atoi(cell); bad == nil && len(cell) == 4 {
		yearOnly = true
		day, err = planner.ParseDate(cell + "-12-31")
		if err == nil && planner.Age(day, today) >= grownUp {
			day, err = planner.ParseDate(strconv.Itoa(year) + "-01-01")
		}
	} else {
		day, err = parse.PastDate(cell, today)
	}
	if err != nil {
		return 0, false, planner.Errorf(planner.Invalid, "Write the year, or year-month-day.", "%q is no day of birth", parse.Clean(cell))
	}
	age := planner.Age(day, today)
	if yearOnly && age == youngest-1 {
		return day, true, nil // 13 in the course of the year
	}
	if age < youngest || age > oldest {
		return 0, false, planner.Errorf(planner.Invalid, "13 to 110 are allowed.", "born %s would be %d years old", parse.Clean(cell), age)
	}
	return day, yearOnly, nil
}
