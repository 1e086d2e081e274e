package discordtest

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// The second client is a bot made with a library in another language, which
// knows nothing of this emulator and of the library that the product uses. What
// both understand alike is not a habit of one of them.

// clientDir holds the second client.
var clientDir = filepath.Join("testdata", "client")

// told is one thing that the second client says it heard or did.
type told map[string]any

// secondClient is the running bot.
type secondClient struct {
	t     *testing.T
	srv   *Server
	tells chan told
}

// needSecondClient skips the test where the bot cannot run, and returns node.
func needSecondClient(t *testing.T) string {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("SKIPPED: no second client library was tried, since node is not installed")
	}
	_, err = os.Stat(filepath.Join(clientDir, "node_modules", "discord.js"))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skipf("SKIPPED: no second client library was tried; npm ci in %s installs it", clientDir)
	}
	// Go's test cache knows only of files that this process looked at.
	sources, _ := filepath.Glob(filepath.Join(clientDir, "*.mjs"))
	for _, name := range sources {
		if _, err := os.Stat(name); err != nil {
			t.Fatal(err)
		}
	}
	return node
}

// startSecondClient runs the bot until the test ends, and waits until it has
// registered its commands.
func startSecondClient(t *testing.T, srv *Server, env ...string) *secondClient {
	t.Helper()
	// The test's own context ends before the clean-up, which is too early.
	ctx, kill := context.WithTimeout(context.Background(), time.Minute)
	cmd := exec.CommandContext(ctx, needSecondClient(t), "bot.mjs")
	cmd.Dir = clientDir
	cmd.Env = append(append(os.Environ(), "EMULATOR_URL="+srv.URL(), "EMULATOR_TOKEN="+srv.Token()), env...)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	in, _ := cmd.StdinPipe() // fails only when set before
	out, _ := cmd.StdoutPipe()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	c := &secondClient{t: t, srv: srv, tells: make(chan told, 1000)}
	var reading sync.WaitGroup
	reading.Go(func() { c.listen(out) })
	t.Cleanup(func() {
		defer kill()
		in.Close()
		reading.Wait()
		if err := cmd.Wait(); err != nil || complaints.Len() > 0 {
			t.Errorf("the second client ended with %v: %s", err, complaints.String())
		}
	})
	c.ready()
	return c
}

// listen reads what the bot tells until it ends.
func (c *secondClient) listen(out io.Reader) {
	defer close(c.tells)
	for lines := bufio.NewScanner(out); lines.Scan(); {
		var x told
		if err := json.Unmarshal(lines.Bytes(), &x); err != nil {
			c.t.Errorf("the second client wrote %q", lines.Text())
			continue
		}
		c.tells <- x
	}
}

// ready waits for the first session and holds it against the emulator's world.
func (c *secondClient) ready() {
	c.t.Helper()
	c.await(c.t, told{"event": "ready", "user": c.srv.BotID(),
		"registered": []any{"week", "bar"}, "channels": []any{"announcements", "training-log"}})
}

// next waits for the next thing of that kind; others before it are dropped, but
// for faults, which fail the test.
func (c *secondClient) next(t *testing.T, event string) told {
	t.Helper()
	limit := soon(t)
	for {
		select {
		case x, ok := <-c.tells:
			switch {
			case !ok:
				t.Fatalf("the second client ended before it told %q", event)
			case x["event"] == event:
				return x
			case x["event"] == "failed":
				t.Fatalf("the second client failed: %v", x)
			}
		case <-limit.Done():
			t.Fatalf("the second client does not tell %q", event)
		}
	}
}

// await waits for the next thing of want's kind and compares it.
func (c *secondClient) await(t *testing.T, want told) {
	t.Helper()
	if diff := cmp.Diff(want, c.next(t, want["event"].(string))); diff != "" {
		t.Errorf("(-want +told)\n%s", diff)
	}
}

// says has a person say a word, and returns what the bot did.
func (c *secondClient) says(t *testing.T, u *User, channel, word string) told {
	t.Helper()
	if _, err := u.Say(channel, word); err != nil {
		t.Fatal(err)
	}
	done := c.next(t, "done")
	if done["word"] != word {
		t.Fatalf("%v was done at %q", done, word)
	}
	return done
}

// seen is what the person sees under that id.
func seen(t *testing.T, u *User, channel string, id any) Message {
	t.Helper()
	list := u.Sees(channel)
	i := slices.IndexFunc(list, func(m Message) bool { return m.ID == id })
	if i < 0 {
		t.Fatalf("%s sees no message %v in %q but %v", u.Name, id, channel, list)
	}
	return list[i]
}

func TestSecondClient(t *testing.T) {
	needSecondClient(t)
	srv := New(t, Options{})
	c := startSecondClient(t, srv)
	t.Run("answers", c.answers)
	t.Run("fills in a form", c.form)
	t.Run("is too late", c.late)
	t.Run("posts", c.posts)
	t.Run("hears", c.hears)
	t.Run("survives refusals", c.refusals)
	t.Run("resumes", c.resumes)
	t.Run("is thrown out", c.thrownOut)
	t.Logf("fields that the platform would ignore: %q", srv.Unknown())
}

// TestSecondClientPacked has the packets compressed one by one, a heartbeat that
// falls silent, and rate limits of real time.
func TestSecondClientPacked(t *testing.T) {
	needSecondClient(t)
	srv := New(t, Options{Now: time.Now, Heartbeat: 100 * time.Millisecond})
	srv.LimitRoute("POST", "/channels/{channel_id}/messages", Limit{Calls: 2, Per: 200 * time.Millisecond})
	c := startSecondClient(t, srv, "EMULATOR_PACKED=yes")
	t.Run("keeps to rate limits", c.limits)
	t.Run("leaves a silent connection", c.silence)
}
