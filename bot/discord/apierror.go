package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"time"

	"blockbell/bot/chat"
)

// Error codes of the platform that are told apart. Source: its list of JSON error
// codes.
const (
	codeUnknownChannel     = 10003
	codeUnknownMessage     = 10008
	codeUnknownUser        = 10013
	codeUnknownWebhook     = 10015
	codeUnknownInteraction = 10062 // too late, or never there
	codeTooLarge           = 40005 // the request, with its files
	codeAcknowledged       = 40060 // the interaction was answered already
	codeMissingAccess      = 50001
	codeDirectClosed       = 50007 // the person takes no direct messages
	codeMissingPermission  = 50013
	codeTokenExpired       = 50027 // an interaction's token is older than 15 minutes
	codeInvalidRecipient   = 50033
	codeArchived           = 50083
	codeNoCommonServer     = 50278
)

// apiError is a refusal by the platform.
type apiError struct {
	Status int
	Code   int
	Text   string
	Wait   time.Duration // how long to wait before trying again; 0: not told
	Global bool
}

// Error shows status, code and the words of the platform.
func (e *apiError) Error() string {
	return fmt.Sprintf("the platform answered %d (code %d): %s", e.Status, e.Code, e.Text)
}

// readRefusal makes an error of an answer that is not a success. A body that is no
// JSON, such as the page of a ban at the edge, is not repeated.
func readRefusal(status int, h http.Header, body []byte) *apiError {
	var b struct {
		Code    int             `json:"code"`
		Message string          `json:"message"`
		After   float64         `json:"retry_after"`
		Global  bool            `json:"global"`
		Errors  json.RawMessage `json:"errors"`
	}
	e := &apiError{Status: status, Text: http.StatusText(status), Wait: seconds(h.Get("Retry-After"))}
	if json.Unmarshal(body, &b) == nil {
		e.Code, e.Global = b.Code, b.Global
		if b.Message != "" {
			e.Text = b.Message + string(b.Errors)
		}
		if wait := time.Duration(b.After * float64(time.Second)); wait > e.Wait {
			e.Wait = wait
		}
	}
	e.Global = e.Global || h.Get("X-RateLimit-Global") != "" || h.Get("X-RateLimit-Scope") == "global"
	if status == http.StatusTooManyRequests && e.Wait == 0 {
		e.Wait = defaultWait
	}
	return e
}

// coded tells whether err is a refusal with one of the codes.
func coded(err error, codes ...int) bool {
	var e *apiError
	return errors.As(err, &e) && slices.Contains(codes, e.Code)
}

// badToken tells whether the platform no longer accepts the bot's token. An
// interaction's own token that ran out looks alike but has a code.
func badToken(err error) bool {
	var e *apiError
	return errors.As(err, &e) && e.Status == http.StatusUnauthorized && e.Code != codeTokenExpired && e.Code != codeUnknownWebhook
}

// errHeld says that a request was not sent because its route was closed for
// longer than the caller wanted to wait.
type errHeld struct{ wait time.Duration }

// Error names the wait.
func (e *errHeld) Error() string { return fmt.Sprintf("held back by a rate limit for %s", e.wait) }

// limitedFor tells whether a rate limit kept a request from being done, and for how
// long.
func limitedFor(err error) (time.Duration, bool) {
	var refused *apiError
	var held *errHeld
	switch {
	case errors.As(err, &held):
		return min(held.wait, longestHeld), true
	case errors.As(err, &refused):
		return refused.Wait, refused.Status == http.StatusTooManyRequests
	}
	return 0, false
}

// longestHeld bounds the wait that is told for a closed gate, since a gate knows how
// long it was closed for and not since when.
const longestHeld = time.Minute

// defaultWait is the wait after a fault for which the platform names none.
const defaultWait = 5 * time.Second

// postingError tells the caller of a Poster what to do about an error: try again
// after a wait, give the target up, or neither.
func postingError(to chat.Target, err error) error {
	if err == nil {
		return nil
	}
	if coded(err, codeDirectClosed, codeNoCommonServer, codeMissingAccess, codeMissingPermission, codeInvalidRecipient,
		codeUnknownChannel, codeUnknownUser, codeArchived) {
		return &chat.UnreachableError{To: to, Cause: err}
	}
	var refused *apiError
	if wait, limited := limitedFor(err); limited {
		return &chat.RetryError{After: max(wait, time.Second), Cause: err}
	}
	switch {
	case errors.As(err, &refused):
		if refused.Status >= 500 {
			return &chat.RetryError{After: max(refused.Wait, time.Second), Cause: err}
		}
		return err
	case isUnknown(err), errors.Is(err, context.DeadlineExceeded):
		return &chat.RetryError{After: defaultWait, Cause: err}
	}
	return err
}

// lostError says that a request got no answer: it may or may not have been done.
type lostError struct{ cause error }

// Error shows why there was no answer.
func (e *lostError) Error() string { return "no answer from the platform: " + e.cause.Error() }

// Unwrap returns why.
func (e *lostError) Unwrap() error { return e.cause }

func isUnknown(err error) bool {
	var lost *lostError
	return errors.As(err, &lost)
}
