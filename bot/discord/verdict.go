package discord

import (
	"errors"
	"fmt"
)

// ending says how a gateway connection came to its end.
type ending int

const (
	endDropped ending = iota // the connection broke
	endSilent                // nothing was heard for too long
	endAsked                 // the platform asked to connect again (op 7)
	endResume                // the session was refused for now (op 9, true)
	endFresh                 // the session is gone; sign in anew (op 9, false)
	endClosed                // the platform closed the connection with a code
	endBudget                // signing in was not allowed, or the budget could not be read
	endLeft                  // we left
)

// verdict is why a connection ended. It is the error that the library reads.
type verdict struct {
	ending ending
	code   int   // endClosed
	cause  error // endDropped, endBudget
}

// Error says in words how the connection ended.
func (v *verdict) Error() string {
	switch v.ending {
	case endSilent:
		return "the gateway fell silent"
	case endAsked:
		return "the gateway asked to connect again"
	case endResume:
		return "the gateway did not resume the session yet"
	case endFresh:
		return "the gateway knows the session no more"
	case endClosed:
		return fmt.Sprintf("the gateway closed the connection with code %d", v.code)
	case endLeft:
		return "the connection was left"
	}
	return fmt.Sprintf("the gateway connection ended: %v", v.cause)
}

// Unwrap returns the fault behind it; nil where there is none.
func (v *verdict) Unwrap() error { return v.cause }

// fresh tells whether the session is lost, so that a new sign-in is needed. Codes
// from the platform's list of gateway close codes: 4007 (wrong sequence) and 4009
// (session timed out) ask for a new session.
func (v *verdict) fresh() bool {
	return v.ending == endFresh || v.ending == endClosed && (v.code == 4007 || v.code == 4009)
}

// FatalError says that connecting again is useless until somebody changes
// something. Its text says what.
type FatalError struct {
	Code int // the gateway's close code or the HTTP status; 0 for neither
	Text string
}

// Error is what a person has to do.
func (e *FatalError) Error() string { return e.Text }

// fatalCodes are the close codes after which the platform wants no new
// connection, with what a person has to do. Source: its list of close codes.
var fatalCodes = map[int]string{
	4004: "Discord does not accept the bot's token. In the developer portal open your application, page Bot, press Reset Token, and give the new token to the program",
	4010: "Discord refused the shard number, which this program never sends. Please report this",
	4011: "Discord asks for more than one connection because the bot is in too many servers. Use a bot of your own for one club",
	4012: "Discord no longer speaks the version of the gateway that this program uses. Install a newer release",
	4013: "Discord does not know an intent that this program asked for. Install a newer release",
	4014: "Discord refused the message-content intent. In the developer portal open your application, page Bot, switch on Message Content Intent and press Save Changes, or start the program without reading messages",
}

// fatal returns the error that ends everything, nil when trying again can help.
func (v *verdict) fatal() error {
	if v.ending == endBudget && errors.Is(v.cause, errSignIns) {
		return &FatalError{Text: fmt.Sprintf("The bot signed in %d times within a day and has stopped, because Discord takes the token away from bots that sign in too often. Look in the log for what ended the connections, then start the program again tomorrow", signInLimit)}
	}
	text, known := fatalCodes[v.code]
	if v.ending != endClosed || !known {
		return nil
	}
	return &FatalError{Code: v.code, Text: fmt.Sprintf("%s (code %d).", text, v.code)}
}
