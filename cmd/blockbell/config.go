package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/BurntSushi/toml"
	"github.com/alecthomas/kong"

	"blockbell/planner"
)

// fileSettings are the settings of a configuration file: the names of flags and
// their values. Flags come first, then the environment, then the file.
type fileSettings struct {
	values map[string]any
}

// readSettings reads a configuration file in TOML.
func readSettings(r io.Reader) (kong.Resolver, error) {
	s := &fileSettings{values: map[string]any{}}
	if _, err := toml.NewDecoder(r).Decode(&s.values); err != nil {
		return nil, fmt.Errorf("the configuration file: %w", err)
	}
	return s, nil
}

// Validate refuses names that are no flag: a mistyped one would be passed over in
// silence otherwise.
func (s *fileSettings) Validate(app *kong.Application) error {
	known := map[string]bool{}
	for _, command := range app.Children {
		for _, flag := range command.Flags {
			known[flag.Name] = true
		}
	}
	for name := range s.values {
		if !known[name] {
			return fmt.Errorf("the configuration file: %q is no setting", name)
		}
	}
	return nil
}

// Resolve gives a flag its value from the file, unless the environment has one:
// the library would let the file win.
func (s *fileSettings) Resolve(_ *kong.Context, _ *kong.Path, flag *kong.Flag) (any, error) {
	for _, name := range flag.Envs {
		if _, set := os.LookupEnv(name); set {
			return nil, nil
		}
	}
	return s.values[flag.Name], nil
}

// tokenVariable holds the bot's token. It is never a flag: the command lines of
// processes are public on a machine.
const tokenVariable = "BLOCKBELL_TOKEN"

// platformFlags are what every command takes that speaks to the platform.
type platformFlags struct {
	Config    kong.ConfigFlag `placeholder:"FILE" env:"BLOCKBELL_CONFIG" help:"Settings in TOML, named like the flags. Flags and variables come first."`
	DB        string          `name:"db" placeholder:"FILE" env:"BLOCKBELL_DB" default:"blockbell.db" help:"Database."`
	TokenFile string          `placeholder:"FILE" env:"BLOCKBELL_TOKEN_FILE" help:"File with the bot's token, where it is not in BLOCKBELL_TOKEN."`
	API       string          `name:"api" placeholder:"URL" env:"BLOCKBELL_API" help:"Another address than the platform's own: scheme://host[:port], https or loopback."`
	Guild     string          `placeholder:"NUMBER" env:"BLOCKBELL_GUILD" help:"The server the bot works for, where it is in several."`
}

// token finds the bot's token.
func (f platformFlags) token() (string, error) {
	if t := strings.TrimSpace(os.Getenv(tokenVariable)); t != "" {
		return t, nil
	}
	if f.TokenFile == "" {
		return "", planner.Errorf(planner.Invalid, "Copy it from the developer portal, page Bot, into "+tokenVariable+" or into a file named with --token-file.",
			"There is no bot token")
	}
	raw, err := os.ReadFile(f.TokenFile)
	if err != nil {
		return "", fmt.Errorf("the token cannot be read: %w", err)
	}
	if t := strings.TrimSpace(string(raw)); t != "" {
		return t, nil
	}
	return "", errors.New("the token file " + f.TokenFile + " is empty")
}
