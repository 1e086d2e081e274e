package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the scripts print into the files that hold what is wanted")

// scripts is the folder of conversations.
var scripts = filepath.Join(root, "testdata", "script")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"blockbell": main, laterProgram: mainLater})
}

// TestScripts plays each *.txtar: commands, their input and what they print.
func TestScripts(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scripts, "*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no scripts in %s: %v", scripts, err)
	}
	testscript.Run(t, testscript.Params{
		Files: files, UpdateScripts: *update, RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_STATE_HOME", e.Cd+"/state")
			return nil
		},
	})
}

// TestRehearsals plays each *.txt and compares what the bot does with the lines
// of the *.want beside it.
func TestRehearsals(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scripts, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no *.txt in %s: %v", scripts, err)
	}
	for _, script := range files {
		t.Run(filepath.Base(script), func(t *testing.T) {
			t.Parallel()
			status, out, errs := run(t, "", "rehearse", "--json", "--out", t.TempDir(), script)
			if status != statusOK {
				t.Errorf("status %d: %s", status, errs)
			}
			compareWant(t, strings.TrimSuffix(script, ".txt")+".want", out)
		})
	}
}

// compareWant compares lines with a file, or writes the file when told to.
func compareWant(t *testing.T, want, out string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(want, []byte(out), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	wanted, err := os.ReadFile(want)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(wanted), "\n"), strings.Split(out, "\n")); diff != "" {
		t.Errorf("(-want +got)\n%s\nIf the new lines are right: go test ./cmd/blockbell -run TestRehearsals -update", diff)
	}
}
