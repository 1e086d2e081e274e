package discordtest

// Types of component. Source: components/reference.
const (
	ActionRow     = 1
	Button        = 2
	StringSelect  = 3
	TextInput     = 4
	Section       = 9
	TextDisplay   = 10
	Thumbnail     = 11
	MediaGallery  = 12
	FileComponent = 13
	Separator     = 14
	Container     = 17
	Label         = 18
	FileUpload    = 19
	RadioGroup    = 21
	CheckboxGroup = 22
	Checkbox      = 23
)

// linkButton is the style of a button that opens an address.
const linkButton = 5

// Component is any part of a message's or a form's controls; which fields count
// depends on Type.
type Component struct {
	Type        int         `json:"type"`
	ID          int         `json:"id"`
	CustomID    string      `json:"custom_id"`
	Style       int         `json:"style"`
	Label       string      `json:"label"`
	Description string      `json:"description"`
	URL         string      `json:"url"`
	Disabled    bool        `json:"disabled"`
	Emoji       *Emoji      `json:"emoji"`
	Options     []Choice    `json:"options"`
	Placeholder string      `json:"placeholder"`
	Value       any         `json:"value"`
	Required    *bool       `json:"required"`
	MinValues   *int        `json:"min_values"`
	MaxValues   *int        `json:"max_values"`
	MinLength   *int        `json:"min_length"`
	MaxLength   *int        `json:"max_length"`
	Content     string      `json:"content"`
	Components  []Component `json:"components"`
	Component   *Component  `json:"component"`
	Accessory   *Component  `json:"accessory"`
	Items       []any       `json:"items"`
}

// Emoji is the picture on a button.
type Emoji struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// Choice is one value to choose: of a select or of a command's option.
type Choice struct {
	Name        string `json:"name,omitempty"`  // options of commands
	Label       string `json:"label,omitempty"` // selects
	Value       any    `json:"value"`
	Description string `json:"description,omitempty"`
	Default     bool   `json:"default,omitempty"`
}

// walk calls f for a component and all within it.
func (c *Component) walk(f func(*Component)) {
	f(c)
	for i := range c.Components {
		c.Components[i].walk(f)
	}
	if c.Component != nil {
		c.Component.walk(f)
	}
	if c.Accessory != nil {
		c.Accessory.walk(f)
	}
}

// each calls f for every component of a tree.
func each(list []Component, f func(*Component)) {
	for i := range list {
		list[i].walk(f)
	}
}
