package discord

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"time"
)

// registerUntilDone makes the platform's list of commands that of the table. It
// tries again while the platform cannot be reached.
func (a *Adapter) registerUntilDone(ctx context.Context) {
	pause := a.Timing.Backoff
	for ctx.Err() == nil {
		writes, err := a.Register(ctx)
		if err == nil {
			a.Log.Info("commands are registered", "changed", writes)
			return
		}
		a.Log.Error("commands were not registered", "error", err)
		wait, worth := retryAfter(err)
		if !worth {
			return // asking again would be refused again
		}
		sleep(ctx, max(pause, wait))
		pause = min(2*pause, longestPause)
	}
}

// retryAfter tells whether an error passes by itself, and how long that takes where
// the platform says so.
func retryAfter(err error) (wait time.Duration, worth bool) {
	var refused *apiError
	if errors.As(err, &refused) {
		return refused.Wait, refused.Status >= 500 || refused.Status == http.StatusTooManyRequests
	}
	var held *errHeld
	if errors.As(err, &held) {
		return min(held.wait, longestHeld), true
	}
	return 0, isUnknown(err)
}

// Register compares the commands on the platform with Config.Commands and creates,
// changes and removes only what differs. It returns how many requests changed
// something; a second call makes none. Commands of other kinds are left alone.
func (a *Adapter) Register(ctx context.Context) (writes int, err error) {
	wanted, err := platformCommands(a.Commands)
	if err != nil {
		return 0, err
	}
	app, err := a.appID(ctx)
	if err != nil {
		return 0, err
	}
	path := "/applications/" + app + "/commands"
	var there []command
	if _, err := a.rest.do(ctx, request{method: "GET", path: path, again: true}, &there); err != nil {
		return 0, err
	}
	for _, step := range difference(there, wanted, path) {
		if _, err := a.rest.do(ctx, step, nil); err != nil && !(step.method == "DELETE" && coded(err, codeUnknownCommand)) {
			return writes, err
		}
		writes++
	}
	return writes, nil
}

// codeUnknownCommand: somebody else removed it first.
const codeUnknownCommand = 10063

// difference lists the requests that make what is there into what is wanted.
func difference(there, wanted []command, path string) []request {
	var steps []request
	kept := map[string]bool{}
	for _, w := range wanted {
		i := slices.IndexFunc(there, func(c command) bool { return c.Type == w.Type && c.Name == w.Name })
		switch {
		case i < 0: // creating a name that exists changes it, so this may be repeated
			steps = append(steps, request{method: "POST", path: path, body: w, again: true})
		case !same(there[i], w):
			change := w
			change.Type = 0
			steps = append(steps, request{method: "PATCH", path: path + "/" + there[i].ID, body: change, again: true})
		}
		kept[w.Name] = true
	}
	for _, c := range there {
		if c.Type == 1 && !kept[c.Name] {
			steps = append(steps, request{method: "DELETE", path: path + "/" + c.ID, again: true})
		}
	}
	return steps
}

// same compares a command as listed with one as wanted. What the platform adds and
// how it orders numbers does not matter.
func same(listed, wanted command) bool {
	listed.ID = ""
	slices.Sort(listed.Contexts)
	slices.Sort(listed.Installs)
	if listed.Options == nil {
		listed.Options = []commandOption{}
	}
	one, err := json.Marshal(listed)
	if err != nil {
		return false
	}
	other, err := json.Marshal(wanted)
	return err == nil && string(one) == string(other)
}

// appID is the application's number, asked for where the gateway has not told it.
func (a *Adapter) appID(ctx context.Context) (string, error) {
	a.mu.Lock()
	app := a.app
	a.mu.Unlock()
	if app != "" {
		return app, nil
	}
	var self application
	if _, err := a.rest.do(ctx, request{method: "GET", path: "/applications/@me", again: true}, &self); err != nil {
		return "", err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	a.app = self.ID
	return self.ID, nil
}
