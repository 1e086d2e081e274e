package discord

import (
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
	maxAllFiles    = 24 << 20 // a request may have 25 MiB; the words take some of it
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
		p.note(lostFile)
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

// lostFile stands where a file is missing.
const lostFile = "A file was too large to send."

// withoutFiles is the same message with a line in place of its files.
func (b body) withoutFiles() body {
	line := lostFile
	if b.Content != nil && *b.Content != "" {
		short, _ := cut(*b.Content, chat.MaxText-length(line)-1)
		line = short + "\n" + line
	}
	b.Content, b.Attachments = &line, &[]attachment{}
	return b
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
	sum := 0
	for _, f := range files {
		if len(fit) == maxFiles || len(f.Bytes) > maxFileSize || sum+len(f.Bytes) > maxAllFiles {
			lost = true
			continue
		}
		sum += len(f.Bytes)
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
