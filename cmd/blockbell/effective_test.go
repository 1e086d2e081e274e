package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
)

// A check prints every setting of serve with where it comes from: a flag wins over a
// variable, a variable over the file, the file over the default. Not the token.
func TestCheckPrintsEffectiveSettings(t *testing.T) {
	s := newServing(t, discordtest.Options{})
	file := filepath.Join(t.TempDir(), "club.toml")
	writeFile(t, file, fmt.Sprintf("hour = %q\nzone = %q\nguild = %q\ndb = %q\n", "06:15", "Europe/Oslo", s.srv.Guild().ID, "elsewhere.db"))
	t.Setenv("BLOCKBELL_ZONE", "Europe/Lisbon")
	t.Setenv("BLOCKBELL_DB", "overruled.db")
	status, said := s.checked("--config", file)
	if status != statusOK {
		t.Errorf("status %d", status)
	}
	for _, want := range []string{
		"db +" + regexp.QuoteMeta(s.db) + ` \(flag\)`, `zone +Europe/Lisbon \(variable BLOCKBELL_ZONE\)`,
		`hour +06:15 \(file .*club\.toml\)`, `log-level +INFO \(default\)`, `listen +– \(default\)`,
		`guild +\d+ \(file .*club\.toml\)`, `token +not shown \(file ` + regexp.QuoteMeta(s.tokens) + `\)`,
	} {
		if !regexp.MustCompile(`(?m)^       ` + want + `$`).MatchString(said) {
			t.Errorf("%s is missing in\n%s", want, said)
		}
	}
	t.Setenv("BLOCKBELL_TOKEN", s.srv.Token())
	if _, said := s.checked(); !strings.Contains(said, "(variable BLOCKBELL_TOKEN)") {
		t.Error(said)
	}
}
