package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// testProgram is the program at a fixed wall time.
func testProgram() program {
	return program{now: func() time.Time { return time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC) }}
}

// run starts the program with a text on standard input.
func run(t *testing.T, input string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	status = testProgram().Run(t.Context(), args, strings.NewReader(input), &out, &errs)
	return status, out.String(), errs.String()
}

// happened is one line of --json output.
type happened struct {
	At, Kind, To, Title, Text string
	Private                   bool
	Files, Buttons, Nudge     []string
	Data                      json.RawMessage
	Line                      int
}

func readOutput(t *testing.T, text string) []happened {
	t.Helper()
	var all []happened
	for line := range strings.Lines(text) {
		var h happened
		if err := json.Unmarshal([]byte(line), &h); err != nil {
			t.Fatalf("not an object: %s: %v", line, err)
		}
		all = append(all, h)
	}
	return all
}

func TestHelpAndUsage(t *testing.T) {
	cases := []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"--help"}, statusOK, "rehearse"},
		{[]string{"rehearse", "--help"}, statusOK, "press @ana"},
		{[]string{"version"}, statusOK, "blockbell"},
		{[]string{"rehears"}, statusUsage, `did you mean "rehearse"`},
		{[]string{"rehearse", "--cap"}, statusUsage, "--captain"},
		{[]string{}, statusUsage, "hint:"},
		{[]string{"export"}, statusUsage, "--json"},
		{[]string{"rehearse", filepath.Join(t.TempDir(), "none.txt")}, statusFailed, "cannot be read"},
		{[]string{"export", "--json", "--db", filepath.Join(t.TempDir(), "none.db")}, statusFailed, "none.db"},
	}
	for _, c := range cases {
		status, out, errs := run(t, "", c.args...)
		if status != c.status || !strings.Contains(out+errs, c.says) {
			t.Errorf("%q: status %d, want %d, and %q in\n%s%s", c.args, status, c.status, c.says, out, errs)
		}
	}
}

func TestStatusTellsOfBadLinesOnlyForAFile(t *testing.T) {
	db := filepath.Join(t.TempDir(), "club.db")
	script := filepath.Join(t.TempDir(), "bad.txt")
	text := "clock 2027-01-04T08:00:00Z\nnonsense\n@ana /help\n"
	if err := os.WriteFile(script, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	status, out, errs := run(t, "", "rehearse", "--json", script)
	all := readOutput(t, out)
	if status != statusFailed || len(all) < 2 || all[0].Line != 2 || all[len(all)-1].Kind != "reply" || errs != "" {
		t.Errorf("a file: status %d, stderr %q\n%s", status, errs, out)
	}
	if status, out, _ := run(t, text, "rehearse", "--json", "--db", db, "-"); status != statusOK || len(readOutput(t, out)) != len(all) {
		t.Errorf("standard input: status %d\n%s", status, out)
	}
}

func TestWordUnknownToTheBotFailsTheScript(t *testing.T) {
	script := filepath.Join(t.TempDir(), "typo.txt")
	for text, want := range map[string]int{
		"@ana /seeson\n":              statusFailed,
		"@ana /me set bodyweight:9\n": statusOK, // understood, only not allowed
		"@ana nice weather\n":         statusOK,
	} {
		if err := os.WriteFile(script, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if status, out, errs := run(t, "", "rehearse", "--json", script); status != want {
			t.Errorf("%q: status %d, want %d\n%s%s", text, status, want, out, errs)
		}
	}
}

func TestDefaultDatabaseIsInTheStateFolder(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	if status, _, errs := run(t, "@ana /help\n", "rehearse"); status != statusOK {
		t.Fatalf("status %d: %s", status, errs)
	}
	if _, err := os.Stat(filepath.Join(state, "blockbell", "rehearse.db")); err != nil {
		t.Error(err)
	}
	if status, out, errs := run(t, "", "export", "--json"); status != statusOK || !json.Valid([]byte(out)) {
		t.Errorf("export: status %d, %s, %.200s", status, errs, out)
	}
	home := t.TempDir()
	t.Setenv("XDG_STATE_HOME", "not/absolute")
	t.Setenv("HOME", home)
	if status, _, errs := run(t, "# nothing\n", "rehearse", "-"); status != statusOK {
		t.Fatalf("status %d: %s", status, errs)
	}
	if _, err := os.Stat(filepath.Join(home, ".local", "state", "blockbell", "rehearse.db")); err != nil {
		t.Error(err)
	}
}

func TestScriptWithoutDatabaseLeavesNothing(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	t.Setenv("XDG_STATE_HOME", filepath.Join(temp, "state"))
	script := filepath.Join(t.TempDir(), "short.txt")
	if err := os.WriteFile(script, []byte("@ana /help\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if status, _, errs := run(t, "", "rehearse", script); status != statusOK {
		t.Fatalf("status %d: %s", status, errs)
	}
	left, err := os.ReadDir(temp)
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

func TestDatabaseInUseIsRefused(t *testing.T) {
	db := filepath.Join(t.TempDir(), "club.db")
	reader, writer := io.Pipe()
	out := &firstWrite{arrived: make(chan struct{})}
	done := make(chan int)
	go func() {
		done <- testProgram().Run(t.Context(), []string{"rehearse", "--json", "--db", db}, reader, out, io.Discard)
	}()
	io.WriteString(writer, "@ana /help\n")
	<-out.arrived // while the program still waits for input: nothing is held back
	if status, _, errs := run(t, "", "rehearse", "--db", db); status != statusFailed || !strings.Contains(errs, "club.db") {
		t.Errorf("a second one: status %d, %s", status, errs)
	}
	if status, export, errs := run(t, "", "export", "--json", "--db", db); status != statusOK || !json.Valid([]byte(export)) {
		t.Errorf("export beside it: status %d, %s", status, errs)
	}
	writer.Close()
	if status := <-done; status != statusOK {
		t.Errorf("the first one ended with %d", status)
	}
}

// firstWrite closes its channel when something arrives.
type firstWrite struct {
	once    sync.Once
	arrived chan struct{}
}

func (w *firstWrite) Write(p []byte) (int, error) {
	w.once.Do(func() { close(w.arrived) })
	return len(p), nil
}

func TestContextEndsAPlayBetweenLines(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	reader, writer := io.Pipe()
	defer writer.Close()
	out := &firstWrite{arrived: make(chan struct{})}
	done := make(chan int)
	go func() {
		args := []string{"rehearse", "--json", "--db", filepath.Join(t.TempDir(), "club.db")}
		done <- testProgram().Run(ctx, args, reader, out, io.Discard)
	}()
	io.WriteString(writer, "@ana /help\n")
	<-out.arrived
	stop()
	if status := <-done; status != statusOK {
		t.Errorf("status %d, want %d", status, statusOK)
	}
}

func TestScriptThatIsStoppedHasFailed(t *testing.T) {
	script := filepath.Join(t.TempDir(), "long.txt")
	if err := os.WriteFile(script, []byte("@ana /help\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	var out, errs bytes.Buffer
	status := testProgram().Run(ctx, []string{"rehearse", "--json", script}, nil, &out, &errs)
	if status != statusFailed || out.Len() > 0 || !strings.Contains(errs.String(), "ended early") {
		t.Errorf("status %d, printed %q, %q", status, &out, &errs)
	}
}
