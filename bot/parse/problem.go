package parse

import (
	"fmt"
	"unicode/utf8"

	"blockbell/planner"
)

// Problem is one thing in a text that could not be read.
type Problem struct {
	Line   int    // 1-based line of the message; 1 for a command
	Column int    // 1-based character inside that line
	Text   string // what is wrong: one sentence naming the value and what is allowed
	Hint   string // what to write instead; may be empty
}

// MisplacedError is a planner.Error with the place in the text it came from.
type MisplacedError struct {
	Column int // 1-based character
	Cause  *planner.Error
}

// Error returns the sentence and the column.
func (e *MisplacedError) Error() string {
	return fmt.Sprintf("%s (column %d)", e.Cause.Error(), e.Column)
}

// Unwrap returns the planner.Error with its sentence and hint.
func (e *MisplacedError) Unwrap() error { return e.Cause }

// at places an error.
func at(column int, hint, format string, args ...any) error {
	return &MisplacedError{Column: column, Cause: planner.Errorf(planner.Invalid, hint, format, args...)}
}

// invalid makes the error of a single argument, whose place the caller knows.
func invalid(hint, format string, args ...any) error {
	return planner.Errorf(planner.Invalid, hint, format, args...)
}

// tooLong tells whether text has more than limit characters, without counting
// through a text that cannot have so few.
func tooLong(text string, limit int) bool {
	return len(text) > limit && (len(text) > 4*limit || utf8.RuneCountInString(text) > limit)
}
