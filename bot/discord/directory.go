package discord

import (
	"encoding/json"
	"slices"
	"strings"
	"sync"
)

// directory knows the channels and roles of the bot's server, as the gateway's
// events tell them.
type directory struct {
	mu       sync.Mutex
	guild    *guild // roles and owner; nil before the server was described
	channels map[string]channel
	directs  map[string]string // the direct channel of a person
}

func newDirectory() *directory {
	return &directory{channels: map[string]channel{}, directs: map[string]string{}}
}

// apply takes note of an event about the server; it has been checked that it is
// about the bot's own. What cannot be read changes nothing.
func (d *directory) apply(kind string, data json.RawMessage) {
	switch kind {
	case "GUILD_CREATE", "GUILD_UPDATE":
		var g guild
		if json.Unmarshal(data, &g) == nil && !g.Unavailable {
			d.describe(g)
		}
	case "CHANNEL_CREATE", "CHANNEL_UPDATE", "THREAD_CREATE", "THREAD_UPDATE":
		var c channel
		if json.Unmarshal(data, &c) == nil {
			d.keep(c)
		}
	case "CHANNEL_DELETE", "THREAD_DELETE":
		var c channel
		if json.Unmarshal(data, &c) == nil {
			d.mu.Lock()
			delete(d.channels, c.ID)
			d.mu.Unlock()
		}
	case "GUILD_ROLE_CREATE", "GUILD_ROLE_UPDATE", "GUILD_ROLE_DELETE":
		var r struct {
			Role *role  `json:"role"`
			ID   string `json:"role_id"`
		}
		if json.Unmarshal(data, &r) == nil {
			d.changeRole(r.Role, r.ID)
		}
	}
}

// describe replaces what is known of the server. An update lists no channels.
func (d *directory) describe(g guild) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if g.Channels != nil {
		clear(d.channels)
	}
	for _, c := range slices.Concat(g.Channels, g.Threads) {
		d.channels[c.ID] = c
	}
	g.Channels, g.Threads = nil, nil
	d.guild = &g
}

func (d *directory) keep(c channel) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.channels[c.ID] = c
}

// changeRole replaces a role, or removes the one with the id where r is nil.
func (d *directory) changeRole(r *role, id string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.guild == nil {
		return
	}
	if r != nil {
		id = r.ID
	}
	roles := slices.DeleteFunc(slices.Clone(d.guild.Roles), func(o role) bool { return o.ID == id })
	if r != nil {
		roles = append(roles, *r)
	}
	changed := *d.guild
	changed.Roles = roles
	d.guild = &changed
}

// server returns a description that nobody changes any more; nil before there is
// one.
func (d *directory) server() *guild {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.guild
}

// name is what a channel is called in events, the parent's name for a thread;
// false when the channel is not known.
func (d *directory) name(id string) (string, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c, ok := d.channels[id]
	if ok && c.thread() {
		c, ok = d.channels[c.Parent]
	}
	if !ok || c.Type == channelDirect || c.Type == channelGroup {
		return "", ok
	}
	return "#" + c.Name, true
}

// find returns the number of a channel given as a name, a mention or a number. Of
// several with one name it is the oldest that people write in.
func (d *directory) find(text string) (string, bool) {
	text = strings.TrimPrefix(strings.TrimSpace(text), "#")
	text = strings.TrimSuffix(strings.TrimPrefix(text, "<#"), ">")
	d.mu.Lock()
	defer d.mu.Unlock()
	if _, ok := d.channels[text]; ok {
		return text, true
	}
	best := ""
	for id, c := range d.channels {
		if c.Type != channelText && c.Type != channelNews || !strings.EqualFold(c.Name, text) {
			continue
		}
		if best == "" || len(id) < len(best) || len(id) == len(best) && id < best {
			best = id
		}
	}
	return best, best != ""
}

// channel is what is known of a channel.
func (d *directory) channel(id string) (channel, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	c, ok := d.channels[id]
	return c, ok
}

// loaded tells whether the channels are known.
func (d *directory) loaded() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return len(d.channels) > 0
}

// roleName is the name of a role, for a mention of it.
func (d *directory) roleName(id string) (string, bool) {
	g := d.server()
	if g == nil {
		return "", false
	}
	for _, r := range g.Roles {
		if r.ID == id {
			return strings.TrimPrefix(r.Name, "@"), true
		}
	}
	return "", false
}

// holds tells whether one of a member's roles is the one that text names: by name,
// number or mention. Nobody holds the role of an empty text.
func (d *directory) holds(roles []string, text string) bool {
	text = strings.TrimSpace(text)
	text = strings.TrimSuffix(strings.TrimPrefix(text, "<@&"), ">")
	text = strings.TrimPrefix(text, "@")
	if text == "" {
		return false
	}
	for _, id := range roles {
		if name, ok := d.roleName(id); id == text || ok && strings.EqualFold(name, text) {
			return true
		}
	}
	return false
}

// direct is the direct channel of a person, where it was opened before.
func (d *directory) direct(person string) (string, bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	id, ok := d.directs[person]
	return id, ok
}

func (d *directory) keepDirect(person, id string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.directs[person] = id
}
