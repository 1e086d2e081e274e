package planner

import "fmt"

// ErrorKind says what sort of thing went wrong, so that callers can react
// without reading the sentence.
type ErrorKind string

// The kinds of error a person can cause or meet.
const (
	Invalid    ErrorKind = "invalid"    // a value is outside what is allowed
	Unknown    ErrorKind = "unknown"    // a word (command, option, lift) means nothing here
	NotFound   ErrorKind = "not found"  // the thing named does not exist
	Conflict   ErrorKind = "conflict"   // the thing exists already, or changed meanwhile
	Forbidden  ErrorKind = "forbidden"  // this person may not do that
	Impossible ErrorKind = "impossible" // no plan satisfies the constraints
)

// Error is the one error type with words for a person: Sentence says what is
// wrong (thing, value, what is allowed), Hint says what to do next and may be
// empty, Cause is for the operator's log and is never shown.
type Error struct {
	Kind     ErrorKind
	Sentence string
	Hint     string
	Cause    error
}

// Error returns the sentence, followed by the cause where there is one.
func (e *Error) Error() string {
	if e.Cause != nil {
		return e.Sentence + ": " + e.Cause.Error()
	}
	return e.Sentence
}

// Words returns what a person should read: the sentence, and the hint behind it.
func (e *Error) Words() string {
	words := e.Sentence
	if last := len(words) - 1; last >= 0 && words[last] != '.' && words[last] != '?' && words[last] != '!' {
		words += "."
	}
	if e.Hint != "" {
		words += " " + e.Hint
	}
	return words
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }

// Errorf makes an Error of the given kind; hint may be empty.
func Errorf(kind ErrorKind, hint, format string, args ...any) *Error {
	return &Error{Kind: kind, Hint: hint, Sentence: fmt.Sprintf(format, args...)}
}
