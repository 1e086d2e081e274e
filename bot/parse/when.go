package parse

import (
	"errors"
	"strings"

	"blockbell/planner"
)

// front reads a day in words at the beginning of the line: "yesterday", "last
// monday", "2 days ago", "12 June".
func (r *reader) front() {
	if r.tok(r.i).text == "from" && r.tok(r.i+1).kind == word && dateStart(r.tok(r.i+1), r.tok(r.i+2)) {
		r.i++ // "from saturday: squat 90x5"
	}
	for n := 4; n >= 1; n-- {
		if d, ok := r.phrase(r.i, n); ok {
			if r.s.c.Today.DaysUntil(d) < -longAgo && !r.yearAt(r.i, n) {
				r.noDay(r.tok(r.i).col, r.spelled(r.i, n)+": that would be "+d.Long()+", long ago")
			} else {
				r.on(d, r.tok(r.i).col)
			}
			r.i += n
			if r.tok(r.i).text == ":" || r.tok(r.i).text == "," {
				r.i++
			}
			break
		}
	}
	r.monthDay(r.i, 62)
	r.dateInFront()
}

// leastMonthDay is the ordinal from which "7th squat" can only be a day of the month;
// "3rd squat" may be the third set.
const leastMonthDay = 7

// lately is how many days back such a day may lie behind the sets: the 28th of a line
// written on the 25th is one to come.
const lately = 14

// monthDay reads "the 20th", "on the 3rd" or "20th" at i as the latest such day
// of the last days.
func (r *reader) monthDay(i, days int) bool {
	j, said := i, false
	for t := r.tok(j).text; t == "on" || t == "the"; t = r.tok(j).text {
		said, j = said || t == "on", j+1
	}
	n, suffix := r.tok(j), r.tok(j+1).text
	if n.kind != num || n.value < 1 || n.value > 31 || r.hasDay || !r.tok(j+1).glued ||
		suffix != "st" && suffix != "nd" && suffix != "rd" && suffix != "th" || !said && n.value < leastMonthDay {
		return false
	}
	switch after := r.tok(j + 2).text; after {
	case "rep", "reps", "set", "sets", "one", "attempt", "try", "of", "week", "day", "meet", "time", "session", "place":
		return false
	}
	for d := r.s.c.Today; r.s.c.Today.DaysUntil(d) > -days; d = d.AddDays(-1) {
		if _, _, m := d.Civil(); float64(m) == n.value {
			r.on(d, r.tok(i).col)
			r.i = j + 2
			return true
		}
	}
	return false
}

// yearAt tells whether n tokens say how long ago or in which year.
func (r *reader) yearAt(i, n int) bool {
	for k := range n {
		if t := r.tok(i + k); t.text == "ago" || t.kind == num && t.value > 31 {
			return true
		}
	}
	return false
}

// spelled returns n tokens as typed.
func (r *reader) spelled(i, n int) string {
	last := r.tok(i + n - 1)
	return Clean(string(r.runes[r.tok(i).col-1 : r.within(last.col+len([]rune(last.text))-1)]))
}

// phrase reads n tokens as a day in the past. A number alone is none.
func (r *reader) phrase(i, n int) (planner.Date, bool) {
	var b strings.Builder
	letters := false
	for k := range n {
		t := r.tok(i + k)
		if i+k >= len(r.tokens) || t.kind != word && t.kind != num {
			return 0, false
		}
		if k > 0 && !t.glued {
			b.WriteByte(' ')
		}
		letters = letters || t.kind == word
		b.WriteString(t.text)
	}
	if !letters || !dateStart(r.tok(i), r.tok(i+1)) {
		return 0, false
	}
	d, err := PastDate(b.String(), r.s.c.Today)
	return d, err == nil
}

// dateStart tells cheaply whether two tokens can begin a day in words.
func dateStart(a, b token) bool {
	switch a.text {
	case "today", "tonight", "yesterday", "last", "on", "day":
		return true
	}
	if a.kind == num || numberWords[a.text] > 0 {
		_, month := monthOf(b.text)
		return month || strings.HasPrefix(b.text, "day") || strings.HasPrefix(b.text, "week") || b.text == "of" ||
			b.text == "st" || b.text == "nd" || b.text == "rd" || b.text == "th"
	}
	_, weekday := weekdayOf(a.text)
	_, month := monthOf(a.text)
	return weekday || month
}

// dateWords reads a day in words inside a line, where no doubt is possible.
func (r *reader) dateWords() bool {
	t := r.tok(r.i)
	switch {
	case t.text == "yesterday":
		r.on(r.s.c.Today.AddDays(-1), t.col)
		r.i++
	case t.text == "last" && r.tok(r.i+1).text == "night":
		r.on(r.s.c.Today.AddDays(-1), t.col)
		r.i += 2
	case t.text == "on" || t.text == "last":
		d, ok := r.phrase(r.i, 2)
		if !ok && t.text == "on" && r.now().unknown == 0 && r.monthDay(r.i, lately) {
			return true
		}
		if !ok {
			return false
		}
		r.on(d, t.col)
		r.i += 2
	default:
		return false
	}
	return true
}

// calendar reads a date in digits.
func (r *reader) calendar(t token) {
	r.i++
	d, err := PastDate(t.text, r.s.c.Today)
	if err != nil {
		r.refuse(t.col, err)
		r.dayless = true
		return
	}
	r.on(d, t.col)
}

// on sets the day of the line. A session before NightEnds is yesterday's, so
// "today" said at night is the day that has not ended.
func (r *reader) on(d planner.Date, col int) {
	if d > r.s.c.Today {
		r.problem(col, "Log work when it is done.", d.Long()+": that day is still to come")
		r.dayless = true
		return
	}
	if d == r.s.c.Today {
		d = r.s.base
	}
	if r.hasDay && d != r.day && (d.Weekday() != r.day.Weekday() || r.works() > 0) {
		r.problem(col, "Write each day on a line of its own.", d.Long()+": this line speaks of "+r.day.Long()+" already")
		r.dayless = true
		return
	}
	r.day, r.hasDay = d, true
}

// refuse turns an error for people into a problem at a column.
func (r *reader) refuse(col int, err error) {
	var placed *MisplacedError
	if errors.As(err, &placed) {
		col = placed.Column
	}
	var e *planner.Error
	if errors.As(err, &e) {
		r.problem(col, e.Hint, e.Sentence)
	}
}
