package discord

import (
	"fmt"
	"regexp"
	"strings"

	"blockbell/bot/chat"
)

// Limits of commands. Source: the platform's application-command reference.
const (
	maxAbout    = 100
	maxOptions  = 25 // options of a command, choices of an option, subcommands
	maxChoice   = 100
	maxSum      = 8000 // names, descriptions and values of a whole command
	maxCommands = 100
)

// Kinds of option.
const (
	optionSub    = 1
	optionGroup  = 2
	optionString = 3
	optionFile   = 11
)

// commandName is the form of names. The platform also allows letters of other
// scripts; the bot's names are plain.
var commandName = regexp.MustCompile(`^[-_a-z0-9]{1,32}$`)

// command is one as the platform takes it and lists it. ID is set in lists only.
type command struct {
	ID       string          `json:"id,omitempty"`
	Type     int             `json:"type,omitempty"` // 1; cannot be changed
	Name     string          `json:"name"`
	About    string          `json:"description"`
	Options  []commandOption `json:"options"`
	Contexts []int           `json:"contexts"`
	Installs []int           `json:"integration_types"`
	Rights   *string         `json:"default_member_permissions"`
}

type commandOption struct {
	Type     int             `json:"type"`
	Name     string          `json:"name"`
	About    string          `json:"description"`
	Required bool            `json:"required,omitempty"`
	Suggests bool            `json:"autocomplete,omitempty"`
	Choices  []choice        `json:"choices,omitempty"`
	Options  []commandOption `json:"options,omitempty"`
}

type choice struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// platformCommands lays the table out as the platform takes it: commands with
// subcommands as one with several parts. The error names what breaks a limit.
func platformCommands(table []chat.Command) ([]command, error) {
	var all []command
	place := map[string]int{}
	for _, c := range table {
		if err := checkName(c.Name, c.Sub); err != nil {
			return nil, err
		}
		options, err := optionsOf(c)
		if err != nil {
			return nil, err
		}
		i, known := place[c.Name]
		if !known {
			i = len(all)
			place[c.Name] = i
			all = append(all, newCommand(c.Name))
		}
		if c.Sub == "" {
			if known {
				return nil, fmt.Errorf("command %s: stands there twice, or both with and without subcommands", c.Name)
			}
			all[i].About, all[i].Options = about(c.About), options
			continue
		}
		if known && len(all[i].Options) == 0 || known && all[i].Options[0].Type != optionSub {
			return nil, fmt.Errorf("command %s: stands there both with and without subcommands", c.Name)
		}
		all[i].Options = append(all[i].Options, commandOption{Type: optionSub, Name: c.Sub, About: about(c.About), Options: options})
	}
	return all, finishCommands(all)
}

// newCommand is one that everybody in the server and in direct messages sees.
func newCommand(name string) command {
	return command{Type: 1, Name: name, Options: []commandOption{}, Contexts: []int{0, 1}, Installs: []int{0}}
}

func checkName(names ...string) error {
	for i, n := range names {
		if (i == 0 || n != "") && !commandName.MatchString(n) {
			return fmt.Errorf("command %s: %q is no name the platform takes: 1 to 32 small letters, digits, - and _", names[0], n)
		}
	}
	return nil
}

// about is a description within its limits, which the platform demands.
func about(text string) string {
	short, _ := cut(orDash(text), maxAbout)
	return short
}

// optionsOf lists what a command takes, required options first.
func optionsOf(c chat.Command) ([]commandOption, error) {
	path := strings.TrimSpace(c.Name + " " + c.Sub)
	if len(c.Params) > maxOptions {
		return nil, fmt.Errorf("command %s: %d options, and the platform takes %d", path, len(c.Params), maxOptions)
	}
	var required, others []commandOption
	seen := map[string]bool{}
	for _, p := range c.Params {
		if !commandName.MatchString(p.Name) || seen[p.Name] {
			return nil, fmt.Errorf("command %s: option %q has no name the platform takes, or stands there twice", path, p.Name)
		}
		seen[p.Name] = true
		o := optionOf(p)
		if o.Required {
			required = append(required, o)
		} else {
			others = append(others, o)
		}
	}
	return append(required, others...), nil
}

// optionOf is one option. More choices than the platform shows are suggested while
// somebody types.
func optionOf(p chat.Param) commandOption {
	o := commandOption{Type: optionString, Name: p.Name, About: about(p.About), Required: p.Required, Suggests: p.Suggests}
	if p.File {
		o.Type, o.Suggests = optionFile, false
		return o
	}
	if len(p.Choices) > maxOptions {
		o.Suggests = true
		return o
	}
	for _, c := range p.Choices {
		o.Choices = append(o.Choices, choice{Name: c, Value: c})
		o.Suggests = false // the platform takes only one of the two
	}
	return o
}

// finishCommands describes groups by their parts and checks the sums.
func finishCommands(all []command) error {
	if len(all) > maxCommands {
		return fmt.Errorf("%d commands, and the platform takes %d", len(all), maxCommands)
	}
	for i := range all {
		c := &all[i]
		if c.About == "" {
			var parts []string
			for _, o := range c.Options {
				parts = append(parts, o.Name)
			}
			c.About = about(strings.Join(parts, ", "))
		}
		if len(c.Options) > maxOptions {
			return fmt.Errorf("command %s: %d subcommands, and the platform takes %d", c.Name, len(c.Options), maxOptions)
		}
		if sum := length(c.Name) + length(c.About) + sumOf(c.Options); sum > maxSum {
			return fmt.Errorf("command %s: %d characters in all, and the platform takes %d", c.Name, sum, maxSum)
		}
	}
	return nil
}

func sumOf(options []commandOption) int {
	sum := 0
	for _, o := range options {
		sum += length(o.Name) + length(o.About) + sumOf(o.Options)
		for _, c := range o.Choices {
			sum += length(c.Name) + length(c.Value)
		}
	}
	return sum
}
