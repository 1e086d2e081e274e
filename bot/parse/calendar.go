package parse

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"blockbell/planner"
)

var (
	isoForm    = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
	dottedForm = regexp.MustCompile(`^(\d{1,2})\.(\d{1,2})\.?(\d{4}|\d{2})?$`)
	slashForm  = regexp.MustCompile(`^(\d{1,2})[/-](\d{1,2})(?:[/-](\d{4}|\d{2}))?$`)
	dayForm    = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th|\.)?$`)
	yearForm   = regexp.MustCompile(`^(?:'?\d{2}|\d{4})$`)
)

// numeric reads the forms made of digits only. It returns no date and no error
// where the words are of another form.
func (r dateReader) numeric() (planner.Date, error) {
	t := strings.Join(r.words, "")
	if m := isoForm.FindStringSubmatch(t); m != nil {
		return civil(number(m[1]), number(m[2]), number(m[3]))
	}
	if m := dottedForm.FindStringSubmatch(t); m != nil {
		return r.inYear(m[3], number(m[2]), number(m[1]))
	}
	m := slashForm.FindStringSubmatch(t)
	if m == nil {
		return 0, nil
	}
	a, b := number(m[1]), number(m[2])
	switch {
	case a <= 12 && b <= 12 && a != b:
		return 0, invalid(dateHint, "%q can be two different days", Clean(t))
	case b > 12:
		return r.inYear(m[3], a, b)
	}
	return r.inYear(m[3], b, a)
}

// named reads "12 June 2027", "June 12", "Sat 12th of June".
func (r dateReader) named() (planner.Date, error) {
	w := r.words
	asked, hasDay := weekdayOf(w[0])
	if hasDay && len(w) > 1 {
		w = w[1:]
	}
	if len(w) < 2 || len(w) > 3 {
		return 0, nil
	}
	day, month := w[0], w[1]
	if _, ok := monthOf(day); ok {
		day, month = month, day
	}
	m, ok := monthOf(month)
	n := dayForm.FindStringSubmatch(day)
	if !ok || n == nil || (len(w) == 3 && !yearForm.MatchString(w[2])) {
		return 0, nil
	}
	year := ""
	if len(w) == 3 {
		year = strings.TrimPrefix(w[2], "'")
	}
	d, err := r.inYear(year, int(m), number(n[1]))
	if err == nil && hasDay && d.Weekday() != asked {
		return 0, invalid(dateHint, "%d %s is a %s, not a %s", number(n[1]), m, d.Weekday(), asked)
	}
	return d, err
}

// monthOf reads a month in full or in its usual short form.
func monthOf(w string) (time.Month, bool) {
	m, ok := months[strings.TrimSuffix(w, ".")]
	return m, ok
}

var months = func() map[string]time.Month {
	m := map[string]time.Month{"sept": time.September}
	for n := time.January; n <= time.December; n++ {
		full := strings.ToLower(n.String())
		m[full], m[full[:3]] = n, n
	}
	return m
}()

// inYear makes the day of the year typed, two digits meaning this century; with no
// year, the next such day on or after today (the latest before, for what is past).
func (r dateReader) inYear(year string, month, day int) (planner.Date, error) {
	switch len(year) {
	case 2:
		return civil(2000+number(year), month, day)
	case 4:
		return civil(number(year), month, day)
	}
	y, _, _ := r.today.Civil()
	if r.past {
		y++
	}
	step := 1
	if r.past {
		step = -1
	}
	// 29 February may be up to eight years away.
	var d planner.Date
	var err error
	for range 9 {
		d, err = civil(y, month, day)
		if err == nil && (r.past && d <= r.today || !r.past && d >= r.today) {
			return d, nil
		}
		if err != nil && !(month == 2 && day == 29) {
			return 0, err
		}
		y += step
	}
	return d, err
}

// civil makes a date that exists, or an error that says where the month ends.
func civil(year, month, day int) (planner.Date, error) {
	switch {
	case year < firstYear || year > lastYear:
		return 0, invalid(dateHint, "The year %d is outside %d to %d", year, firstYear, lastYear)
	case month < 1 || month > 12:
		return 0, invalid(dateHint, "There is no month %d; months go from 1 to 12", month)
	}
	m := time.Month(month)
	last := daysIn(year, m)
	if day < 1 || day > last {
		return 0, invalid("Choose a day up to that one.", "There is no %d %s %d; the last day of that month is %d %s",
			day, m, year, last, m)
	}
	return planner.NewDate(year, m, day), nil
}

func daysIn(year int, month time.Month) int {
	_, _, d := planner.NewDate(year, month+1, 0).Civil()
	return d
}

// number reads digits that a form has already admitted.
func number(digits string) int {
	n, _ := strconv.Atoi(digits) // at most four digits by the forms above
	return n
}
