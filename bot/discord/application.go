package discord

import "context"

// Application is what the platform says about the bot's own application.
type Application struct {
	ID      string
	Name    string
	Content bool // the message-content intent is on, so that messages can be read
}

// Application asks the platform who the bot is. It needs no connection.
func (a *Adapter) Application(ctx context.Context) (Application, error) {
	var app struct {
		ID    string `json:"id"`
		Name  string `json:"name"`
		Flags int    `json:"flags"`
	}
	_, err := a.rest.do(ctx, request{method: "GET", path: "/applications/@me", again: true}, &app)
	return Application{ID: app.ID, Name: app.Name, Content: app.Flags&contentFlags != 0}, err
}
