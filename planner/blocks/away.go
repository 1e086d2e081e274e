package blocks

import (
	"blockbell/planner"
)

// text is the time away in words, in quotation marks.
func (a Away) text() string {
	return "\"" + a.From.String() + " to " + a.To.String() + "\""
}

// checkAway refuses a time away that is none.
func checkAway(a Away) error {
	if a.From.IsZero() || a.To.IsZero() || a.To < a.From {
		return planner.Errorf(planner.Invalid, "Give the first and the last day away.", "a time away from %s to %s has no days", a.From, a.To)
	}
	return nil
}
