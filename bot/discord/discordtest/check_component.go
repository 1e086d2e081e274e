package discordtest

import (
	"fmt"
	"unicode/utf8"
)

// checkComponents holds the controls of a message against the rules. Source:
// components/reference.
func checkComponents(list []Component, v2 bool) []string {
	var f faultsOf
	total, seen := 0, map[string]bool{}
	each(list, func(c *Component) {
		total++
		checkComponent(&f, c, v2)
		if c.CustomID != "" && seen[c.CustomID] {
			f.add("custom_id %q comes twice in one message", c.CustomID)
		}
		seen[c.CustomID] = true
	})
	if v2 {
		if total > 40 {
			f.add("%d components, at most 40 are allowed", total)
		}
		return f
	}
	if len(list) > 5 {
		f.add("%d rows, at most 5 are allowed", len(list))
	}
	for _, c := range list {
		if c.Type != ActionRow {
			f.add("a component of type %d at the top needs the flag IS_COMPONENTS_V2; without it only rows are allowed", c.Type)
		}
	}
	return f
}

func checkComponent(f *faultsOf, c *Component, v2 bool) {
	f.long("custom_id", c.CustomID, 100)
	switch c.Type {
	case ActionRow:
		checkRow(f, c)
	case Button:
		checkButton(f, c)
	case StringSelect, 5, 6, 7, 8:
		checkSelect(f, c)
	case TextInput, Label, FileUpload, RadioGroup, CheckboxGroup, Checkbox:
		f.add("a component of type %d is for forms only", c.Type)
	case Section, TextDisplay, Thumbnail, MediaGallery, FileComponent, Separator, Container:
		if !v2 {
			f.add("a component of type %d needs the flag IS_COMPONENTS_V2", c.Type)
		}
		checkLayout(f, c)
	default:
		f.add("type %d is no component", c.Type)
	}
}

func checkRow(f *faultsOf, c *Component) {
	buttons, selects := 0, 0
	for _, in := range c.Components {
		if in.Type == Button {
			buttons++
		} else {
			selects++
		}
	}
	if buttons > 5 || selects > 1 || buttons > 0 && selects > 0 || buttons+selects == 0 {
		f.add("a row holds 1 to 5 buttons or 1 select, not %d and %d", buttons, selects)
	}
}

func checkButton(f *faultsOf, c *Component) {
	f.long("button label", c.Label, 80)
	if c.Style < 1 || c.Style > 6 {
		f.add("button style %d is not 1 to 6", c.Style)
	}
	if c.Style == linkButton {
		f.long("button url", c.URL, 512)
		if c.URL == "" || c.CustomID != "" {
			f.add("a link button has a url and no custom_id")
		}
	} else if c.Style != 6 && (c.CustomID == "" || c.URL != "") {
		f.add("button %q needs a custom_id and no url", c.Label)
	}
	if c.Label == "" && c.Emoji == nil && c.Style != 6 {
		f.add("a button needs a label or an emoji")
	}
}

func checkSelect(f *faultsOf, c *Component) {
	if c.CustomID == "" {
		f.add("a select needs a custom_id")
	}
	f.long("placeholder", c.Placeholder, 150)
	if c.Type == StringSelect && (len(c.Options) < 1 || len(c.Options) > 25) {
		f.add("a select has %d options, 1 to 25 are allowed", len(c.Options))
	}
	seen := map[string]bool{}
	for _, o := range c.Options {
		value := fmt.Sprint(o.Value)
		f.long("option label", o.Label, 100)
		f.long("option value", value, 100)
		f.long("option description", o.Description, 100)
		if o.Label == "" || seen[value] {
			f.add("select option %q needs a label and a value of its own", value)
		}
		seen[value] = true
	}
	if c.MinValues != nil && (*c.MinValues < 0 || *c.MinValues > 25) || c.MaxValues != nil && (*c.MaxValues < 1 || *c.MaxValues > 25) {
		f.add("min_values is 0 to 25 and max_values 1 to 25")
	}
}

func checkLayout(f *faultsOf, c *Component) {
	switch c.Type {
	case TextDisplay:
		if n := utf8.RuneCountInString(c.Content); n < 1 || n > 4000 {
			f.add("the content of a text has %d characters, 1 to 4000 are allowed", n)
		}
	case Section:
		if n := len(c.Components); n < 1 || n > 3 || c.Accessory == nil {
			f.add("a section holds 1 to 3 texts and an accessory")
		}
	case MediaGallery:
		if n := len(c.Items); n < 1 || n > 10 {
			f.add("a gallery holds %d pictures, 1 to 10 are allowed", n)
		}
	}
}
