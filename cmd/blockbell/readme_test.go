package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blockbell/bot"
)

const (
	readmePath    = "../../README.md"
	commandsBegin = "<!-- commands: begin (made from the command table; a test keeps it true) -->\n"
	commandsEnd   = "<!-- commands: end -->"
)

// TestReadmeListsTheCommands keeps the README's table of commands equal to the
// one that answers; -update writes it.
func TestReadmeListsTheCommands(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, found := strings.Cut(string(raw), commandsBegin)
	_, after, closed := strings.Cut(rest, commandsEnd)
	if !found || !closed {
		t.Fatal("the README has no place for the commands")
	}
	want := before + commandsBegin + commandTable() + commandsEnd + after
	if want == string(raw) {
		return
	}
	if !*update {
		t.Fatal("the README's commands differ from the table; run go test ./cmd/blockbell -run Readme -update")
	}
	if err := os.WriteFile(readmePath, []byte(want), 0o644); err != nil {
		t.Fatal(err)
	}
}

func commandTable() string {
	var b strings.Builder
	b.WriteString("| command | who | does |\n|---|---|---|\n")
	for _, c := range bot.Commands() {
		who := "lifter"
		if c.Who == bot.CaptainOnly {
			who = "captain"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", c.Path(), who, c.About)
	}
	return b.String()
}

// TestReadmeConversationIsUnderstood plays the conversation that the README
// shows, so that nobody is taught words that do not work.
func TestReadmeConversationIsUnderstood(t *testing.T) {
	raw, err := os.ReadFile(readmePath)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(raw), "```\n@ana")
	talk, _, closed := strings.Cut(rest, "```")
	if !found || !closed {
		t.Fatal("the README shows no conversation")
	}
	script := filepath.Join(t.TempDir(), "readme.txt")
	if err := os.WriteFile(script, []byte("clock 2027-01-04T08:00:00Z\n@ana"+talk), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	p := program{}
	if status := p.Run(t.Context(), []string{"rehearse", "--json", script}, strings.NewReader(""), &out, &errs); status != statusOK {
		t.Fatalf("status %d: %s%s", status, out.String(), errs.String())
	}
	if strings.Contains(out.String(), `"kind":"error"`) {
		t.Errorf("an answer is an error:\n%s", out.String())
	}
}
