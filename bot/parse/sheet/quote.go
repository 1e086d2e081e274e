package sheet

import (
	"strconv"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// swallowed refuses a table in which a quote was opened and not closed, so that the
// rows behind it stand inside one cell. Cells of several lines are fine as long as none
// of these lines is a row.
func (l layout) swallowed(all []record) error {
	for _, r := range all {
		for i, c := range r.cells {
			lines := strings.Split(c, "\n")
			for n, line := range lines[1:] {
				if !l.isRow(strings.Split(line, string(r.sep))) {
					continue
				}
				column := "column " + strconv.Itoa(i+1)
				if i < len(all[0].cells) {
					column = parse.Clean(all[0].cells[i])
				}
				return planner.Errorf(planner.Invalid, "Close it or take it out, and send the file again. Nothing was read.",
					"Row %d, %s: a quote is opened there and not closed before row %d", r.line, column, r.line+n+1)
			}
		}
	}
	return nil
}

// isRow tells whether cells are those of a row: weight and repetitions are numbers, and
// something with a digit stands for the day.
func (l layout) isRow(cells []string) bool {
	cell := func(f Field) string {
		if i := l.at[f]; i < len(cells) {
			return strings.Trim(cells[i], " \"")
		}
		return ""
	}
	_, noReps := strconv.Atoi(cell(Reps))
	_, noWeight := strconv.ParseFloat(strings.Replace(cell(Weight), ",", ".", 1), 64)
	return noReps == nil && noWeight == nil && strings.ContainsAny(cell(Day), "0123456789")
}
