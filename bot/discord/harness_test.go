package discord_test

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"log/slog"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"go.uber.org/goleak"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

// TestMain also proves that nothing keeps running behind an adapter that ended. The
// tests mostly wait, for the library's one-second sleeps above all, so many run
// at once.
func TestMain(m *testing.M) {
	if err := flag.Set("test.parallel", "24"); err != nil {
		panic(err)
	}
	goleak.VerifyTestMain(m)
}

// brain stands for the bot: it keeps what it heard and answers as it is told.
type brain struct {
	mu     sync.Mutex
	heard  []chat.Event
	more   chan struct{} // closed and replaced with each event
	answer func(context.Context, chat.Event) (chat.Reply, error)
}

func (b *brain) Handle(ctx context.Context, e chat.Event) (chat.Reply, error) {
	b.mu.Lock()
	b.heard = append(b.heard, e)
	close(b.more)
	b.more = make(chan struct{})
	answer := b.answer
	b.mu.Unlock()
	if answer == nil {
		return chat.Reply{}, nil
	}
	return answer(ctx, e)
}

// await blocks until n events were heard, and returns all there are.
func (b *brain) await(t *testing.T, n int) []chat.Event {
	t.Helper()
	limit := time.NewTimer(patience)
	defer limit.Stop()
	for {
		b.mu.Lock()
		heard, more := append([]chat.Event(nil), b.heard...), b.more
		b.mu.Unlock()
		if len(heard) >= n {
			return heard
		}
		select {
		case <-more:
		case <-limit.C:
			t.Fatalf("%d of %d events were heard: %+v", len(heard), n, heard)
		}
	}
}

// patience bounds every wait of a test; nothing waits that long when all is well.
const patience = 20 * time.Second

// logs keeps what was logged, for proof that no secret is in it, and to wait for.
type logs struct {
	mu   sync.Mutex
	b    bytes.Buffer
	more chan struct{} // closed and replaced with each line
}

func (l *logs) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	close(l.more)
	l.more = make(chan struct{})
	return l.b.Write(p)
}

func (l *logs) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// next is closed with the next line.
func (l *logs) next() <-chan struct{} {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.more
}

// await blocks until a text is in the log.
func (l *logs) await(t *testing.T, text string) {
	t.Helper()
	limit := soon(t)
	for {
		l.mu.Lock()
		found, more := strings.Contains(l.b.String(), text), l.more
		l.mu.Unlock()
		if found {
			return
		}
		select {
		case <-more:
		case <-limit.Done():
			t.Fatalf("%q is not in the log:\n%s", text, l)
		}
	}
}

// play is an adapter on an emulated platform.
type play struct {
	t     *testing.T
	srv   *discordtest.Server
	bot   *brain
	log   *logs
	conf  discord.Config
	a     *discord.Adapter
	stop  context.CancelFunc
	ended chan error
	ahead atomic.Int64 // nanoseconds by which the machine's clock is ahead of the platform's
}

// setup is what a test may change before the adapter starts.
type setup struct {
	options discordtest.Options
	conf    discord.Config
}

// prepare makes an adapter that does not run yet.
func prepare(t *testing.T, change ...func(*setup)) *play {
	t.Helper()
	t.Parallel()
	// The platform's clock stands still, so no answer is late, however slow the
	// machine is; a test of what comes late sets its own waits.
	s := &setup{conf: discord.Config{
		Content: true,
		Timing:  discord.Timing{Backoff: 10 * time.Millisecond, Open: 5 * time.Second, Defer: patience, Answer: patience},
	}}
	for _, c := range change {
		c(s)
	}
	p := &play{t: t, log: &logs{more: make(chan struct{})}, bot: &brain{more: make(chan struct{})}, ended: make(chan error, 1)}
	p.srv = discordtest.New(t, s.options)
	p.conf = s.conf
	p.conf.API, p.conf.Token = p.srv.URL(), p.srv.Token()
	p.conf.Now = func() time.Time { return p.srv.Now().Add(time.Duration(p.ahead.Load())) }
	p.conf.Handler = p.bot
	p.conf.Log = slog.New(slog.NewTextHandler(p.log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	var err error
	if p.a, err = discord.New(p.conf); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		p.a.Close()
		for _, field := range p.srv.Unknown() {
			t.Errorf("a field that the platform does not know: %s", field)
		}
	})
	return p
}

