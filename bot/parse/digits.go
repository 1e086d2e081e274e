package parse

import (
	"strconv"
	"strings"
)

// longAgo is how many days back a date without a year may lie: beyond, it is more
// likely a slip or a day still to come.
const longAgo = 180

// shortDate is a date in digits without a four-digit year.
type shortDate struct {
	text string
	next int // the token behind it
	// sure: its form is no number's, as in "31.12." or "31/12/26".
	sure      bool
	a, b      int
	year      bool // it was typed
	slip      bool // day and month may be either
	dotted    bool
	longMonth bool // two digits stand for the month
}

// shortDateAt reads "31.12.", "31.12", "3/1", "3-1", "31/12/26" at token i.
func (r *reader) shortDateAt(i int) (shortDate, bool) {
	t := r.tok(i)
	if t.kind != num {
		return shortDate{}, false
	}
	var d shortDate
	parts := []string{t.text}
	j, sep := i+1, ""
	if day, month, ok := strings.Cut(t.text, "."); ok {
		parts, sep = []string{day, month}, "."
	}
	for len(parts) < 3 && r.tok(j).kind == sign && r.tok(j).glued && strings.Contains("./-", r.tok(j).text) && (sep == "" || sep == r.tok(j).text) &&
		r.tok(j+1).kind == num && r.tok(j+1).glued {
		sep = r.tok(j).text
		parts = append(parts, r.tok(j+1).text)
		j += 2
	}
	if sep == "." && len(parts) == 2 && r.isSign(j, ".") && r.tok(j).glued {
		d.sure = true
		j++
	}
	if len(parts) < 2 || len(parts) == 3 && len(parts[2]) != 2 {
		return d, false
	}
	for k, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || len(p) > 2 || k < 2 && n < 1 {
			return d, false
		}
	}
	d.a, d.b = number(parts[0]), number(parts[1])
	if d.a > 31 || d.b > 31 || d.a > 12 && d.b > 12 || sep == "." && d.b > 12 {
		return d, false
	}
	d.text, d.next, d.sure = strings.Join(parts, sep), j, d.sure || len(parts) == 3
	d.year = len(parts) == 3
	d.dotted, d.longMonth = sep == ".", len(parts[1]) == 2
	d.slip = sep != "." && d.a <= 12 && d.b <= 12
	return d, true
}

// dateInFront reads a date in digits in front of everything else on the line, and
// tells whether it was one.
func (r *reader) dateInFront() {
	d, ok := r.shortDateAt(r.i)
	if !ok {
		return
	}
	behind := d.next
	for r.isSign(behind, ":") || r.isSign(behind, ",") || r.isSign(behind, "-") {
		behind++
	}
	if behind >= len(r.tokens) && r.headsDay(d) || behind < len(r.tokens) && r.dayOfLine(d, behind) {
		r.shortDate(d)
		r.i = behind
	}
}

// rating tells whether the numbers may be marks out of five or ten.
func (d shortDate) rating() bool { return d.slip && (d.b == 10 || d.b == 5) && d.a <= d.b }

// headsDay tells whether a date alone on its line is one. Under the name of a lift
// two numbers may be a set.
func (r *reader) headsDay(d shortDate) bool {
	switch {
	case d.sure:
		return true
	case d.dotted:
		return !r.s.hasLift && d.longMonth
	}
	return !r.s.hasLift && !d.rating()
}

// dayOfLine tells whether a date in front of other things is one: a lift and a set
// with a weight of its own follow. "22.5 curl 3x10" begins with a weight.
func (r *reader) dayOfLine(d shortDate, behind int) bool {
	switch {
	case d.sure && d.dotted:
		return true
	case r.liftAt(behind):
		return r.setBehindLift(behind, !d.dotted)
	case d.dotted || d.rating():
		return false
	}
	t := r.tok(d.next)
	return (d.next < behind || t.kind == word && !ofSet[t.text] && r.s.lang.units[t.text] == "") && r.setBehindLift(behind, true)
}

// ofSet are words behind which two numbers are no date: "2/3 at 150".
var ofSet = setOf("at", "with", "on", "for", "reps", "rep", "sets", "set", "made", "then")

// setBehindLift tells whether a lift and behind it a set with a weight of its own
// stand at i or later; with chains, any numbers multiplied will do.
func (r *reader) setBehindLift(i int, chains bool) bool {
	lift := false
	for ; i < len(r.tokens); i++ {
		lift = lift || r.liftAt(i)
		t := r.tok(i)
		if lift && t.kind == num && (t.value >= leastLoad || strings.Contains(t.text, ".") || r.unitAt(i+1) != "" || chains && r.isSign(i+1, times)) {
			return true
		}
	}
	return false
}

// shortDate makes the date the day of the line, or says why it cannot be.
func (r *reader) shortDate(d shortDate) {
	col := r.tok(r.i).col
	said := r.hasDay
	weekday := r.day.Weekday()
	if d.slip && !(d.a == d.b && d.sure) {
		r.noDay(col, d.text+": that can be two different days")
		return
	}
	on, err := PastDate(d.text, r.s.c.Today)
	switch {
	case err != nil:
		r.refuse(col, err)
		r.dayless = true
	case r.s.c.Today.DaysUntil(on) < -longAgo && !d.year:
		r.noDay(col, d.text+": that would be "+on.Long()+", long ago")
	case said && on.Weekday() != weekday:
		r.noDay(col, d.text+": that is a "+on.Weekday().String()+", not a "+weekday.String())
	default:
		r.on(on, col)
	}
}

// noDay refuses a day of training; the sets of the line are not kept.
func (r *reader) noDay(col int, text string) {
	r.problem(col, "Write the day as year-month-day, for example "+r.s.c.Today.String()+".", text)
	r.dayless = true
}

// dateBehind tells whether two numbers at the end of a line that has a set are
// rather a date, and reports it.
func (r *reader) dateBehind() bool {
	d, ok := r.shortDateAt(r.i)
	if !ok || !d.slip || d.b == 10 || d.next < len(r.tokens) || r.last == nil || !r.last.hasLoad || len(r.last.reps) == 0 {
		return false
	}
	r.shortDate(d)
	r.i = d.next
	return true
}

// dateBetween tells whether two numbers between a lift and its sets are rather a
// date: "squat 3/1 150x3".
func (r *reader) dateBetween(next int) bool {
	d, ok := r.shortDateAt(r.i)
	if !ok || d.next != next || !r.afterLift() || r.tok(next).kind != num || r.tok(next).value < leastLoad || !r.isSign(next+1, times) && r.unitAt(next+1) == "" {
		return false
	}
	r.shortDate(d)
	r.i = next
	return true
}
