package discord

import (
	"context"
	"net/http"

	"blockbell/bot/chat"
)

// Application is what the platform says about the bot's own application.
type Application struct {
	ID      string
	Name    string
	Content bool // the message-content intent is on, so that messages can be read
}

// Application asks the platform who the bot is. It needs no connection. Errors: a
// *FatalError where the token is refused, a *chat.RetryError where asking again
// later helps.
func (a *Adapter) Application(ctx context.Context) (Application, error) {
	var app struct {
		ID    string `json:"id"`
		Name  string `json:"name"`
		Flags int    `json:"flags"`
	}
	_, err := a.rest.do(ctx, request{method: "GET", path: "/applications/@me", again: true}, &app)
	if badToken(err) {
		return Application{}, &FatalError{Code: http.StatusUnauthorized, Text: fatalCodes[4004] + " (HTTP 401)."}
	}
	if wait, worth := retryAfter(err); worth {
		return Application{}, &chat.RetryError{After: max(wait, a.Timing.Backoff), Cause: err}
	}
	return Application{ID: app.ID, Name: app.Name, Content: app.Flags&contentFlags != 0}, err
}
