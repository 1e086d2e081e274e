package discord

import (
	"strings"

	"blockbell/bot/chat"
)

// cutNote stands under what was cut.
const cutNote = "The rest is in the file."

// room is kept free in the sum of all embeds for a note and a key.
const room = 100

// packed is the text of a message laid out within the platform's limits.
type packed struct {
	content string
	embeds  []embed
	left    int // characters that still fit
	cut     bool
}

// pack lays a message out. Bare words stay bare; a title, fields, length or a key
// need an embed. The platform shows no moments in titles and names, so they stand
// there in words.
func pack(m chat.Message, key string) packed {
	p := packed{left: chat.MaxAll - room}
	text := escape(m.Text)
	bare := m.Title == "" && len(m.Fields) == 0 && key == ""
	if bare && length(text) <= chat.MaxText {
		p.content = text
		if text == "" && len(m.Files) == 0 {
			p.content = "Done."
		}
		return p
	}
	p.embeds = []embed{{Title: p.take(escape(chat.InWords(m.Title)), chat.MaxTitle), Description: p.take(text, maxDescription)}}
	p.fields(m.Fields)
	if p.cut {
		p.note(cutNote)
	}
	if key != "" {
		p.last().Footer = &footer{Text: key}
	}
	if e := p.last(); e.Title == "" && e.Description == "" && len(e.Fields) == 0 {
		e.Description = "Done."
	}
	return p
}

func (p *packed) last() *embed { return &p.embeds[len(p.embeds)-1] }

// take returns as much of a text as fits.
func (p *packed) take(text string, limit int) string {
	short, was := cut(text, min(limit, p.left))
	p.cut = p.cut || was
	p.left -= length(short)
	return short
}

// fields adds named values, in further embeds where one is full.
func (p *packed) fields(all []chat.Field) {
	for _, f := range all {
		if len(p.last().Fields) == chat.MaxFields {
			if len(p.embeds) == maxEmbeds-1 {
				p.cut = true
				return
			}
			p.embeds = append(p.embeds, embed{})
		}
		name, value := orDash(f.Name), orDash(f.Value)
		if p.left < length(name)+10 {
			p.cut = true
			return
		}
		field := embedField{Name: p.take(escape(chat.InWords(name)), chat.MaxFieldName)}
		field.Value = p.take(escape(value), chat.MaxFieldValue)
		field.Inline = length(value) <= shortValue && !strings.Contains(value, "\n")
		p.last().Fields = append(p.last().Fields, field)
	}
}

// shortValue is the length up to which values stand beside each other.
const shortValue = 24

// orDash stands in for nothing, which the platform refuses.
func orDash(s string) string {
	if strings.TrimSpace(s) == "" {
		return "–"
	}
	return s
}

// note adds a line at the end.
func (p *packed) note(line string) {
	if len(p.embeds) == 0 {
		p.content, _ = cut(strings.TrimSpace(p.content+"\n"+line), chat.MaxText)
		return
	}
	if len(p.last().Fields) > 0 {
		p.embeds = append(p.embeds, embed{Description: line})
		return
	}
	short, _ := cut(p.last().Description, maxDescription-length(line)-1)
	p.last().Description = strings.TrimSpace(short + "\n" + line)
}

// plainText is all the words of a message.
func plainText(m chat.Message) string {
	m = m.InWords()
	var parts []string
	for _, s := range []string{m.Title, m.Text} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	for _, f := range m.Fields {
		parts = append(parts, f.Name+": "+f.Value)
	}
	return strings.Join(parts, "\n\n") + "\n"
}
