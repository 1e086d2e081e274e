package discordtest

import (
	"fmt"
	"slices"
)

// Press presses the button with that label under a message. With an empty
// message it is the newest one that the person sees with such a button.
func (u *User) Press(message, label string) *Action {
	return u.touch(message, label, func(c *Component) bool {
		return c.Type == Button && c.Style != linkButton && (c.Label == label || c.Emoji != nil && c.Emoji.Name == label)
	}, nil)
}

// Choose selects values, by what stands on them, in the select with that
// placeholder or custom_id.
func (u *User) Choose(message, selects string, labels ...string) *Action {
	return u.touch(message, selects, func(c *Component) bool {
		return c.Type == StringSelect && (c.Placeholder == selects || c.CustomID == selects)
	}, labels)
}

func (u *User) touch(message, name string, fits func(*Component) bool, labels []string) *Action {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	m, c := u.findControl(message, fits)
	switch {
	case c == nil:
		return u.failed(fmt.Errorf("discordtest: %s sees no %q to use", u.Name, name))
	case c.Disabled:
		return u.failed(fmt.Errorf("discordtest: %q is disabled", name))
	}
	data := object{"custom_id": c.CustomID, "component_type": c.Type, "id": c.ID}
	if c.Type == StringSelect {
		values, err := c.values(labels)
		if err != nil {
			return u.failed(err)
		}
		data["values"] = values
	}
	a := s.begin(u, m.channel, actComponent, data)
	a.source, a.edits = m, m.Edits
	s.send(a)
	return a
}

// findControl looks through one message, or through all that the person sees,
// newest first; an enabled control comes before a disabled one.
func (u *User) findControl(message string, fits func(*Component) bool) (*Message, *Component) {
	var seen []*Message
	for _, ch := range u.srv.channels {
		if _, err := u.place(ch.ID); err != nil {
			continue
		}
		for _, m := range ch.messages {
			if (message == "" || m.ID == message) && (m.OnlyFor == "" || m.OnlyFor == u.ID) {
				seen = append(seen, m)
			}
		}
	}
	slices.SortFunc(seen, func(a, b *Message) int { return compareIDs(b.ID, a.ID) })
	var spare *Component
	var in *Message
	for _, m := range seen {
		var found *Component
		each(m.Components, func(c *Component) {
			if fits(c) && (found == nil || found.Disabled) {
				found = c
			}
		})
		if found != nil && !found.Disabled {
			return m, found
		}
		if found != nil && spare == nil {
			spare, in = found, m
		}
	}
	return in, spare
}

// values finds the values of a select by what stands on them.
func (c *Component) values(labels []string) ([]string, error) {
	low, high := 1, 1
	if c.Type == CheckboxGroup {
		high = len(c.Options)
	}
	if !c.needed() {
		low = 0
	}
	if c.MinValues != nil {
		low = *c.MinValues
	}
	if c.MaxValues != nil {
		high = *c.MaxValues
	}
	if len(labels) < low || len(labels) > high {
		return nil, fmt.Errorf("discordtest: %d values chosen, %d to %d are allowed", len(labels), low, high)
	}
	values := []string{}
	for _, label := range labels {
		i := slices.IndexFunc(c.Options, func(o Choice) bool { return o.Label == label || o.Value == label })
		if i < 0 {
			return nil, fmt.Errorf("discordtest: the select offers no %q", label)
		}
		values = append(values, fmt.Sprint(c.Options[i].Value))
	}
	return values, nil
}
