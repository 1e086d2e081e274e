package discordtest

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// commandName is the platform's own expression; the classes of the two scripts
// that need combining marks are written out for Go's syntax.
var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// check holds a command against the rules. Source:
// interactions/application-commands.
func (c *Command) check() []string {
	var f faultsOf
	if c.Type != 1 {
		f.short("command name", c.Name, 1, 32)
		if c.Description != "" || len(c.Options) > 0 {
			f.add("command %q: only typed commands have a description and options", c.Name)
		}
		return f
	}
	checkName(&f, c.Name, c.Description)
	checkLocal(&f, c.NameLocal, c.DescriptionLocal)
	checkParams(&f, c.Options, 0)
	if n := c.size(); n > 8000 {
		f.add("command %q has %d characters in names, descriptions and values, at most 8000 are allowed", c.Name, n)
	}
	if c.Guild != "" && (c.Contexts != nil || c.Installs != nil) {
		f.add("command %q: contexts and integration_types are for global commands", c.Name)
	}
	return f
}

func checkName(f *faultsOf, name, description string) {
	if !commandName.MatchString(name) || strings.ToLower(name) != name {
		f.add("name %q: 1 to 32 letters, digits, - _ ' in lower case are allowed", name)
	}
	f.short("description of "+name, description, 1, 100)
}

func checkLocal(f *faultsOf, names, descriptions map[string]string) {
	for locale, name := range names {
		if !locales[locale] {
			f.add("locale %q does not exist", locale)
		}
		if !commandName.MatchString(name) || strings.ToLower(name) != name {
			f.add("name %q (%s): 1 to 32 letters, digits, - _ ' in lower case are allowed", name, locale)
		}
	}
	for locale, text := range descriptions {
		if !locales[locale] {
			f.add("locale %q does not exist", locale)
		}
		f.short("description in "+locale, text, 1, 100)
	}
}

// checkParams checks one level of options; depth 0 is that of the command.
func checkParams(f *faultsOf, params []CommandParam, depth int) {
	if len(params) > 25 {
		f.add("%d options on one level, at most 25 are allowed", len(params))
	}
	seen, optional, subs := map[string]bool{}, false, 0
	for _, p := range params {
		checkName(f, p.Name, p.Description)
		checkLocal(f, p.NameLocal, p.DescriptionLocal)
		if seen[p.Name] {
			f.add("option %q comes twice", p.Name)
		}
		seen[p.Name] = true
		switch {
		case p.Type == SubGroup && depth > 0, p.Type == SubCommand && depth > 1:
			f.add("option %q: commands nest one group deep", p.Name)
		case p.Type == SubGroup:
			subs++
			checkParams(f, p.Options, 1)
		case p.Type == SubCommand:
			subs++
			checkParams(f, p.Options, 2)
		default:
			checkParam(f, p)
			if p.Required && optional {
				f.add("option %q is required and stands behind an optional one", p.Name)
			}
			optional = optional || !p.Required
		}
	}
	if subs > 0 && subs < len(params) {
		f.add("subcommands and plain options cannot stand side by side")
	}
}

func checkParam(f *faultsOf, p CommandParam) {
	if p.Type < StringOption || p.Type > FileOption {
		f.add("option %q: type %d does not exist", p.Name, p.Type)
	}
	if len(p.Choices) > 25 {
		f.add("option %q has %d choices, at most 25 are allowed", p.Name, len(p.Choices))
	}
	if p.Autocomplete && len(p.Choices) > 0 {
		f.add("option %q: autocomplete and choices exclude each other", p.Name)
	}
	plain := p.Type == StringOption || p.Type == IntegerOption || p.Type == NumberOption
	if !plain && (p.Autocomplete || len(p.Choices) > 0) {
		f.add("option %q: only texts and numbers have choices or autocomplete", p.Name)
	}
	for _, c := range p.Choices {
		f.short("choice name", c.Name, 1, 100)
		f.long("choice value", fmt.Sprint(c.Value), 100)
	}
	if p.MinLength != nil && (*p.MinLength < 0 || *p.MinLength > 6000) || p.MaxLength != nil && (*p.MaxLength < 1 || *p.MaxLength > 6000) {
		f.add("option %q: min_length is 0 to 6000, max_length 1 to 6000", p.Name)
	}
}

// size adds up names, descriptions and values over the whole command; of a text
// with translations the longest counts.
func (c *Command) size() int {
	return longest(c.Name, c.NameLocal) + longest(c.Description, c.DescriptionLocal) + sizeOf(c.Options)
}

func sizeOf(params []CommandParam) int {
	n := 0
	for _, p := range params {
		n += longest(p.Name, p.NameLocal) + longest(p.Description, p.DescriptionLocal) + sizeOf(p.Options)
		for _, c := range p.Choices {
			n += utf8.RuneCountInString(c.Name) + utf8.RuneCountInString(fmt.Sprint(c.Value))
		}
	}
	return n
}

func longest(text string, local map[string]string) int {
	n := utf8.RuneCountInString(text)
	for _, l := range local {
		n = max(n, utf8.RuneCountInString(l))
	}
	return n
}

// locales are those of the API reference, section "Locales".
var locales = func() map[string]bool {
	all := map[string]bool{}
	for _, l := range strings.Fields("id da de en-GB en-US es-ES es-419 fr hr it lt hu nl no pl pt-BR ro fi sv-SE vi tr cs el bg ru uk hi th zh-CN ja zh-TW ko") {
		all[l] = true
	}
	return all
}()
