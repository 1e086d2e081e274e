package discord

import (
	"blockbell/bot/chat"
)

// Limits of a form. Source: the platform's component reference.
const (
	maxFormTitle  = 45
	maxFormFields = 5
	maxFormLabel  = 45
	maxFormHint   = 100
	maxFormValue  = 4000
)

// sheet is a form as the platform takes it. The library's own form has no labels
// and sends an empty one that the platform refuses.
type sheet struct {
	ID     string  `json:"custom_id"`
	Title  string  `json:"title"`
	Labels []label `json:"components"`
}

type label struct {
	Type      int       `json:"type"` // 18
	Label     string    `json:"label"`
	Hint      string    `json:"description,omitempty"`
	Component textInput `json:"component"`
}

type textInput struct {
	Type     int    `json:"type"` // 4
	ID       string `json:"custom_id"`
	Style    int    `json:"style"` // 1: one line, 2: several
	Value    string `json:"value,omitempty"`
	Required bool   `json:"required"`
	Max      int    `json:"max_length"`
}

// dressForm lays a form out; false when the platform could not show all of it.
func dressForm(f chat.Form) (sheet, bool) {
	id, ok := customID(idButton, f.Token)
	if !ok || len(f.Fields) == 0 || len(f.Fields) > maxFormFields {
		return sheet{}, false
	}
	title, _ := cut(orDash(f.Title), maxFormTitle)
	s := sheet{ID: id, Title: title}
	for _, field := range f.Fields {
		name, _ := cut(orDash(field.Label), maxFormLabel)
		hint, _ := cut(field.Hint, maxFormHint)
		value, _ := cut(field.Value, maxFormValue)
		if field.Name == "" || length(field.Name) > maxCustom {
			return sheet{}, false
		}
		style := 1
		if field.Long {
			style = 2
		}
		s.Labels = append(s.Labels, label{Type: 18, Label: name, Hint: hint, Component: textInput{
			Type: 4, ID: field.Name, Style: style, Value: value, Required: field.Required, Max: maxFormValue,
		}})
	}
	return s, true
}
