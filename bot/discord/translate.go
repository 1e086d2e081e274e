package discord

import (
	"context"
	"encoding/json"
	"regexp"
	"strings"
	"time"

	"blockbell/bot/chat"
)

// eventOf translates an interaction.
func (a *Adapter) eventOf(ctx context.Context, in interaction) chat.Event {
	at, ok := madeAt(in.ID)
	if !ok {
		at = a.Now()
	}
	e := chat.Event{ID: in.ID, At: at, Author: a.person(ctx, *in.who(), in.Member), Channel: a.placeOf(ctx, in)}
	switch in.Type {
	case interactionCommand:
		e.Kind = chat.Asked
		e.Command, e.Options = a.command(in)
	case interactionPress:
		e.Kind = chat.Pressed
		_, e.Button = readID(in.Data.CustomID)
	case interactionForm:
		e.Kind = chat.Sent
		_, e.Button = readID(in.Data.CustomID)
		e.Options = filledFields(in.Data.Components)
	}
	return e
}

// placeOf is the channel of an interaction. People can use commands where the bot
// sees nothing, so the interaction itself says what the channel is called.
func (a *Adapter) placeOf(ctx context.Context, in interaction) string {
	if _, known := a.known.name(in.ChannelID); !known && in.Channel.ID != "" {
		a.known.keep(in.Channel)
	}
	name, err := a.channelName(ctx, in.ChannelID, in.GuildID)
	if err != nil {
		a.Log.Warn("a channel has no name", "event", in.ID, "error", err)
		return "#" + in.ChannelID
	}
	return name
}

// command reads the name, the subcommand and the options of a command.
func (a *Adapter) command(in interaction) (words []string, options []chat.Option) {
	words = []string{in.Data.Name}
	given := in.Data.Options
	for len(given) == 1 && (given[0].Type == optionSub || given[0].Type == optionGroup) {
		words = append(words, given[0].Name)
		given = given[0].Options
	}
	for _, o := range given {
		value := a.plain(o.text())
		if o.Type == optionFile {
			value = in.Data.Resolved.Files[o.text()].Name
		}
		options = append(options, chat.Option{Name: o.Name, Value: value})
	}
	return words, options
}

// person is the author of an event. Rights come with interactions; for messages
// they are added up from the member's roles.
func (a *Adapter) person(ctx context.Context, u user, m *member) chat.Person {
	p := chat.Person{ID: u.ID, Name: u.shown(m)}
	if m == nil {
		return p
	}
	if m.Permissions != "" {
		p.Captain = parseRights(m.Permissions).runsClub()
	} else if g := a.known.server(); g != nil {
		p.Captain = g.inServer(u.ID, m.Roles).runsClub()
	}
	if p.Captain || a.CaptainRole == nil {
		return p
	}
	named, err := a.CaptainRole(ctx)
	if err != nil {
		a.Log.Error("the captain role could not be read", "error", err)
		return p
	}
	p.Captain = a.known.holds(m.Roles, named)
	return p
}

// markup finds mentions of people, roles and channels.
var markup = regexp.MustCompile(`<(@!?|@&|#)(\d{15,20})>`)

// plain replaces mentions by what settings and events call these things.
func (a *Adapter) plain(text string) string {
	if id := strings.TrimSpace(text); isID(id) {
		if name, ok := a.known.name(id); ok && name != "" {
			return name
		}
	}
	return markup.ReplaceAllStringFunc(text, func(m string) string {
		found := markup.FindStringSubmatch(m)
		kind, id := found[1], found[2]
		switch kind {
		case "#":
			if name, ok := a.known.name(id); ok && name != "" {
				return name
			}
			return "#" + id
		case "@&":
			if name, ok := a.known.roleName(id); ok {
				return "@" + name
			}
		}
		return "@" + id
	})
}

// filledFields collects what stands in the fields of a form, at whatever depth: a
// label holds one component, a row several.
func filledFields(parts []json.RawMessage) []chat.Option {
	var all []chat.Option
	for _, raw := range parts {
		var c struct {
			ID         string            `json:"custom_id"`
			Value      *string           `json:"value"`
			Component  json.RawMessage   `json:"component"`
			Components []json.RawMessage `json:"components"`
		}
		if json.Unmarshal(raw, &c) != nil {
			continue
		}
		if c.ID != "" && c.Value != nil {
			all = append(all, chat.Option{Name: c.ID, Value: *c.Value})
		}
		if len(c.Component) > 0 {
			all = append(all, filledFields([]json.RawMessage{c.Component})...)
		}
		all = append(all, filledFields(c.Components)...)
	}
	return all
}

// parseTime reads the platform's form of a moment.
func parseTime(text string) (time.Time, bool) {
	t, err := time.Parse(time.RFC3339Nano, text)
	return t.UTC(), err == nil
}
