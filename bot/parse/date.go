package parse

import (
	"strconv"
	"strings"
	"time"

	"blockbell/planner"
)

// Years that a date may lie in: births at one end, plans at the other.
const (
	firstYear = 1900
	lastYear  = 2199
)

const dateHint = "Write a date as year-month-day, for example 2027-06-12."

// Date reads a day: 2027-06-12, 12 June 2027, June 12, 12.6.2027, today,
// tomorrow, yesterday, saturday, next saturday, last saturday, in 3 weeks, 10 days
// ago. A day without a year is the next one on or after today. A weekday is the
// first one on or after today; with "next" it lies after today, with "last" before.
//
// 12/06/2027 can be June or December and is refused, unless one number is above 12
// or both are equal. A day that does not exist is refused with the last day of
// its month.
func Date(text string, today planner.Date) (planner.Date, error) {
	return readDate(text, today, false)
}

// PastDate is Date for things that have happened: a day without a year and a bare
// weekday are the latest on or before today.
func PastDate(text string, today planner.Date) (planner.Date, error) {
	return readDate(text, today, true)
}

func readDate(text string, today planner.Date, past bool) (planner.Date, error) {
	t := strings.ToLower(strings.TrimSpace(dashes.Replace(text)))
	if tooLong(t, longestWord) {
		return 0, notDate(text)
	}
	f := dateWords(t)
	if len(f) == 0 {
		return 0, notDate(text)
	}
	r := dateReader{words: f, today: today, past: past}
	if d, err := r.numeric(); d != 0 || err != nil {
		return d, err
	}
	for _, read := range []func() (planner.Date, bool){r.relative, r.counted, r.weekday} {
		if d, ok := read(); ok {
			return inYears(d, text)
		}
	}
	d, err := r.named()
	if d == 0 && err == nil {
		err = notDate(text)
	}
	return d, err
}

func notDate(text string) error {
	return invalid(dateHint, "%q is not a date I can read", Clean(text))
}

func inYears(d planner.Date, text string) (planner.Date, error) {
	if y, _, _ := d.Civil(); y < firstYear || y > lastYear {
		return 0, invalid(dateHint, "%q lies outside the years %d to %d", Clean(text), firstYear, lastYear)
	}
	return d, nil
}

// dateWords splits at blanks and commas and drops words that mean nothing.
func dateWords(t string) []string {
	var words []string
	for _, w := range strings.FieldsFunc(t, func(r rune) bool { return r == ' ' || r == ',' || r == '\u00a0' || r == '\t' }) {
		if w != "of" && w != "on" && w != "the" {
			words = append(words, w)
		}
	}
	return words
}

// dateReader tries the forms of a date one after the other.
type dateReader struct {
	words []string
	today planner.Date
	past  bool
}

func (r dateReader) relative() (planner.Date, bool) {
	switch strings.Join(r.words, " ") {
	case "today", "tonight", "now":
		return r.today, true
	case "tomorrow":
		return r.today.AddDays(1), true
	case "yesterday", "last night":
		return r.today.AddDays(-1), true
	case "day after tomorrow":
		return r.today.AddDays(2), true
	case "day before yesterday":
		return r.today.AddDays(-2), true
	case "next week":
		return r.today.AddDays(7), true
	}
	return 0, false
}

// counted reads "in 3 weeks", "in a month", "3 weeks ago".
func (r dateReader) counted() (planner.Date, bool) {
	w, sign := r.words, 1
	switch {
	case len(w) == 3 && w[0] == "in":
		w = w[1:]
	case len(w) == 4 && w[2] == "from" && (w[3] == "now" || w[3] == "today"):
		w = w[:2]
	case len(w) == 3 && w[2] == "ago":
		w, sign = w[:2], -1
	default:
		return 0, false
	}
	n, ok := count(w[0])
	if !ok || n > 400 {
		return 0, false
	}
	switch strings.TrimSuffix(w[1], "s") {
	case "day":
		return r.today.AddDays(sign * n), true
	case "week":
		return r.today.AddDays(sign * 7 * n), true
	case "month":
		return addMonths(r.today, sign*n), true
	}
	return 0, false
}

// addMonths keeps the day of the month, or takes the month's last day.
func addMonths(d planner.Date, n int) planner.Date {
	y, m, day := d.Civil()
	first := planner.NewDate(y, m+time.Month(n), 1)
	fy, fm, _ := first.Civil()
	return first.AddDays(min(day, daysIn(fy, fm)) - 1)
}

var numberWords = map[string]int{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}

// count reads a small whole number in digits or as a word.
func count(w string) (int, bool) {
	if n, ok := numberWords[w]; ok {
		return n, true
	}
	n, err := strconv.ParseUint(w, 10, 16)
	return int(n), err == nil
}

// weekday reads "saturday", "next sat", "last saturday", "this saturday".
func (r dateReader) weekday() (planner.Date, bool) {
	w, which := r.words, ""
	if len(w) == 2 {
		which, w = w[0], w[1:]
	}
	if len(w) != 1 {
		return 0, false
	}
	day, ok := weekdayOf(w[0])
	switch {
	case !ok:
		return 0, false
	case which == "next" || which == "coming":
		return r.today.AddDays(1).OnOrAfter(day), true
	case which == "last":
		return r.today.AddDays(-1).OnOrBefore(day), true
	case which == "" && r.past:
		return r.today.OnOrBefore(day), true
	case which == "" || which == "this":
		return r.today.OnOrAfter(day), true
	}
	return 0, false
}

// weekdayOf reads a weekday in full or in its usual short forms.
func weekdayOf(w string) (time.Weekday, bool) {
	d, ok := weekdays[w]
	return d, ok
}

var weekdays = func() map[string]time.Weekday {
	m := map[string]time.Weekday{"tues": time.Tuesday, "thur": time.Thursday, "thurs": time.Thursday}
	for d := time.Sunday; d <= time.Saturday; d++ {
		full := strings.ToLower(d.String())
		m[full], m[full[:3]] = d, d
	}
	return m
}()
