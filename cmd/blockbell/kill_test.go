package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// killedRuns is how often the walk is killed before it may end.
const killedRuns = 60

// start runs the real program in a process of its own: this test binary, which
// behaves as blockbell when it is called so.
func start(t *testing.T, db, input string) (*exec.Cmd, io.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := &exec.Cmd{Path: self, Args: []string{"blockbell", "rehearse", "--json", "--db", db}, Stdin: strings.NewReader(input), Stderr: os.Stderr}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, out
}

// exported is the part of an export that tells of posts.
type exported struct {
	Facts []struct{ Key, State, Reason string }
	Posts []struct{ Key, State string }
	Said  []struct {
		Key, At, Kind, Recipient string
		Body                     struct{ Nudge []string }
	} `json:"terminal_messages"`
}

func export(t *testing.T, db string) exported {
	t.Helper()
	status, out, errs := run(t, "", "export", "--json", "--db", db)
	if status != statusOK {
		t.Fatalf("export: status %d: %s", status, errs)
	}
	var e exported
	if err := json.Unmarshal([]byte(out), &e); err != nil {
		t.Fatal(err)
	}
	return e
}

// posted tells each stored post in one line, and fails if a ledger key was
// posted by two of them, or is said to be sent and was posted by none.
func posted(t *testing.T, e exported) []string {
	t.Helper()
	var all []string
	times := map[string]int{}
	for _, m := range e.Said {
		if m.Kind != "post" && m.Kind != "direct" {
			continue
		}
		all = append(all, fmt.Sprintf("%s %s %s %v", m.At, m.Kind, m.Recipient, m.Body.Nudge))
		for _, key := range m.Body.Nudge {
			times[key]++
		}
	}
	for _, f := range e.Facts {
		want := 0
		if f.State == "sent" {
			want = 1
		}
		if f.State == "planned" {
			t.Errorf("%s is still planned", f.Key)
		}
		if times[f.Key] != want {
			t.Errorf("%s (%s %s) was posted %d times, want %d", f.Key, f.State, f.Reason, times[f.Key], want)
		}
		delete(times, f.Key)
	}
	for key, n := range times {
		t.Errorf("%s was posted %d times and is not in the ledger", key, n)
	}
	slices.Sort(all)
	return all
}

// TestKilledWalkPostsEachKeyOnce kills the process with SIGKILL at many points
// of its walk: some after a random time, some at the very moment in which a post
// appears, when it is stored and printed but not yet confirmed.
func TestKilledWalkPostsEachKeyOnce(t *testing.T) {
	calm := playClub(t)
	walk(t, calm, clubEnd)
	want := posted(t, export(t, calm))

	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	db := playClub(t)
	span := clubEnd.Sub(clubStart) / killedRuns
	lines, doubtful := 0, 0
	for n := range killedRuns {
		target := clubStart.Add(span * time.Duration(n+1))
		cmd, out := start(t, db, clockTo(target))
		var timer *time.Timer
		if n%2 == 0 {
			wait := time.Duration(random.Int64N(int64(120 * time.Millisecond)))
			timer = time.AfterFunc(wait, func() { cmd.Process.Kill() })
		}
		read := bufio.NewScanner(out)
		for read.Scan() {
			lines++
			if n%2 == 1 {
				cmd.Process.Kill()
			}
		}
		if timer != nil {
			timer.Stop()
		}
		cmd.Wait() // killed or done, both are meant
		for _, p := range export(t, db).Posts {
			if p.State == "claimed" {
				doubtful++
			}
		}
	}
	t.Logf("%d runs, %d lines seen, %d posts left in doubt", killedRuns, lines, doubtful)
	walk(t, db, clubEnd)
	if diff := cmp.Diff(want, posted(t, export(t, db))); diff != "" {
		t.Errorf("(-never killed +killed)\n%s", diff)
	}
}
