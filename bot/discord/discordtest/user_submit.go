package discordtest

import (
	"fmt"
	"unicode/utf8"
)

// Submit sends a filled form. The keys are what stands on the fields, or their
// custom_ids; the values are texts, for selects and checkbox groups []string,
// for a checkbox a bool. A field that is not named keeps what stood in it.
func (u *User) Submit(f Form, values map[string]any) *Action {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.from == nil || f.from.user != u {
		return u.failed(fmt.Errorf("discordtest: the form was not shown to %s", u.Name))
	}
	left := map[string]bool{}
	for key := range values {
		left[key] = true
	}
	components := []object{}
	for i, c := range f.Components {
		field, label := &c, c.Label
		switch {
		case c.Type == Label:
			field = c.Component
		case c.Type == ActionRow:
			field = &c.Components[0]
			label = field.Label
		default:
			continue // text between the fields
		}
		answer, err := field.answer(label, values, left)
		if err != nil {
			return u.failed(err)
		}
		answer["id"] = 2*i + 2
		if c.Type == Label {
			components = append(components, object{"type": Label, "id": 2*i + 1, "component": answer})
		} else {
			components = append(components, object{"type": ActionRow, "id": 2*i + 1, "components": []object{answer}})
		}
	}
	for key := range left {
		return u.failed(fmt.Errorf("discordtest: the form %q has no field %q", f.Title, key))
	}
	a := s.begin(u, f.from.channel, actSubmit, object{"custom_id": f.ID, "components": components})
	if a.source = f.from.source; a.source != nil {
		a.edits = a.source.Edits
	}
	s.send(a)
	return a
}

// answer is one field as it is sent.
func (c *Component) answer(label string, values map[string]any, left map[string]bool) (object, error) {
	v := c.Value
	for _, key := range []string{label, c.CustomID} {
		if given, ok := values[key]; ok {
			v = given
			delete(left, key)
		}
	}
	o := object{"type": c.Type, "custom_id": c.CustomID}
	switch c.Type {
	case TextInput, RadioGroup:
		text, _ := v.(string)
		if err := c.fits(label, text); err != nil {
			return nil, err
		}
		o["value"] = text
	case Checkbox:
		o["value"] = v == true
	case FileUpload:
		if c.needed() {
			return nil, fmt.Errorf("discordtest: the emulator cannot put a file into field %q", label)
		}
		o["values"] = []string{}
	default:
		labels, _ := v.([]string)
		chosen, err := c.values(labels)
		if err != nil {
			return nil, err
		}
		o["values"] = chosen
	}
	return o, nil
}

// fits holds a text against the lengths of its field.
func (c *Component) fits(label, text string) error {
	n := utf8.RuneCountInString(text)
	switch {
	case n == 0 && c.needed():
		return fmt.Errorf("discordtest: field %q is required", label)
	case n == 0:
		return nil
	case c.MinLength != nil && n < *c.MinLength, c.MaxLength != nil && n > *c.MaxLength, n > 4000:
		return fmt.Errorf("discordtest: field %q: %d characters are too few or too many", label, n)
	}
	return nil
}

// needed tells whether a field must be filled in; it must unless it says
// otherwise.
func (c *Component) needed() bool { return c.Required == nil || *c.Required }
