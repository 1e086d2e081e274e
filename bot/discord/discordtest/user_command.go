package discordtest

import (
	"fmt"
	"slices"
	"strings"
)

// Opt is an option of a command as a person fills it in. Value is a text, a
// number or a bool; for a person a *User, for a channel its name or id, for a file
// an Upload.
type Opt struct {
	Name  string
	Value any
}

// Command uses a command that the bot registered: "season build" is the
// subcommand build of season. What a client would refuse ends in Action.Err.
func (u *User) Command(channel, words string, opts ...Opt) *Action {
	return u.invoke(channel, words, actCommand, "", opts)
}

// Autocomplete types halfway: focused is the option that the cursor is in, typed
// what stands there.
func (u *User) Autocomplete(channel, words, focused, typed string, opts ...Opt) *Action {
	return u.invoke(channel, words, actSuggest, focused, append(opts, Opt{focused, typed}))
}

func (u *User) invoke(channel, words string, kind int, focused string, opts []Opt) *Action {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	ch, err := u.place(channel)
	if err != nil {
		return u.failed(err)
	}
	parts := strings.Fields(strings.TrimPrefix(words, "/"))
	if len(parts) == 0 {
		return u.failed(fmt.Errorf("discordtest: no command was named"))
	}
	c, err := u.pick(ch, 1, parts[0])
	if err != nil {
		return u.failed(err)
	}
	params, sub, err := c.descend(parts[1:])
	if err != nil {
		return u.failed(err)
	}
	f := filling{u: u, channel: ch, focused: focused, resolved: object{}}
	filled, err := f.fill(params, opts)
	if err != nil {
		return u.failed(fmt.Errorf("discordtest: /%s: %w", words, err))
	}
	for _, p := range slices.Backward(sub) {
		filled = []object{{"name": p.Name, "type": p.Type, "options": filled}}
	}
	data := object{"id": c.ID, "name": c.Name, "type": c.Type, "options": filled}
	if len(filled) == 0 {
		delete(data, "options")
	}
	if len(f.resolved) > 0 {
		data["resolved"] = f.resolved
	}
	if c.Guild != "" {
		data["guild_id"] = c.Guild
	}
	a := s.begin(u, ch, kind, data)
	s.send(a)
	return a
}

func (u *User) failed(err error) *Action { return &Action{srv: u.srv, user: u, err: err} }

// pick finds the command of a type that the person's client shows in a channel.
func (u *User) pick(ch *Channel, kind int, name string) (*Command, error) {
	for _, c := range slices.Backward(u.srv.commands) { // guild commands come before global ones
		if c.Type != kind || c.Name != name || !c.showsIn(ch) {
			continue
		}
		if ch.guild != nil {
			have := u.srv.permissions(u, ch)
			if !have.Has(UseCommands) || c.Rights != nil && !have.Has(rights(*c.Rights)) {
				return nil, fmt.Errorf("discordtest: %s may not use /%s", u.Name, c.Name)
			}
		}
		return c, nil
	}
	return nil, fmt.Errorf("discordtest: no command %q is registered for this channel", name)
}

// rights reads default_member_permissions; "0" means administrators only.
func rights(text string) Permissions {
	var p Permissions
	_, _ = fmt.Sscan(text, &p) // registration checked it
	if p == 0 {
		return Administrator
	}
	return p
}

func (c *Command) showsIn(ch *Channel) bool {
	if c.Guild != "" {
		return ch.guild != nil && ch.guild.ID == c.Guild
	}
	where := 0
	if ch.guild == nil {
		where = 1
	}
	return c.Contexts == nil || slices.Contains(*c.Contexts, where)
}

// descend follows subcommands to the options that are to be filled in.
func (c *Command) descend(words []string) ([]CommandParam, []CommandParam, error) {
	params := c.Options
	var path []CommandParam
	for _, w := range words {
		i := slices.IndexFunc(params, func(p CommandParam) bool { return p.Name == w && (p.Type == SubCommand || p.Type == SubGroup) })
		if i < 0 {
			return nil, nil, fmt.Errorf("discordtest: /%s has no subcommand %q", c.Name, w)
		}
		path = append(path, params[i])
		params = params[i].Options
	}
	if len(params) > 0 && (params[0].Type == SubCommand || params[0].Type == SubGroup) {
		return nil, nil, fmt.Errorf("discordtest: /%s needs a subcommand", strings.Join(append([]string{c.Name}, words...), " "))
	}
	return params, path, nil
}
