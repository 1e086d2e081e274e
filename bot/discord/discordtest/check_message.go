package discordtest

import (
	"fmt"
	"slices"
	"unicode/utf8"
)

// messageRules say what one way of making a message allows.
type messageRules struct {
	flags int  // that may be set
	nonce bool // nonce and enforce_nonce have a meaning
	empty bool // nothing to show yet: a deferred answer
}

var (
	postRules  = messageRules{flags: SuppressEmbeds | SuppressNotifications | ComponentsV2 | VoiceMessage, nonce: true}
	replyRules = messageRules{flags: SuppressEmbeds | Ephemeral | ComponentsV2 | VoiceMessage | SuppressNotifications}
	deferRules = messageRules{flags: Ephemeral, empty: true}
	editRules  = messageRules{flags: SuppressEmbeds | ComponentsV2}
)

// faultsOf collects what is wrong with a body.
type faultsOf []string

func (f *faultsOf) add(format string, args ...any) { *f = append(*f, fmt.Sprintf(format, args...)) }

// long notes a text that exceeds its limit in characters.
func (f *faultsOf) long(what, text string, limit int) {
	if n := utf8.RuneCountInString(text); n > limit {
		f.add("%s has %d characters, at most %d are allowed", what, n, limit)
	}
}

// check holds a new message against the rules that the platform's document
// cannot express, or states wrongly. Sources: resources/message and
// components/reference.
func (d *draft) check(r messageRules) *apiError {
	var f faultsOf
	d.checkText(&f)
	flags := 0
	if d.Flags != nil {
		flags = *d.Flags
	}
	if extra := flags &^ r.flags; extra != 0 {
		f.add("flags: %d cannot be set here", extra)
	}
	if (d.Nonce != nil || d.EnforceNonce) && !r.nonce {
		f.add("nonce and enforce_nonce exist for plain posts only")
	}
	if d.EnforceNonce && d.Nonce == nil {
		f.add("enforce_nonce without a nonce")
	}
	if d.Nonce != nil {
		f.long("nonce", idText(d.Nonce), 25)
	}
	d.checkFiles(&f, nil)
	f = append(f, checkComponents(d.components, flags&ComponentsV2 != 0)...)
	d.checkV2(&f, flags)
	if d.isEmpty() && !r.empty && len(f) == 0 {
		return errEmptyMessage
	}
	return f.err()
}

func (f faultsOf) err() *apiError {
	if len(f) == 0 {
		return nil
	}
	return invalidBody(f...)
}

func (d *draft) isEmpty() bool {
	return (d.Content == nil || *d.Content == "") && (d.Embeds == nil || len(*d.Embeds) == 0) &&
		len(d.components) == 0 && len(d.files) == 0 && len(d.StickerIDs) == 0 && len(d.Poll) == 0
}

// checkEdit holds the change of a message against the rules.
func (d *draft) checkEdit(m *Message) *apiError {
	var f faultsOf
	d.checkText(&f)
	flags := m.Flags
	if d.Flags != nil {
		if extra := *d.Flags &^ editRules.flags; extra != 0 {
			f.add("flags: %d cannot be changed", extra)
		}
		flags |= *d.Flags
		if m.Flags&ComponentsV2 != 0 && *d.Flags&ComponentsV2 == 0 {
			f.add("flags: IS_COMPONENTS_V2 cannot be taken away")
		}
	}
	if d.Nonce != nil || d.EnforceNonce {
		f.add("nonce and enforce_nonce exist for plain posts only")
	}
	d.checkFiles(&f, m)
	f = append(f, checkComponents(d.components, flags&ComponentsV2 != 0)...)
	d.checkV2(&f, flags)
	return f.err()
}

func (d *draft) checkText(f *faultsOf) {
	if d.Content != nil {
		f.long("content", *d.Content, 2000)
	}
	if d.Embeds != nil {
		checkEmbeds(f, *d.Embeds)
	}
	*f = append(*f, d.AllowedMentions.check()...)
}

func (d *draft) checkV2(f *faultsOf, flags int) {
	if flags&ComponentsV2 == 0 {
		return
	}
	if d.Content != nil && *d.Content != "" || d.Embeds != nil && len(*d.Embeds) > 0 || len(d.StickerIDs) > 0 || len(d.Poll) > 0 && string(d.Poll) != "null" {
		f.add("a message with IS_COMPONENTS_V2 has no content, embeds, stickers or poll")
	}
}

// checkFiles wants every entry of attachments to name a file that is there.
func (d *draft) checkFiles(f *faultsOf, m *Message) {
	if d.Attachments == nil {
		return
	}
	seen := map[string]bool{}
	for _, a := range *d.Attachments {
		id := idText(a.ID)
		if seen[id] {
			f.add("attachments: id %s comes twice", id)
		}
		seen[id] = true
		f.long("attachments: description", a.Description, 1024)
		uploaded := slices.ContainsFunc(d.files, func(u Upload) bool { return idText(float64(u.index)) == id })
		kept := m != nil && slices.ContainsFunc(m.Attachments, func(old Attachment) bool { return old.ID == id })
		if !uploaded && !kept {
			f.add("attachments: id %s is neither the n of a files[n] nor a file of the message", id)
		}
	}
}

// checkEmbeds counts characters. Source: resources/message, "Embed Limits".
func checkEmbeds(f *faultsOf, embeds []Embed) {
	if len(embeds) > 10 {
		f.add("%d embeds, at most 10 are allowed", len(embeds))
	}
	sum := 0
	count := func(what, text string, limit int) {
		f.long(what, text, limit)
		sum += utf8.RuneCountInString(text)
	}
	for _, e := range embeds {
		count("embed title", e.Title, 256)
		count("embed description", e.Description, 4096)
		if e.Footer != nil {
			count("embed footer", e.Footer.Text, 2048)
		}
		if e.Author != nil {
			count("embed author", e.Author.Name, 256)
		}
		if len(e.Fields) > 25 {
			f.add("an embed with %d fields, at most 25 are allowed", len(e.Fields))
		}
		for _, field := range e.Fields {
			if field.Name == "" || field.Value == "" {
				f.add("an embed field needs a name and a value")
			}
			count("embed field name", field.Name, 256)
			count("embed field value", field.Value, 1024)
		}
	}
	if sum > 6000 {
		f.add("the embeds together have %d characters, at most 6000 are allowed", sum)
	}
}
