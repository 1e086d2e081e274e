package discordtest

import "time"

// Flags of messages. Source: resources/message, "Message Flags".
const (
	SuppressEmbeds        = 1 << 2
	Ephemeral             = 1 << 6
	Loading               = 1 << 7 // a deferred answer that has not come yet
	SuppressNotifications = 1 << 12
	VoiceMessage          = 1 << 13
	ComponentsV2          = 1 << 15
)

// Types of message.
const (
	plainMessage   = 0
	replyMessage   = 19
	commandMessage = 20
)

// Message is a message as a person sees it.
type Message struct {
	ID, Channel string
	Author      string // the id
	Bot         bool   // written by the bot
	Content     string
	Embeds      []Embed
	Components  []Component
	Attachments []Attachment
	Reactions   []Reaction
	Flags       int
	Nonce       string
	Pings       Pings  // whom its text notifies, as posted or last edited
	OnlyFor     string // the id of the one person who sees it; empty for all
	ReplyTo     string // the id of the message it answers
	Interaction string // the id of the interaction it answers
	Made        time.Time
	Edited      time.Time // zero when never
	Edits       int

	kind       int
	components []any // as they came, with ids
	user       *User
	channel    *Channel
	act        *Action
}

// Private tells whether only one person sees the message.
func (m Message) Private() bool { return m.OnlyFor != "" }

// Embed is a framed part of a message.
type Embed struct {
	Type        string       `json:"type"`
	Title       string       `json:"title,omitempty"`
	Description string       `json:"description,omitempty"`
	URL         string       `json:"url,omitempty"`
	Timestamp   string       `json:"timestamp,omitempty"`
	Color       int          `json:"color,omitempty"`
	Footer      *EmbedText   `json:"footer,omitempty"`
	Author      *EmbedText   `json:"author,omitempty"`
	Image       *EmbedImage  `json:"image,omitempty"`
	Thumbnail   *EmbedImage  `json:"thumbnail,omitempty"`
	Fields      []EmbedField `json:"fields,omitempty"`
}

// EmbedText is the footer (Text) or the author (Name) of an embed.
type EmbedText struct {
	Text    string `json:"text,omitempty"`
	Name    string `json:"name,omitempty"`
	URL     string `json:"url,omitempty"`
	IconURL string `json:"icon_url,omitempty"`
}

// EmbedImage is a picture in an embed.
type EmbedImage struct {
	URL string `json:"url"`
}

// EmbedField is a named value in an embed.
type EmbedField struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Inline bool   `json:"inline"`
}

// Attachment is a file of a message.
type Attachment struct {
	ID          string `json:"id"`
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"` // the words in place of a picture
	ContentType string `json:"content_type,omitempty"`
	Size        int    `json:"size"`
	URL         string `json:"url"`
	ProxyURL    string `json:"proxy_url"`
	Bytes       []byte `json:"-"`
}

// Reaction is one emoji under a message and the ids of those who set it.
type Reaction struct {
	Emoji string
	By    []string
}

// reference is message_reference of a body.
type reference struct {
	MessageID       string `json:"message_id"`
	ChannelID       string `json:"channel_id"`
	FailIfNotExists *bool  `json:"fail_if_not_exists"`
}
