package sheet

import (
	"encoding/csv"
	"io"
	"strconv"

	"blockbell/planner"
)

// Write writes sets as a table that Open and Read give back as they were. The
// weights are in kilograms.
func Write(to io.Writer, sets []planner.Set) error {
	w := csv.NewWriter(to)
	if err := w.Write([]string{"date", "lift", "variant", "weight_kg", "reps", "sets", "rir", "missed", "gear"}); err != nil {
		return err
	}
	for _, s := range sets {
		left, missed := "", ""
		if s.Reserve != nil {
			left = strconv.FormatFloat(*s.Reserve, 'f', -1, 64)
		}
		if s.Missed {
			missed = "yes"
		}
		err := w.Write([]string{
			s.Day.String(), string(s.Lift), string(s.Variant), strconv.FormatFloat(s.Weight.Kg(), 'f', -1, 64),
			strconv.Itoa(s.Reps), strconv.Itoa(s.Sets), left, missed, string(s.Gear),
		})
		if err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

// WriteProblems writes what is wrong in a file as a table: row, column, what.
func WriteProblems(to io.Writer, problems []Problem) error {
	w := csv.NewWriter(to)
	if err := w.Write([]string{"row", "column", "problem"}); err != nil {
		return err
	}
	for _, p := range problems {
		if err := w.Write([]string{strconv.Itoa(p.Line), p.Column, p.Text}); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}
