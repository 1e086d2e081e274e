package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
)

// placeCame keeps the directory up to date.
func (a *Adapter) placeCame(kind string, data json.RawMessage) {
	if !strings.HasPrefix(kind, "CHANNEL_") && !strings.HasPrefix(kind, "THREAD_") && !strings.HasPrefix(kind, "GUILD_ROLE_") {
		return
	}
	var g struct {
		Guild string `json:"guild_id"`
	}
	if json.Unmarshal(data, &g) == nil && a.isHome(g.Guild) {
		a.known.apply(kind, data)
	}
}

// channelName is what a channel is called in events; empty for a direct one.
func (a *Adapter) channelName(ctx context.Context, id, guild string) (string, error) {
	if guild == "" {
		return "", nil
	}
	if name, ok := a.known.name(id); ok {
		return name, nil
	}
	for asked := id; asked != ""; {
		var c channel
		if _, err := a.rest.do(ctx, request{method: "GET", path: "/channels/" + asked, again: true}, &c); err != nil {
			return "", err
		}
		a.known.keep(c)
		asked = ""
		if _, ok := a.known.name(id); !ok && c.thread() {
			asked = c.Parent
		}
	}
	name, _ := a.known.name(id)
	return name, nil
}

// channelID is the number of a channel named by a setting.
func (a *Adapter) channelID(ctx context.Context, text string) (string, error) {
	if id, ok := a.known.find(text); ok {
		return id, nil
	}
	if !a.known.loaded() {
		home, err := a.homeID(ctx)
		if err != nil {
			return "", err
		}
		var all []channel
		if _, err := a.rest.do(ctx, request{method: "GET", path: "/guilds/" + home + "/channels", again: true}, &all); err != nil {
			return "", err
		}
		for _, c := range all {
			a.known.keep(c)
		}
	}
	if id, ok := a.known.find(text); ok {
		return id, nil
	}
	return "", &noChannelError{text}
}

// noChannelError says that there is no such channel where the bot can see it.
type noChannelError struct{ name string }

// Error names the channel.
func (e *noChannelError) Error() string {
	return fmt.Sprintf("there is no channel %q that the bot can see", e.name)
}
