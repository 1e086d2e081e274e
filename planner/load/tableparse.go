package load

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"blockbell/planner"
)

// Bounds of a club's table.
const (
	maxTableLines = 400
	maxTableDays  = 6
	maxTableWeek  = 26
	maxTableReps  = 15
)

// tableReader reads a table line by line.
type tableReader struct {
	table Table
	line  int
	text  string // the line as it was written
}

// ParseTable reads the text form of a Table. Errors are Invalid and name line and
// column.
func ParseTable(text string) (*Table, error) {
	r := &tableReader{}
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	if len(lines) > maxTableLines {
		return nil, planner.Errorf(planner.Invalid, "Keep one block to a table.", "The table has %d lines, at most %d are read", len(lines), maxTableLines)
	}
	for i, line := range lines {
		r.line, r.text = i+1, line
		if err := r.read(); err != nil {
			return nil, err
		}
	}
	return r.finish()
}

// bad is the error at a byte of the line, told as a column of characters.
func (r *tableReader) bad(at int, hint, format string, args ...any) error {
	column := len([]rune(r.text[:min(at, len(r.text))])) + 1
	return planner.Errorf(planner.Invalid, hint, "Line %d, column %d: %s", r.line, column, fmt.Sprintf(format, args...))
}

func (r *tableReader) read() error {
	body := strings.TrimSpace(r.text)
	if body == "" || strings.HasPrefix(body, "#") {
		return nil
	}
	at := strings.Index(r.text, body)
	word, rest, _ := strings.Cut(strings.ToLower(body), " ")
	restAt := at + len(word)
	for restAt < len(r.text) && r.text[restAt] == ' ' {
		restAt++
	}
	rest = strings.TrimSpace(rest)
	switch {
	case word == "block":
		return r.block(rest, restAt)
	case r.table.Block == "":
		return r.bad(at, "Write for example: block strength", "the table begins with the block it is for")
	case word == "weeks" || word == "week":
		return r.weeks(rest, restAt)
	case word == "day":
		return r.day(rest, restAt)
	}
	return r.work(body, at)
}

func (r *tableReader) block(name string, at int) error {
	if r.table.Block != "" {
		return r.bad(at, "Write one table for each kind of block.", "a second block in one table")
	}
	switch k := planner.BlockKind(name); k {
	case planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery:
		r.table.Block = k
		return nil
	}
	return r.bad(at, "Blocks are hypertrophy, strength, peaking and recovery.", "%q is no kind of block", name)
}

var weeksForm = regexp.MustCompile(`^(\d{1,2})(?:\s*-\s*(\d{1,2})|\s+(on))?$`)

func (r *tableReader) weeks(text string, at int) error {
	m := weeksForm.FindStringSubmatch(text)
	if m == nil {
		return r.bad(at, "Write weeks 2, weeks 1-3 or weeks 4 on.", "%q names no weeks", text)
	}
	from, _ := strconv.Atoi(m[1]) // the form holds digits
	to := from
	if m[2] != "" {
		to, _ = strconv.Atoi(m[2])
	}
	if from < 1 || to < from || to > maxTableWeek {
		return r.bad(at, fmt.Sprintf("Weeks run from 1 to %d.", maxTableWeek), "weeks %s are not in order", text)
	}
	last := to
	if m[3] != "" {
		to, last = 0, maxTableWeek
	}
	for _, w := range r.table.Weeks {
		end := w.To
		if end == 0 {
			end = maxTableWeek
		}
		if from <= end && w.From <= last {
			return r.bad(at, "Give each week once.", "weeks %s were given before", text)
		}
	}
	r.table.Weeks = append(r.table.Weeks, TableWeek{From: from, To: to})
	return nil
}

func (r *tableReader) day(text string, at int) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > maxTableDays {
		return r.bad(at, fmt.Sprintf("Days run from 1 to %d.", maxTableDays), "%q is no training day", text)
	}
	if len(r.table.Weeks) == 0 {
		r.table.Weeks = []TableWeek{{From: 1}}
	}
	w := &r.table.Weeks[len(r.table.Weeks)-1]
	if n != len(w.Days)+1 {
		return r.bad(at, "Write the days in order, beginning with day 1.", "day %d comes after day %d", n, len(w.Days))
	}
	w.Days = append(w.Days, nil)
	return nil
}

// finish refuses tables without work.
func (r *tableReader) finish() (*Table, error) {
	if r.table.Block == "" {
		return nil, planner.Errorf(planner.Invalid, "Begin with a line such as: block strength", "The table is empty")
	}
	if len(r.table.Weeks) == 0 {
		return nil, planner.Errorf(planner.Invalid, "Add a line day 1 and work below it.", "The table has no day")
	}
	for _, w := range r.table.Weeks {
		if len(w.Days) == 0 {
			return nil, planner.Errorf(planner.Invalid, "Add a line day 1 and work below it.", "The weeks from %d on have no day", w.From)
		}
		for i, d := range w.Days {
			if len(d) == 0 {
				return nil, planner.Errorf(planner.Invalid, "Add work below it, or leave the day out.", "Day %d has no work", i+1)
			}
		}
	}
	return &r.table, nil
}
