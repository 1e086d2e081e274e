package discord

import (
	"encoding/json"
	"slices"

	"blockbell/bot/chat"
)

// Limits that package chat does not know, in characters. Source: the platform's
// message, embed and upload references.
const (
	maxDescription = 4096
	maxEmbeds      = 10
	maxFiles       = 10
	maxFileSize    = 10 << 20
	maxAlt         = 1024
	rowSize        = 5
)

// The flags of a message that are used.
const flagEphemeral = 1 << 6 // only the person addressed sees it

// body is a message as the platform takes it. A nil part is left out; in an edit
// that means it stays as it was.
type body struct {
	Content     *string       `json:"content,omitempty"`
	Embeds      *[]embed      `json:"embeds,omitempty"`
	Components  *[]any        `json:"components,omitempty"`
	Attachments *[]attachment `json:"attachments,omitempty"`
	Mentions    mentions      `json:"allowed_mentions"`
	Flags       int           `json:"flags,omitempty"`
	Nonce       string        `json:"nonce,omitempty"`
	Enforce     bool          `json:"enforce_nonce,omitempty"`
	Reference   *reference    `json:"message_reference,omitempty"`
}

// mentions says whom a message may ring for: nobody, always. Without it a post
// rings for everyone it names.
type mentions struct {
	Parse []string `json:"parse"`
}

type reference struct {
	Message string `json:"message_id"`
	Must    bool   `json:"fail_if_not_exists"`
}

type embed struct {
	Title       string       `json:"title,omitempty"`
	Description string       `json:"description,omitempty"`
	Fields      []embedField `json:"fields,omitempty"`
	Footer      *footer      `json:"footer,omitempty"`
}

type embedField struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Inline bool   `json:"inline"`
}

type footer struct {
	Text string `json:"text"`
}

type attachment struct {
	ID   int    `json:"id"`
	Name string `json:"filename"`
	Alt  string `json:"description,omitempty"`
}

type row struct {
	Type       int      `json:"type"` // 1
	Components []button `json:"components"`
}

type button struct {
	Type  int    `json:"type"`  // 2
	Style int    `json:"style"` // 1 primary, 2 secondary
	Label string `json:"label"`
	ID    string `json:"custom_id"`
}

// dress makes a message of the platform out of one of the bot's. key, where there
// is one, ends up in the last embed's footer, so that the message can be found
// again. What does not fit is cut, and the whole text goes along as a file.
func dress(m chat.Message, key string) (body, []chat.File) {
	b := body{Mentions: mentions{Parse: []string{}}}
	p := pack(m, key)
	files := slices.Clone(m.Files)
	if p.cut {
		files = append([]chat.File{{Name: "whole.txt", Bytes: []byte(plainText(m)), Alt: "the whole answer as text"}}, files...)
	}
	files, lost := fitting(files)
	if lost {
		p.note("A file was too large to send.")
	}
	if p.content != "" {
		b.Content = &p.content
	}
	if len(p.embeds) > 0 {
		b.Embeds = &p.embeds
	}
	if rows := buttonRows(m.Buttons); len(rows) > 0 {
		b.Components = &rows
	}
	if len(files) > 0 {
		b.Attachments = attach(files)
	}
	return b, files
}

// whole makes every part of a body explicit, so that an edit replaces all of what
// was there.
func (b body) whole() body {
	if b.Content == nil {
		b.Content = new(string)
	}
	if b.Embeds == nil {
		b.Embeds = &[]embed{}
	}
	if b.Components == nil {
		b.Components = &[]any{}
	}
	if b.Attachments == nil {
		b.Attachments = &[]attachment{}
	}
	return b
}

// fitting leaves out what the platform would refuse the whole message for.
func fitting(files []chat.File) (fit []chat.File, lost bool) {
	for _, f := range files {
		if len(fit) == maxFiles || len(f.Bytes) > maxFileSize {
			lost = true
			continue
		}
		fit = append(fit, f)
	}
	return fit, lost
}

func attach(files []chat.File) *[]attachment {
	all := make([]attachment, len(files))
	for i, f := range files {
		alt, _ := cut(f.Alt, maxAlt)
		all[i] = attachment{ID: i, Name: f.Name, Alt: alt}
	}
	return &all
}

// buttonRows lays buttons out in rows of five, the first as the one to press.
func buttonRows(buttons []chat.Button) []any {
	var rows []any
	current := row{Type: 1}
	for _, b := range buttons[:min(len(buttons), chat.MaxButtons)] {
		id, ok := customID(idButton, b.Token)
		if !ok {
			continue
		}
		current.Components = append(current.Components, newButton(b.Label, id, len(rows)+len(current.Components) == 0))
		if len(current.Components) == rowSize {
			rows = append(rows, current)
			current = row{Type: 1}
		}
	}
	if len(current.Components) > 0 {
		rows = append(rows, current)
	}
	return rows
}

func newButton(label, id string, primary bool) button {
	short, _ := cut(label, chat.MaxLabel)
	if short == "" {
		short = "OK"
	}
	b := button{Type: 2, Style: 2, Label: short, ID: id}
	if primary {
		b.Style = 1
	}
	return b
}

// disabled is what stood under a message, with every part switched off. Parts that
// cannot be read are left out.
func disabled(rows []json.RawMessage) []any {
	var all []any
	for _, raw := range rows {
		var r map[string]any
		if json.Unmarshal(raw, &r) != nil {
			continue
		}
		parts, _ := r["components"].([]any)
		for _, p := range parts {
			if part, ok := p.(map[string]any); ok {
				part["disabled"] = true
			}
		}
		if len(parts) > 0 {
			all = append(all, r)
		}
	}
	return all
}
