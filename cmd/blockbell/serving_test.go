package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"blockbell/bot"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
	"blockbell/bot/schedule"
)

// longest bounds every wait of a test; nothing waits that long when all is well.
const longest = 40 * time.Second

// soon bounds one wait.
func soon(t *testing.T) context.Context {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), longest)
	t.Cleanup(cancel)
	return ctx
}

// written keeps what a program wrote, and lets a test wait for a text in it.
type written struct {
	mu   sync.Mutex
	text bytes.Buffer
	more chan struct{} // closed and replaced with each write
}

func newWritten() *written { return &written{more: make(chan struct{})} }

// Write takes what is written.
func (w *written) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	close(w.more)
	w.more = make(chan struct{})
	return w.text.Write(p)
}

// String is all that was written.
func (w *written) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}

// await blocks until a text was written n times.
func (w *written) await(t *testing.T, n int, text string) {
	t.Helper()
	limit := soon(t)
	for {
		w.mu.Lock()
		found, more := strings.Count(w.text.String(), text), w.more
		w.mu.Unlock()
		if found >= n {
			return
		}
		select {
		case <-more:
		case <-limit.Done():
			t.Fatalf("%q was written %d times, want %d:\n%s", text, found, n, w)
		}
	}
}

// hand stands where the minutes tick: the test calls the tasks itself.
type hand struct {
	set chan struct{} // closed when the program has set its tasks
	schedule.Config
}

// Close ends the ticking that never was.
func (h *hand) Close() error { return nil }

// patient are the waits of a program whose platform has a clock that stands still:
// no answer is late there, however slow the machine is.
var patient = discord.Timing{Defer: longest, Answer: longest, Backoff: 10 * time.Millisecond}

// serving is blockbell serve within this process, on the emulated platform and its
// clock.
type serving struct {
	t        *testing.T
	srv      *discordtest.Server
	db       string
	tokens   string // the token file
	out, err *written
	hand     *hand
	stop     context.CancelFunc
	status   chan int
}

// newServing makes a platform and a database, and starts nothing.
func newServing(t *testing.T, o discordtest.Options) *serving {
	t.Helper()
	s := &serving{t: t, srv: discordtest.New(t, o), db: filepath.Join(t.TempDir(), "club.db")}
	s.tokens = filepath.Join(t.TempDir(), "token")
	if err := os.WriteFile(s.tokens, []byte(s.srv.Token()+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for _, field := range s.srv.Unknown() {
			t.Errorf("a field that the platform does not know: %s", field)
		}
	})
	return s
}

// args are the command line that reaches the emulator.
func (s *serving) args(command string, more ...string) []string {
	return append([]string{command, "--db", s.db, "--api", s.srv.URL(), "--token-file", s.tokens}, more...)
}

// begin starts serve; it may be called again once it ended.
func (s *serving) begin(more ...string) {
	s.t.Helper()
	s.beginWith(s.args("serve", more...)...)
}

// beginWith starts serve with a whole command line.
func (s *serving) beginWith(args ...string) {
	s.t.Helper()
	s.out, s.err, s.status = newWritten(), newWritten(), make(chan int, 1)
	s.hand = &hand{set: make(chan struct{})}
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	h, out, errs, status := s.hand, s.out, s.err, s.status
	p := program{now: s.srv.Now, waits: patient, ticks: func(c schedule.Config) (io.Closer, error) {
		h.Config = c
		close(h.set)
		return h, nil
	}}
	go func() { status <- p.Run(ctx, args, strings.NewReader(""), out, errs) }()
	s.t.Cleanup(func() {
		stop()
		select {
		case <-status:
		case <-soon(s.t).Done():
			s.t.Error("serve does not end")
		}
		s.noSecrets(out.String() + errs.String())
		if s.t.Failed() {
			s.t.Logf("stderr of serve:\n%s", errs)
		}
	})
}

// end stops serve and returns its status.
func (s *serving) end() int {
	s.t.Helper()
	s.stop()
	return s.ended()
}

// ended waits until serve ended and returns its status.
func (s *serving) ended() int {
	s.t.Helper()
	select {
	case status := <-s.status:
		s.status <- status
		return status
	case <-soon(s.t).Done():
		s.t.Fatalf("serve does not end:\n%s", s.err)
		return -1
	}
}

func (s *serving) noSecrets(text string) {
	if strings.Contains(text, s.srv.Token()) {
		s.t.Errorf("the token was written:\n%s", text)
	}
}

// ready starts serve and waits until it can be talked to.
func (s *serving) ready(more ...string) {
	s.t.Helper()
	s.begin(more...)
	s.err.await(s.t, 1, "gateway connected")
	s.err.await(s.t, 1, "commands are registered")
	<-s.hand.set
	if n := len(s.srv.Commands()); n != commandNames() {
		s.t.Fatalf("%d commands are registered, want %d", n, commandNames())
	}
}

// commandNames counts the commands without their subcommands.
func commandNames() int {
	names := map[string]bool{}
	for _, c := range bot.Commands() {
		names[c.Name] = true
	}
	return len(names)
}

// minute lets the work of one minute be done, at the platform's moment.
func (s *serving) minute() {
	s.t.Helper()
	if err := s.hand.Minute(soon(s.t), s.srv.Now()); err != nil && !errors.Is(err, context.Canceled) {
		s.t.Fatalf("the minute failed: %v", err)
	}
}

// until waits for something on the platform.
func (s *serving) until(ok func() bool) {
	s.t.Helper()
	if err := s.srv.Until(soon(s.t), ok); err != nil {
		s.t.Fatalf("%v\n%s", err, s.err)
	}
}