// start runs the adapter and waits until it is connected.
func start(t *testing.T, change ...func(*setup)) *play {
	t.Helper()
	p := prepare(t, change...)
	p.run()
	p.ready(1)
	return p
}

// run starts the adapter; the test ends it, and then looks through the log.
func (p *play) run() {
	ctx, stop := context.WithCancel(context.Background())
	p.stop = stop
	go func() { p.ended <- p.a.Run(ctx) }()
	p.t.Cleanup(func() {
		stop()
		err := p.end()
		if err != nil && !p.t.Failed() {
			p.t.Logf("Run returned %v", err)
		}
		if p.t.Failed() {
			p.t.Log(p.log.String())
		}
		p.noSecrets()
	})
}

// end waits for Run to return; it may be called again.
func (p *play) end() error {
	p.t.Helper()
	limit := time.NewTimer(patience)
	defer limit.Stop()
	select {
	case err := <-p.ended:
		p.ended <- err
		return err
	case <-limit.C:
		p.t.Fatal("Run does not return")
		return nil
	}
}

func (p *play) noSecrets() {
	text := p.log.String()
	if strings.Contains(text, p.srv.Token()) {
		p.t.Errorf("the bot's token is in the log:\n%s", text)
	}
}

// ready waits until n sessions in all were begun or resumed and one is in use.
func (p *play) ready(n int) {
	p.t.Helper()
	p.until(func() bool {
		s := p.srv.Gateway().Stats()
		return s.Identifies+s.Resumed >= n && s.Ready == 1 && p.a.Connected()
	})
}

// errLogged wakes a wait that has another look because the adapter logged something.
var errLogged = errors.New("a line was logged")

// until waits for something on the platform or in the adapter: it looks again when
// anything happens on the platform, and with each line that the adapter logs, since
// the adapter learns of a thing after the platform.
func (p *play) until(ok func() bool) {
	p.t.Helper()
	limit := soon(p.t)
	for {
		more := p.log.next()
		ctx, cancel := context.WithCancelCause(limit)
		go func() {
			select {
			case <-more:
				cancel(errLogged)
			case <-ctx.Done():
			}
		}()
		err := p.srv.Until(ctx, ok)
		again := context.Cause(ctx) == errLogged
		cancel(nil)
		if err == nil {
			return
		}
		if !again {
			p.t.Fatalf("%v; gateway: %+v\n%s", err, p.srv.Gateway().Stats(), p.log)
		}
	}
}

// soon bounds one wait.
func soon(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	t.Cleanup(cancel)
	return ctx
}

// says makes the bot answer everything alike.
func (p *play) says(r chat.Reply) {
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) { return r, nil })
}

func (p *play) answers(f func(context.Context, chat.Event) (chat.Reply, error)) {
	p.bot.mu.Lock()
	defer p.bot.mu.Unlock()
	p.bot.answer = f
}

// quick makes a reply of one line.
func quick(text string, private bool) chat.Reply {
	return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: text, Private: private}}
}

// table is a small set of commands of every shape.
func table() []chat.Command {
	return []chat.Command{
		{Name: "block", About: "which block you are in", Params: []chat.Param{{Name: "aloud", About: "for all", Choices: []string{"yes", "no"}}}},
		{Name: "season", Sub: "show", About: "your whole plan"},
		{Name: "season", Sub: "build", About: "lay out blocks", Params: []chat.Param{
			{Name: "level", About: "how far you have come", Choices: []string{"novice", "elite"}},
			{Name: "lifter", About: "another lifter", Suggests: true},
			{Name: "date", About: "the day", Required: true},
		}},
		{Name: "club", Sub: "settings", About: "the club's settings", Captain: true, Params: []chat.Param{
			{Name: "log_channel", About: "where people log"}, {Name: "captain_role", About: "who is captain"},
		}},
	}
}

// withTable registers the table and waits for it.
func withTable(s *setup) { s.conf.Commands = table() }

func (p *play) registered() {
	p.t.Helper()
	p.until(func() bool { return len(p.srv.Commands()) == 3 })
}
