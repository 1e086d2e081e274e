package discord

import (
	"context"
	"crypto/x509"
	"encoding/json"
	"errors"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
)

// closing is how long the library takes to let go of a connection (it sleeps one
// second), with room to spare.
const closing = 5 * time.Second

// longestPause bounds the wait between two connections.
const longestPause = time.Minute

// gateway keeps the bot connected.
type gateway struct {
	token   string
	intents discordgo.Intent
	http    *http.Client // for the address of the gateway
	roots   *x509.CertPool
	signIns SignIns
	now     func() time.Time
	timing  Timing
	log     *slog.Logger
	event   func(kind string, data json.RawMessage) // called in order; must not block

	gone chan struct{}   // a library session has let go of its connection
	life context.Context // that of run, for what the library does without one

	mu        sync.Mutex
	session   *discordgo.Session // nil: the next connection signs in
	link      *link
	ready     bool   // the current link is in use
	resumable bool   // the library resumes the session rather than sign in
	resume    string // address at which to resume; empty: the usual one
	clear     bool   // the next dial fails, so that the library asks for the address
}

func newGateway(c Config, intents discordgo.Intent, client *http.Client, event func(string, json.RawMessage)) *gateway {
	return &gateway{
		token: c.Token, intents: intents, http: client, roots: c.roots, signIns: c.SignIns, now: c.Now,
		timing: c.Timing, log: c.Log, event: event, gone: make(chan struct{}, 1),
	}
}

// run connects again and again until the context ends, which is no error, or
// until connecting is useless.
func (g *gateway) run(ctx context.Context) error {
	g.life = ctx
	pause := g.timing.Backoff
	for ctx.Err() == nil {
		v := g.connect(ctx)
		if ctx.Err() != nil {
			break
		}
		if err := v.fatal(); err != nil {
			return err
		}
		if g.wasReady() {
			pause = g.timing.Backoff
		}
		wait := jitter(pause)
		if v.fresh() { // the platform asks for one to five seconds before signing in anew
			g.forget()
			wait = g.timing.Backoff + jitter(4*g.timing.Backoff)
		}
		g.log.Warn("gateway connection ended", "why", v, "again in", wait)
		sleep(ctx, wait)
		pause = min(2*pause, longestPause)
	}
	return nil
}

// jitter is anything from nothing to all of d, so that bots which lost one
// gateway together do not come back together.
func jitter(d time.Duration) time.Duration { return time.Duration(rand.Int64N(int64(d) + 1)) }

// sleep waits, but not longer than the context lasts.
func sleep(ctx context.Context, d time.Duration) {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
	case <-ctx.Done():
	}
}

// connect opens one connection, keeps it until it ends, and says why it did.
func (g *gateway) connect(ctx context.Context) *verdict {
	session := g.prepare()
	err := g.open(ctx, session)
	l := g.current()
	if err != nil {
		g.dropAddress()
		if l != nil {
			_ = l.Close()
			if l.verdict.ending != endLeft {
				return l.verdict
			}
		}
		return &verdict{ending: endDropped, cause: bare(err)}
	}
	select {
	case <-l.ended:
	case <-ctx.Done():
		l.leave()
	}
	g.awaitLetGo()
	return l.verdict
}

// prepare returns the session to connect with: the former one where it can be
// resumed, since only that one knows how.
func (g *gateway) prepare() *discordgo.Session {
	g.mu.Lock()
	session, renew := g.session, g.session != nil && g.resumable && g.resume != ""
	if session == nil {
		session = g.newSession()
		g.session = session
	}
	g.mu.Unlock()
	if renew {
		g.renewAddress(session)
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	g.link, g.ready = nil, false
	select {
	case <-g.gone: // a late word about an earlier connection
	default:
	}
	return session
}

// open lets the library connect, for as long as that may take. A library that
// does not come back at all is left behind together with its session.
func (g *gateway) open(ctx context.Context, session *discordgo.Session) error {
	done := make(chan error, 1)
	go func() { done <- session.Open() }()
	limit := time.NewTimer(g.timing.Open)
	defer limit.Stop()
	over := ctx.Done()
	for {
		select {
		case err := <-done:
			return err
		case <-over:
			if l := g.current(); l != nil {
				l.leave()
			}
			over = nil
			limit.Reset(closing)
		case <-limit.C:
			if l := g.current(); l != nil && !l.over() {
				l.end(&verdict{ending: endSilent})
				limit.Reset(closing)
				continue
			}
			g.log.Error("the library did not come back from connecting; its session is given up")
			g.forget()
			return errors.New("connecting took too long")
		}
	}
}

// awaitLetGo waits until the library has let go of an ended connection.
func (g *gateway) awaitLetGo() {
	t := time.NewTimer(closing)
	defer t.Stop()
	select {
	case <-g.gone:
	case <-t.C:
		g.log.Error("the library did not let go of a connection; its session is given up")
		g.forget()
	}
}

// forget gives the session up: the next connection signs in.
func (g *gateway) forget() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.session, g.resumable, g.resume = nil, false, ""
}

// current is the link of the connection that is being opened or in use.
func (g *gateway) current() *link {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.link
}

func (g *gateway) wasReady() bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.ready
}

// connected tells whether events can come in now.
func (g *gateway) connected() bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.ready && g.link != nil && !g.link.over()
}
