package discord

import (
	"context"
	"fmt"
	"strings"
)

// Finding is one thing that a check looked at. Fix says what to click where it is
// not as it should be; it is empty otherwise.
type Finding struct {
	OK   bool
	What string
	Fix  string
}

// checker collects findings.
type checker struct {
	a        *Adapter
	channels []string
	found    []Finding
}

func (c *checker) good(format string, args ...any) {
	c.found = append(c.found, Finding{OK: true, What: fmt.Sprintf(format, args...)})
}

func (c *checker) bad(fix, format string, args ...any) {
	c.found = append(c.found, Finding{What: fmt.Sprintf(format, args...), Fix: fix})
}

// Check proves, without connecting to the gateway and without writing anything,
// that the token is taken, that the message-content intent is on where it is asked
// for, that the bot is in its server, and that it has its rights in the channels
// named. It returns what it found; the error says that c itself is wrong or that
// the platform could not be asked.
func Check(ctx context.Context, c Config, channels ...string) ([]Finding, error) {
	a, err := New(c)
	if err != nil {
		return nil, err
	}
	defer a.Close()
	k := &checker{a: a, channels: channels}
	for _, step := range []func(context.Context) (goOn bool, err error){k.token, k.intents, k.signIns, k.server, k.rights} {
		if goOn, err := step(ctx); err != nil || !goOn {
			return k.found, err
		}
	}
	return k.found, nil
}

func (c *checker) get(ctx context.Context, path string, into any) error {
	_, err := c.a.rest.do(ctx, request{method: "GET", path: path, again: true}, into)
	return err
}

// token asks who the bot is.
func (c *checker) token(ctx context.Context) (bool, error) {
	var u user
	err := c.get(ctx, "/users/@me", &u)
	if badToken(err) {
		c.bad("In the developer portal open your application, page Bot, press Reset Token, and give the new token to the program.", "Discord does not accept the token")
		return false, nil
	}
	if err != nil {
		return false, err
	}
	c.a.mu.Lock()
	c.a.me = u.ID
	c.a.mu.Unlock()
	c.good("the token belongs to %s", u.Username)
	return true, nil
}

// The flags of an application that allow the message-content intent: for large
// bots after a review, for others at once. Source: application flags.
const contentFlags = 1<<18 | 1<<19

// intents looks whether messages may be read.
func (c *checker) intents(ctx context.Context) (bool, error) {
	var app application
	if err := c.get(ctx, "/applications/@me", &app); err != nil {
		return false, err
	}
	c.a.mu.Lock()
	c.a.app = app.ID
	c.a.mu.Unlock()
	switch on := app.Flags&contentFlags != 0; {
	case !c.a.Content:
		c.good("log lines are read in direct messages and where they mention the bot; the message-content intent is not asked for")
	case on:
		c.good("the message-content intent is on")
	default:
		c.bad("In the developer portal open your application, page Bot, switch on Message Content Intent and press Save Changes.", "the message-content intent is off, so log lines cannot be read")
	}
	return true, nil
}

// signIns looks how often the bot may still sign in today.
func (c *checker) signIns(ctx context.Context) (bool, error) {
	var g struct {
		Limit struct {
			Total     int `json:"total"`
			Remaining int `json:"remaining"`
		} `json:"session_start_limit"`
	}
	if err := c.get(ctx, "/gateway/bot", &g); err != nil {
		return false, err
	}
	if g.Limit.Remaining < signInLimit {
		c.bad("Find out why the bot connects so often before starting it again; the count starts anew after a day.", "only %d of %d sign-ins are left for today", g.Limit.Remaining, g.Limit.Total)
	} else {
		c.good("%d of %d sign-ins are left for today", g.Limit.Remaining, g.Limit.Total)
	}
	return true, nil
}

// server looks whether the bot is in its server.
func (c *checker) server(ctx context.Context) (bool, error) {
	invite := "Open " + InviteURL(c.a.app) + " and choose your server."
	var in []guild
	if err := c.get(ctx, "/users/@me/guilds", &in); err != nil {
		return false, err
	}
	if err := c.a.chooseHome(in); err != nil {
		c.bad("Name the server in the configuration, or take the bot out of the others.", "%s", err)
		return false, nil
	}
	for _, g := range in {
		if c.a.isHome(g.ID) {
			c.good("the bot is in the server %s", g.Name)
			return true, nil
		}
	}
	c.bad(invite, "the bot is not in the server")
	return false, nil
}

// rights adds up what the bot may do in each of the channels.
func (c *checker) rights(ctx context.Context) (bool, error) {
	home, err := c.a.homeID(ctx)
	if err != nil {
		return false, err
	}
	var g guild
	var m member
	var channels []channel
	for path, into := range map[string]any{"": &g, "/channels": &channels, "/members/" + c.a.me: &m} {
		if err := c.get(ctx, "/guilds/"+home+path, into); err != nil {
			return false, err
		}
	}
	g.Channels = channels
	c.a.known.describe(g)
	for _, name := range c.channels {
		id, ok := c.a.known.find(name)
		if !ok {
			c.bad("Make the channel, let the bot see it, or set another one with /club settings.", "there is no channel %s that the bot can see", name)
			continue
		}
		for _, ch := range channels {
			if ch.ID == id {
				c.channel(ch, g.inChannel(ch, c.a.me, m.Roles))
			}
		}
	}
	return true, nil
}

// channel names the rights that are missing in one channel.
func (c *checker) channel(ch channel, has rights) {
	var missing []string
	for _, n := range needs {
		if !has.has(n.bit) {
			missing = append(missing, n.name)
		}
	}
	if len(missing) == 0 {
		c.good("the bot has all its rights in #%s", ch.Name)
		return
	}
	c.bad("Open the settings of #"+ch.Name+", page Permissions, choose the bot's role and allow: "+strings.Join(missing, ", ")+".",
		"in #%s the bot lacks: %s", ch.Name, strings.Join(missing, ", "))
}
