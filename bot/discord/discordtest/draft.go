package discordtest

import (
	"encoding/json"
	"slices"
	"strings"
)

// draft is the body that makes or changes a message.
type draft struct {
	Content         *string            `json:"content"`
	Embeds          *[]Embed           `json:"embeds"`
	Components      json.RawMessage    `json:"components"`
	Attachments     *[]draftAttachment `json:"attachments"`
	AllowedMentions *allowedMentions   `json:"allowed_mentions"`
	Flags           *int               `json:"flags"`
	Nonce           any                `json:"nonce"`
	EnforceNonce    bool               `json:"enforce_nonce"`
	Reference       *reference         `json:"message_reference"`
	StickerIDs      []string           `json:"sticker_ids"`
	Poll            json.RawMessage    `json:"poll"`

	has        map[string]json.RawMessage // the keys that were there
	components []Component
	loose      []any
	files      []Upload
}

type draftAttachment struct {
	ID          any    `json:"id"` // n of files[n], or the id of a file that stays
	Filename    string `json:"filename"`
	Description string `json:"description"`
}

// readDraft reads a body and checks its form.
func readDraft(body []byte, files []Upload) (*draft, *apiError) {
	d := &draft{files: files}
	if len(body) == 0 && len(files) > 0 {
		body = []byte("{}")
	}
	if err := json.Unmarshal(body, d); err != nil {
		return nil, invalidBody(err.Error())
	}
	if err := json.Unmarshal(body, &d.has); err != nil {
		return nil, invalidBody(err.Error())
	}
	if string(d.Components) == "null" {
		d.Components = nil
	}
	var bad *apiError
	if d.components, d.loose, bad = readComponents(d.Components); bad != nil {
		return nil, bad
	}
	return d, nil
}

func (d *draft) set(key string) bool { _, ok := d.has[key]; return ok }

// apply puts a draft into a message; what the draft does not name stays.
func (s *Server) apply(m *Message, d *draft) *apiError {
	if d.set("content") {
		m.Content = ""
		if d.Content != nil {
			m.Content = *d.Content
		}
	}
	if d.set("embeds") {
		m.Embeds = nil
		if d.Embeds != nil {
			m.Embeds = slices.Clone(*d.Embeds)
		}
		for i := range m.Embeds {
			m.Embeds[i].Type = "rich"
		}
	}
	if d.set("components") {
		m.Components, m.components = d.components, d.loose
	}
	if err := s.attach(m, d); err != nil {
		return err
	}
	if err := s.showMedia(m, m.components); err != nil {
		return err
	}
	if m.empty() {
		return errEmptyMessage
	}
	return nil
}

func (m *Message) empty() bool {
	return strings.TrimSpace(m.Content) == "" && len(m.Embeds) == 0 && len(m.Attachments) == 0 && len(m.Components) == 0
}

// attach keeps, drops and adds files: of the old ones only those stay that
// attachments lists, if it is there at all.
func (s *Server) attach(m *Message, d *draft) *apiError {
	var kept []Attachment
	for _, old := range m.Attachments {
		if !d.set("attachments") || d.lists(old.ID) {
			kept = append(kept, old)
		}
	}
	for _, f := range d.files {
		kept = append(kept, s.keepFile(m, f, d.about(f.index)))
	}
	m.Attachments = kept
	for i := range m.Embeds {
		e := &m.Embeds[i]
		for _, image := range []*EmbedImage{e.Image, e.Thumbnail} {
			if image == nil || !strings.HasPrefix(image.URL, "attachment://") {
				continue
			}
			name := strings.TrimPrefix(image.URL, "attachment://")
			n := slices.IndexFunc(kept, func(a Attachment) bool { return a.Filename == name })
			if n < 0 {
				return invalidBody("embeds: " + image.URL + " names no file of the message")
			}
			image.URL = kept[n].URL
		}
	}
	return nil
}

func (s *Server) keepFile(m *Message, f Upload, about draftAttachment) Attachment {
	a := Attachment{ID: s.newID(), Filename: f.Name, Description: about.Description, ContentType: f.ContentType, Size: len(f.Bytes), Bytes: f.Bytes}
	if about.Filename != "" {
		a.Filename = about.Filename
	}
	path := "/attachments/" + m.Channel + "/" + a.ID + "/" + a.Filename
	s.files[path] = f
	a.URL = s.URL() + path
	a.ProxyURL = a.URL
	return a
}

func (d *draft) lists(id string) bool {
	return d.Attachments != nil && slices.ContainsFunc(*d.Attachments, func(a draftAttachment) bool { return idText(a.ID) == id })
}

func (d *draft) about(n int) draftAttachment {
	if d.Attachments != nil {
		for _, a := range *d.Attachments {
			if idText(a.ID) == idText(float64(n)) {
				return a
			}
		}
	}
	return draftAttachment{}
}

// idText writes an id that came as a number or as a string.
func idText(v any) string {
	if text, ok := v.(string); ok {
		return text
	}
	return string(encode(v))
}
