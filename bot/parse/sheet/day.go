package sheet

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// Order says which number of a day in digits is the day of the month.
type Order string

// 3/4/2027 is the 3rd of April, or the 4th of March.
const (
	DayFirst   Order = "day first"
	MonthFirst Order = "month first"
)

var (
	digitsForm = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})([./-])(\d{4}|\d{2})$`)
	isoForm    = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
	yearForm   = regexp.MustCompile(`\b(19|20)\d\d\b`)
)

// dayPart drops a time of day behind a date: "2027-01-04T18:30:00Z", "4/1/2027
// 18:30", "4 Jan 2027, 18:30".
func dayPart(cell string) string {
	if len(cell) > 10 && cell[10] == 'T' && isoForm.MatchString(cell[:10]) {
		return cell[:10]
	}
	words := strings.Fields(cell)
	for n := len(words); n > 1; n = len(words) {
		last := strings.ToLower(words[n-1])
		if !strings.Contains(last, ":") && last != "am" && last != "pm" {
			break
		}
		words = words[:n-1]
	}
	return strings.TrimSuffix(strings.Join(words, " "), ",")
}

// order finds out from the days of the file which number is which. It is empty
// where they leave it open, or contradict each other. Dates with points have the
// day first wherever they are used.
func (d *Draft) order() Order {
	dayFirst, monthFirst, open := false, false, false
	for _, r := range d.Rows {
		m := digitsForm.FindStringSubmatch(dayPart(d.cell(r, Day)))
		if m == nil || m[2] == "." {
			continue
		}
		a, b := number(m[1]), number(m[3])
		dayFirst = dayFirst || a > 12
		monthFirst = monthFirst || b > 12
		open = open || a <= 12 && b <= 12 && a != b
	}
	switch {
	case dayFirst && !monthFirst:
		return DayFirst
	case monthFirst && !dayFirst:
		return MonthFirst
	case !open && !dayFirst:
		return DayFirst // nothing depends on it
	}
	return ""
}

// dayOf reads the day of a row: today or earlier, with its year.
func dayOf(cell string, order Order, today planner.Date) (planner.Date, error) {
	text := dayPart(cell)
	if text == "" {
		return 0, planner.Errorf(planner.Invalid, "", "the day is missing")
	}
	d, err := readDay(text, order, today)
	switch {
	case err != nil:
		return 0, err
	case d > today:
		return 0, planner.Errorf(planner.Invalid, "", "%s is still to come", d.Long())
	case d < planner.NewDate(1950, time.January, 1):
		return 0, planner.Errorf(planner.Invalid, "", "%s is too long ago to be a day of training", d.Long())
	}
	return d, nil
}

func readDay(text string, order Order, today planner.Date) (planner.Date, error) {
	m := digitsForm.FindStringSubmatch(text)
	switch {
	case m != nil && m[2] == m[4]:
		day, month := m[1], m[3]
		if m[2] != "." && order == MonthFirst {
			day, month = month, day
		}
		year := m[5]
		if len(year) == 2 {
			year = "20" + year
		}
		return parse.PastDate(year+"-"+month+"-"+day, today)
	case isoForm.MatchString(text), yearForm.MatchString(text):
		return parse.PastDate(text, today)
	}
	return 0, planner.Errorf(planner.Invalid, "", "%q is not a day with its year", parse.Clean(text))
}

// number reads digits that a form has admitted.
func number(digits string) int {
	n, _ := strconv.Atoi(digits) // two digits by the form
	return n
}
