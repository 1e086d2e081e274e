package discord

import (
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sync"

	"github.com/bwmarrin/discordgo"

	"blockbell/bot/chat"
)

// Adapter is the bot's place on the platform. Post, Find and Check work without
// Run. It is safe for concurrent use; Run is to be called once.
type Adapter struct {
	Config
	rest    *rest
	skew    *skew
	gateway *gateway
	crew    *crew
	answers *answering // to messages, apart from the crew
	known   *directory
	recent  *recent       // interactions seen, to pass over second deliveries early
	authors *authors      // of recent messages, since a removal does not name its author
	held    *held         // private answers waiting for "Show me"
	fetcher *http.Client  // of files that people send; it never carries the token
	typing  chan struct{} // holds one for each set of suggestions under way

	mu    sync.Mutex
	me    string          // the bot user's number; empty until it is known
	app   string          // the application's number
	home  string          // the server's number
	told  map[string]bool // channels, and for what, of which was said that a right is missing
	fatal error           // why Run must end
	stop  context.CancelFunc
	work  context.Context // that of everything done for events; nil outside Run
	side  sync.WaitGroup  // what runs beside the crew: deferrals, suggestions, registering
}

var _ chat.Poster = (*Adapter)(nil)

// New makes an adapter. It connects to nothing yet. The error says in words what
// is wrong with the configuration.
func New(c Config) (*Adapter, error) {
	c, err := c.check()
	if err != nil {
		return nil, err
	}
	c.Log = slog.New(quietHandler{c.Log.Handler(), redactor{c.Token}})
	wire, err := newTransport(c.API, c.roots)
	if err != nil {
		return nil, err
	}
	client := &http.Client{Transport: wire, CheckRedirect: noRedirect}
	a := &Adapter{
		Config: c, skew: &skew{now: c.Now}, crew: newCrew(c.Timing.Workers),
		answers: newAnswering(c.Timing.Workers), known: newDirectory(),
		recent: newRecent(), authors: newAuthors(), held: newHeld(), home: c.Guild, told: map[string]bool{},
		typing: make(chan struct{}, typingMost),
	}
	a.fetcher = &http.Client{Transport: wire.next, CheckRedirect: noRedirect}
	a.rest = &rest{token: c.Token, http: client, gates: newGates().by(c.Timing), skew: a.skew, redact: redactor{c.Token}, rejected: a.tokenRejected}
	a.gateway = newGateway(c, intents(c), client, a.received)
	return a, nil
}

// intents are what the bot asks to hear of: the server's channels and roles, and
// messages. Interactions need none.
func intents(c Config) discordgo.Intent {
	all := discordgo.IntentGuilds | discordgo.IntentGuildMessages | discordgo.IntentDirectMessages
	if c.Content {
		all |= discordgo.IntentMessageContent
	}
	return all
}

// Run connects and answers events until ctx ends, which is no error, or until
// going on is useless: then the error is a *FatalError that says what to do. When
// it ends, it takes in nothing new, finishes what is under way within
// Timing.Drain, and lets go of every connection.
func (a *Adapter) Run(ctx context.Context) error {
	if a.Handler == nil {
		return errors.New("no handler was given")
	}
	listening, stop := context.WithCancel(ctx)
	defer stop()
	work, abandon := context.WithCancel(context.WithoutCancel(ctx))
	defer abandon()
	a.mu.Lock()
	a.stop, a.work = stop, work
	a.mu.Unlock()

	err := a.gateway.run(listening)
	a.drain(abandon)
	a.Close()
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.fatal != nil {
		return a.fatal
	}
	return err
}

// drain waits for what is under way, then gives it up.
func (a *Adapter) drain(abandon context.CancelFunc) {
	ctx, cancel := context.WithTimeout(context.Background(), a.Timing.Drain)
	defer cancel()
	if a.crew.wait(ctx) != nil {
		a.Log.Warn("events were still being worked at when the time to stop ran out")
	}
	before := a.answers.lost.Load()
	unsent := a.answers.crew.wait(ctx) != nil // the crew adds to them, so they come second
	abandon()
	last, cancel := context.WithTimeout(context.Background(), a.Timing.Drain/4)
	defer cancel()
	if a.crew.wait(last) != nil || a.answers.crew.wait(last) != nil {
		a.Log.Error("an event does not end although its time is over")
		return
	}
	if unsent {
		a.Log.Warn("answers to messages were given up when the time to stop ran out", "answers", a.answers.lost.Load()-before)
	}
	a.side.Wait()
}

// Close lets go of idle connections. Run does so by itself.
func (a *Adapter) Close() { a.rest.http.CloseIdleConnections() }

// Connected tells whether events can come in now.
func (a *Adapter) Connected() bool { return a.gateway.connected() }

// fail ends Run with an error.
func (a *Adapter) fail(err error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.fatal == nil {
		a.fatal = err
	}
	if a.stop != nil {
		a.stop()
	}
}

// tokenRejected hears that the platform no longer takes the token. To go on would
// only add to the refusals for which it bans addresses.
func (a *Adapter) tokenRejected(err error) {
	a.Log.Error("the bot's token was refused", "error", err)
	a.fail(&FatalError{Code: http.StatusUnauthorized, Text: fatalCodes[4004] + " (HTTP 401)."})
}

// received takes an event from the gateway, in order. It must not wait: the
// gateway's own signs of life come the same way.
func (a *Adapter) received(kind string, data json.RawMessage) {
	defer a.guard(kind, nil)
	switch kind {
	case "READY":
		a.ready(data)
	case "INTERACTION_CREATE":
		a.interactionCame(data)
	case "MESSAGE_CREATE", "MESSAGE_UPDATE":
		a.messageCame(kind, data)
	case "MESSAGE_DELETE", "MESSAGE_DELETE_BULK":
		a.messageGone(data)
	case "GUILD_CREATE", "GUILD_UPDATE", "GUILD_DELETE":
		a.serverCame(kind, data)
	default:
		a.placeCame(kind, data)
	}
}

// guard is deferred around everything that is done for an event: a panic must not
// end the program. then is called after one; nil: nothing is.
func (a *Adapter) guard(event string, then func()) {
	p := recover()
	if p == nil {
		return
	}
	a.Log.Error("panic while working at an event", "event", event, "panic", p, "stack", string(debug.Stack()))
	if then != nil {
		then()
	}
}

// background is the context of work for events.
func (a *Adapter) background() context.Context {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.work
}
