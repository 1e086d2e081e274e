package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/BurntSushi/toml"
	"github.com/alecthomas/kong"
)

// effective is one setting as serve takes it from the same surroundings.
type effective struct {
	name, value string
	from        string // "flag", "variable BLOCKBELL_…", "file …" or "default"
}

// effectiveSettings lists the settings of the command and, since check stands for
// it, those of serve, each with where its value comes from.
func effectiveSettings(ctx *kong.Context, file string) ([]effective, error) {
	values := map[string]any{}
	if file != "" {
		if _, err := toml.DecodeFile(kong.ExpandPath(file), &values); err != nil {
			return nil, fmt.Errorf("the configuration file: %w", err)
		}
	}
	given := map[string]bool{}
	for _, part := range ctx.Path {
		if part.Flag != nil && !part.Resolved {
			given[part.Flag.Name] = true
		}
	}
	var all []effective
	known := map[string]bool{"help": true}
	flags := ctx.Selected().Flags
	for _, command := range ctx.Model.Children {
		if command.Name == "serve" {
			flags = append(flags[:len(flags):len(flags)], command.Flags...)
		}
	}
	for _, flag := range flags {
		if known[flag.Name] {
			continue
		}
		known[flag.Name] = true
		e := effective{name: flag.Name, value: flag.Default, from: "default"}
		if v, there := values[flag.Name]; there {
			e.value, e.from = fmt.Sprint(v), "file "+file
		}
		for _, name := range flag.Envs {
			if v, set := os.LookupEnv(name); set {
				e.value, e.from = v, "variable "+name
			}
		}
		if given[flag.Name] {
			e.value, e.from = fmt.Sprint(flag.Target.Interface()), "flag"
		}
		all = append(all, e)
	}
	return all, nil
}

// tokenSetting says where the token comes from. The token itself is never shown.
func (f platformFlags) tokenSetting() effective {
	e := effective{name: "token", value: "not shown"}
	switch {
	case strings.TrimSpace(os.Getenv(tokenVariable)) != "":
		e.from = "variable " + tokenVariable
	case f.TokenFile != "":
		e.from = "file " + f.TokenFile
	default:
		e.value, e.from = "", "nowhere"
	}
	return e
}

func writeSettings(out io.Writer, all []effective) {
	for _, e := range all {
		if e.value == "" {
			e.value = "–"
		}
		fmt.Fprintf(out, "       %-10s %s (%s)\n", e.name, e.value, e.from)
	}
}
