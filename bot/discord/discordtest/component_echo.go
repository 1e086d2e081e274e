package discordtest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// readComponents takes components as they came. The raw form, with ids given and
// nulls left out, is what is echoed; the other is for looking at.
func readComponents(raw json.RawMessage) ([]Component, []any, *apiError) {
	if len(raw) == 0 {
		return nil, nil, nil
	}
	var loose []any
	var strict []Component
	if err := json.Unmarshal(raw, &loose); err != nil {
		return nil, nil, invalidBody("components: " + err.Error())
	}
	next := 0
	number(loose, &next)
	if err := json.Unmarshal(encode(loose), &strict); err != nil {
		return nil, nil, invalidBody("components: " + err.Error())
	}
	return strict, loose, nil
}

// number gives every component without an id the next one, in order.
func number(v any, next *int) {
	switch v := v.(type) {
	case []any:
		for _, item := range v {
			number(item, next)
		}
	case map[string]any:
		if _, isComponent := v["type"].(float64); isComponent {
			*next++
			if v["id"] == nil || fmt.Sprint(v["id"]) == "0" {
				v["id"] = *next
			}
		}
		complete(v)
		for _, key := range []string{"components", "component", "accessory"} {
			number(v[key], next)
		}
	}
}

// filledIn is what the platform adds to a component of a type by itself.
var filledIn = map[float64]object{
	StringSelect: {"min_values": 1, "max_values": 1},
	5:            {"min_values": 1, "max_values": 1},
	6:            {"min_values": 1, "max_values": 1},
	7:            {"min_values": 1, "max_values": 1},
	8:            {"min_values": 1, "max_values": 1},

	Thumbnail:     {"description": nil, "spoiler": false},
	FileComponent: {"spoiler": false, "name": "", "size": 0},
	Separator:     {"spacing": 1, "divider": true},
	Container:     {"accent_color": nil, "spoiler": false},
}

// complete leaves nulls out and adds what the platform fills in by itself.
func complete(component map[string]any) {
	for key, item := range component {
		if item == nil {
			delete(component, key)
		}
	}
	kind, _ := component["type"].(float64)
	for key, value := range filledIn[kind] {
		if _, there := component[key]; !there {
			component[key] = value
		}
	}
	items, _ := component["items"].([]any)
	for _, item := range items {
		if o, ok := item.(map[string]any); ok && kind == MediaGallery {
			for key, value := range filledIn[Thumbnail] {
				if _, there := o[key]; !there {
					o[key] = value
				}
			}
		}
	}
}

// showMedia turns the pictures and files of a layout into what readers get:
// attachment://name becomes the address of the message's own file.
func (s *Server) showMedia(m *Message, v any) *apiError {
	switch v := v.(type) {
	case []any:
		for _, item := range v {
			if err := s.showMedia(m, item); err != nil {
				return err
			}
		}
	case map[string]any:
		for key, item := range v {
			if o, ok := item.(map[string]any); ok && (key == "media" || key == "file") {
				if err := s.unfurl(m, o); err != nil {
					return err
				}
			} else if err := s.showMedia(m, item); err != nil {
				return err
			}
		}
	}
	return nil
}

// unfurl completes one picture or file.
func (s *Server) unfurl(m *Message, media map[string]any) *apiError {
	address, _ := media["url"].(string)
	if name, own := strings.CutPrefix(address, "attachment://"); own {
		i := slices.IndexFunc(m.Attachments, func(a Attachment) bool { return a.Filename == name })
		if i < 0 {
			return invalidBody("components: " + address + " names no file of the message")
		}
		address = m.Attachments[i].URL
		media["attachment_id"] = m.Attachments[i].ID
	}
	if media["id"] == nil {
		media["id"] = s.newID()
	}
	media["url"], media["proxy_url"] = address, address
	return nil
}
