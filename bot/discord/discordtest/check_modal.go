package discordtest

import "unicode/utf8"

// modal is the form of a callback of type 9.
type modal struct {
	CustomID   string      `json:"custom_id"`
	Title      string      `json:"title"`
	Components []Component `json:"components"`
}

// check holds a form against the rules. The platform's document allows 40
// components, its reference 5. Source: components/reference.
func (m *modal) check() []string {
	var f faultsOf
	f.short("custom_id", m.CustomID, 1, 100)
	f.short("title", m.Title, 1, 45)
	if n := len(m.Components); n < 1 || n > 5 {
		f.add("a form with %d components, 1 to 5 are allowed", n)
	}
	seen := map[string]bool{}
	for _, c := range m.Components {
		switch c.Type {
		case Label:
			f.short("label", c.Label, 1, 45)
			f.long("label description", c.Description, 100)
			if c.Component == nil {
				f.add("label %q holds no component", c.Label)
			} else {
				checkField(&f, c.Component, seen)
			}
		case ActionRow:
			if len(c.Components) != 1 || c.Components[0].Type != TextInput {
				f.add("a row in a form holds one text input")
				continue
			}
			f.short("text input label", c.Components[0].Label, 1, 45)
			checkField(&f, &c.Components[0], seen)
		case TextDisplay:
			checkLayout(&f, &c)
		default:
			f.add("a component of type %d cannot stand at the top of a form", c.Type)
		}
	}
	return f
}

// checkField holds one field of a form against the rules.
func checkField(f *faultsOf, c *Component, seen map[string]bool) {
	f.short("custom_id", c.CustomID, 1, 100)
	if seen[c.CustomID] {
		f.add("custom_id %q comes twice in one form", c.CustomID)
	}
	seen[c.CustomID] = true
	switch c.Type {
	case TextInput:
		checkInput(f, c)
	case StringSelect, 5, 6, 7, 8:
		checkSelect(f, c)
	case RadioGroup:
		if n := len(c.Options); n < 2 || n > 10 {
			f.add("a radio group has %d options, 2 to 10 are allowed", n)
		}
	case CheckboxGroup:
		if n := len(c.Options); n < 1 || n > 10 {
			f.add("a checkbox group has %d options, 1 to 10 are allowed", n)
		}
	case FileUpload, Checkbox:
	default:
		f.add("a component of type %d cannot be a field of a form", c.Type)
	}
}

func checkInput(f *faultsOf, c *Component) {
	if c.Style != 1 && c.Style != 2 {
		f.add("text input style %d is not 1 or 2", c.Style)
	}
	f.long("placeholder", c.Placeholder, 100)
	if text, ok := c.Value.(string); ok {
		f.long("value", text, 4000)
	}
	low, high := 0, 4000
	if c.MinLength != nil {
		low = *c.MinLength
	}
	if c.MaxLength != nil {
		high = *c.MaxLength
	}
	if low < 0 || high < 1 || high > 4000 || low > high {
		f.add("text input lengths %d to %d are not within 0 to 4000", low, high)
	}
}

// short notes a text whose length in characters is out of bounds.
func (f *faultsOf) short(what, text string, low, high int) {
	if n := utf8.RuneCountInString(text); n < low || n > high {
		f.add("%s has %d characters, %d to %d are allowed", what, n, low, high)
	}
}
