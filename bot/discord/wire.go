package discord

import "encoding/json"

// What the gateway and the API say, as far as the bot reads it. The library's own
// types would do for most of it, but stop at components they do not know; these
// read what they need and pass over the rest.

type user struct {
	ID       string `json:"id"`
	Username string `json:"username"`
	Global   string `json:"global_name"`
	Bot      bool   `json:"bot"`
	System   bool   `json:"system"`
}

// application is what the bot is registered as.
type application struct {
	ID    string `json:"id"`
	Flags int    `json:"flags"`
}

type member struct {
	User        *user    `json:"user"`
	Nick        string   `json:"nick"`
	Roles       []string `json:"roles"`
	Permissions string   `json:"permissions"` // in interactions only
}

// shown is the name that others see.
func (u user) shown(m *member) string {
	if m != nil && m.Nick != "" {
		return m.Nick
	}
	if u.Global != "" {
		return u.Global
	}
	return u.Username
}

// message is one said, edited or read back.
type message struct {
	ID        string            `json:"id"`
	Type      int               `json:"type"`
	ChannelID string            `json:"channel_id"`
	GuildID   string            `json:"guild_id"`
	WebhookID string            `json:"webhook_id"`
	Content   string            `json:"content"`
	Edited    string            `json:"edited_timestamp"`
	Author    *user             `json:"author"`
	Member    *member           `json:"member"`
	Flags     int               `json:"flags"`
	Nonce     json.RawMessage   `json:"nonce"`
	Embeds    []readEmbed       `json:"embeds"`
	Rows      []json.RawMessage `json:"components"`
}

type readEmbed struct {
	Footer struct {
		Text string `json:"text"`
	} `json:"footer"`
}

// The kinds of message that people write. Source: message types.
const (
	messagePlain = 0
	messageReply = 19
)

// deletion is one message removed, or several.
type deletion struct {
	ID        string   `json:"id"`
	IDs       []string `json:"ids"`
	ChannelID string   `json:"channel_id"`
	GuildID   string   `json:"guild_id"`
}

// The kinds of interaction. Source: interaction types.
const (
	interactionCommand      = 2
	interactionPress        = 3
	interactionAutocomplete = 4
	interactionForm         = 5
)

// interaction is a command, a press, a filled form, or typing in an option.
type interaction struct {
	ID        string   `json:"id"`
	App       string   `json:"application_id"`
	Type      int      `json:"type"`
	Token     string   `json:"token"`
	GuildID   string   `json:"guild_id"`
	ChannelID string   `json:"channel_id"`
	Channel   channel  `json:"channel"`
	Member    *member  `json:"member"`
	User      *user    `json:"user"`
	Message   *message `json:"message"` // the one whose button was pressed
	Data      struct {
		Name       string            `json:"name"`
		Options    []givenOption     `json:"options"`
		Resolved   resolved          `json:"resolved"`
		CustomID   string            `json:"custom_id"`
		Values     []string          `json:"values"`
		Components []json.RawMessage `json:"components"`
	} `json:"data"`
}

// who is the person behind the interaction; nil when the platform named nobody.
func (i interaction) who() *user {
	if i.Member != nil && i.Member.User != nil {
		return i.Member.User
	}
	return i.User
}

// givenOption is an option as given; a subcommand is one that holds options.
type givenOption struct {
	Name    string          `json:"name"`
	Type    int             `json:"type"`
	Value   json.RawMessage `json:"value"`
	Focused bool            `json:"focused"`
	Options []givenOption   `json:"options"`
}

// text is the value as it was typed, also where the platform sent a number.
func (o givenOption) text() string {
	var s string
	if json.Unmarshal(o.Value, &s) == nil {
		return s
	}
	return string(o.Value)
}

type channel struct {
	ID         string      `json:"id"`
	Type       int         `json:"type"`
	GuildID    string      `json:"guild_id"`
	Name       string      `json:"name"`
	Parent     string      `json:"parent_id"`
	Overwrites []overwrite `json:"permission_overwrites"`
}

// overwrite changes the rights of a role (type 0) or a member (1) in a channel.
type overwrite struct {
	ID    string `json:"id"`
	Type  int    `json:"type"`
	Allow string `json:"allow"`
	Deny  string `json:"deny"`
}

// Kinds of channel that matter here. Source: channel types.
const (
	channelText     = 0
	channelDirect   = 1
	channelGroup    = 3
	channelNews     = 5
	firstThreadKind = 10
	lastThreadKind  = 12
)

func (c channel) thread() bool { return c.Type >= firstThreadKind && c.Type <= lastThreadKind }

type role struct {
	ID          string `json:"id"`
	Name        string `json:"name"`
	Permissions string `json:"permissions"`
	Managed     bool   `json:"managed"` // belongs to a bot or to the platform
}

type guild struct {
	ID          string    `json:"id"`
	Name        string    `json:"name"`
	Owner       string    `json:"owner_id"`
	Unavailable bool      `json:"unavailable"`
	Roles       []role    `json:"roles"`
	Channels    []channel `json:"channels"`
	Threads     []channel `json:"threads"`
}
