package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"
)

// ready learns who the bot is and where it is, then registers the commands.
func (a *Adapter) ready(data json.RawMessage) {
	var r struct {
		User        user        `json:"user"`
		Application application `json:"application"`
		Guilds      []guild     `json:"guilds"`
	}
	if err := json.Unmarshal(data, &r); err != nil {
		a.Log.Error("unreadable READY", "error", err)
		return
	}
	a.mu.Lock()
	first := a.app == ""
	a.me, a.app = r.User.ID, r.Application.ID
	a.mu.Unlock()
	if err := a.chooseHome(r.Guilds); err != nil {
		a.fail(err)
		return
	}
	if a.thrownOut(r.Guilds) {
		a.toldInOrder(a.Removed)
	}
	if a.Missed != nil {
		a.beside("catching up", a.catchUp)
	}
	if first && a.Commands != nil {
		a.beside("registering commands", a.registerUntilDone)
	}
}

// beside runs something that Run waits for when it ends.
func (a *Adapter) beside(what string, do func(context.Context)) {
	ctx := a.background()
	a.side.Go(func() {
		defer a.guard(what, nil)
		do(ctx)
	})
}

// chooseHome settles which server the bot works for.
func (a *Adapter) chooseHome(in []guild) error {
	ids := make([]string, len(in))
	for i, g := range in {
		ids[i] = g.ID
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	switch {
	case a.home != "" && !slices.Contains(ids, a.home):
		a.Log.Error("the bot is not in its server; invite it", "server", a.home, "invitation", InviteURL(a.app))
	case a.home != "":
	case len(ids) == 1:
		a.home = ids[0]
	case len(ids) == 0:
		a.Log.Warn("the bot is in no server yet; invite it", "invitation", InviteURL(a.app))
	default:
		return &FatalError{Text: fmt.Sprintf("The bot is in %d servers (%s) and works for one club. Name the one it works for in the configuration, or take it out of the others.", len(ids), strings.Join(ids, ", "))}
	}
	return nil
}

// isHome tells whether a server is the bot's own.
func (a *Adapter) isHome(id string) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return id != "" && id == a.home
}

// serverCame hears that a server appeared, changed, or went away. A bot that was in
// none adopts the first it is invited to.
func (a *Adapter) serverCame(kind string, data json.RawMessage) {
	var g struct {
		ID          string `json:"id"`
		Unavailable bool   `json:"unavailable"`
	}
	if json.Unmarshal(data, &g) != nil {
		return
	}
	a.mu.Lock()
	if a.home == "" && kind == "GUILD_CREATE" {
		a.home = g.ID
	}
	a.mu.Unlock()
	if !a.isHome(g.ID) {
		a.Log.Warn("an event from another server was passed over", "server", g.ID, "event", kind)
		return
	}
	if kind != "GUILD_DELETE" {
		a.known.apply(kind, data)
		if kind == "GUILD_CREATE" && !g.Unavailable && a.Present != nil {
			a.toldInOrder(func(ctx context.Context, _ time.Time) { a.Present(ctx, g.ID) })
		}
		return
	}
	if g.Unavailable { // an outage of the platform; the bot is still a member
		return
	}
	a.Log.Warn("the bot was removed from its server", "server", g.ID)
	a.toldInOrder(a.Removed)
}

// thrownOut tells whether the bot's server is not among those it is in.
func (a *Adapter) thrownOut(in []guild) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.home != "" && !slices.ContainsFunc(in, func(g guild) bool { return g.ID == a.home })
}

// toldInOrder passes on that the bot came or went, one after the other: the last
// one counts. A nil one is told nothing.
func (a *Adapter) toldInOrder(tell func(context.Context, time.Time)) {
	if tell == nil {
		return
	}
	at := a.Now()
	queued := a.crew.add("server", func() {
		defer a.guard("coming and going", nil)
		tell(a.background(), at)
	})
	if !queued {
		a.Log.Error("too many events wait; that the bot came or went was dropped")
	}
}

// id is the bot user's number, asked for where the gateway has not told it.
func (a *Adapter) id(ctx context.Context) (string, error) {
	a.mu.Lock()
	me := a.me
	a.mu.Unlock()
	if me != "" {
		return me, nil
	}
	var u user
	if _, err := a.rest.do(ctx, request{method: "GET", path: "/users/@me", again: true}, &u); err != nil {
		return "", err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	a.me = u.ID
	return u.ID, nil
}

// homeID is the server's number, asked for where the gateway has not told it.
func (a *Adapter) homeID(ctx context.Context) (string, error) {
	a.mu.Lock()
	home := a.home
	a.mu.Unlock()
	if home != "" {
		return home, nil
	}
	var in []guild
	if _, err := a.rest.do(ctx, request{method: "GET", path: "/users/@me/guilds", again: true}, &in); err != nil {
		return "", err
	}
	if err := a.chooseHome(in); err != nil {
		return "", err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.home == "" {
		return "", fmt.Errorf("the bot is in no server")
	}
	return a.home, nil
}
