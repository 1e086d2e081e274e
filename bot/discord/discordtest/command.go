package discordtest

import (
	"encoding/json"
	"slices"
)

// Types of option. Source: interactions/application-commands.
const (
	SubCommand    = 1
	SubGroup      = 2
	StringOption  = 3
	IntegerOption = 4
	BooleanOption = 5
	UserOption    = 6
	ChannelOption = 7
	RoleOption    = 8
	NumberOption  = 10
	FileOption    = 11
)

// Command is a command as the bot registered it.
type Command struct {
	ID          string         `json:"id"`
	App         string         `json:"application_id"`
	Guild       string         `json:"guild_id,omitempty"` // empty for a global command
	Version     string         `json:"version"`
	Type        int            `json:"type"` // 1 typed with a slash, 2 on a person, 3 on a message
	Name        string         `json:"name"`
	Description string         `json:"description"`
	Options     []CommandParam `json:"options,omitempty"`
	Rights      *string        `json:"default_member_permissions"`
	Contexts    *[]int         `json:"contexts,omitempty"`
	Installs    *[]int         `json:"integration_types,omitempty"`
	NSFW        bool           `json:"nsfw"`

	NameLocal        map[string]string `json:"name_localizations,omitempty"`
	DescriptionLocal map[string]string `json:"description_localizations,omitempty"`
}

// CommandParam is one option of a command, a subcommand or a group of them.
type CommandParam struct {
	Type         int            `json:"type"`
	Name         string         `json:"name"`
	Description  string         `json:"description"`
	Required     bool           `json:"required,omitempty"`
	Autocomplete bool           `json:"autocomplete,omitempty"`
	Choices      []Choice       `json:"choices,omitempty"`
	Options      []CommandParam `json:"options,omitempty"`
	ChannelTypes []int          `json:"channel_types,omitempty"`
	MinValue     *float64       `json:"min_value,omitempty"`
	MaxValue     *float64       `json:"max_value,omitempty"`
	MinLength    *int           `json:"min_length,omitempty"`
	MaxLength    *int           `json:"max_length,omitempty"`

	NameLocal        map[string]string `json:"name_localizations,omitempty"`
	DescriptionLocal map[string]string `json:"description_localizations,omitempty"`
}

// Commands are the registered commands, global ones first, each scope in the
// order of registration.
func (s *Server) Commands() []Command {
	s.mu.Lock()
	defer s.mu.Unlock()
	var global, local []Command
	for _, c := range s.commands {
		if c.Guild == "" {
			global = append(global, *c)
		} else {
			local = append(local, *c)
		}
	}
	return append(global, local...)
}

// readCommand reads one command of a body over what was there before.
func readCommand(body []byte, into *Command) *apiError {
	if err := json.Unmarshal(body, into); err != nil {
		return invalidBody(err.Error())
	}
	if into.Type == 0 {
		into.Type = 1
	}
	if bad := into.check(); len(bad) > 0 {
		return invalidBody(bad...)
	}
	return nil
}

// scope finds the guild of a call, "" for global commands, and checks that the
// application is the bot's own.
func (s *Server) scope(c *call) (string, *apiError) {
	if c.params["application_id"] != s.app {
		return "", &apiError{status: 403, code: 20012, message: "You are not authorized to perform this action on this application"}
	}
	if c.params["guild_id"] == "" {
		return "", nil
	}
	g, err := s.myGuild(c)
	if err != nil {
		return "", err
	}
	return g.ID, nil
}

// inScope are the commands of one guild or the global ones.
func (s *Server) inScope(guild string) []*Command {
	list := []*Command{}
	for _, c := range s.commands {
		if c.Guild == guild {
			list = append(list, c)
		}
	}
	return list
}

// sameName finds the command of a scope that a new one replaces.
func (s *Server) sameName(c *Command) *Command {
	i := slices.IndexFunc(s.commands, func(o *Command) bool { return o.Guild == c.Guild && o.Type == c.Type && o.Name == c.Name })
	if i < 0 {
		return nil
	}
	return s.commands[i]
}
