package discord

import (
	"context"
	"crypto/x509"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/url"
	"strings"
	"time"

	"blockbell/bot/chat"
)

// DefaultAPI is the platform itself.
const DefaultAPI = "https://discord.com"

// Config is what an Adapter needs. Token and Now must be set, and for Run also
// Handler.
type Config struct {
	Token string // the bot's token, without "Bot " before it
	// API is scheme://host[:port]; /api/v10 is appended. Empty is DefaultAPI. The
	// token goes there, so it must be https or a loopback address.
	API string
	// Guild is the number of the server the bot works for. Empty is the only one
	// it is in; a bot in several must be told.
	Guild string
	// Content says that the message-content intent is on in the developer portal.
	// Without it the bot reads only direct messages and those that mention it.
	Content   bool
	Commands  []chat.Command
	Handler   chat.Handler
	Suggester chat.Suggester // nil: nothing is suggested but fixed choices

	// CaptainRole names the role that makes a captain: its name, number or
	// mention; nil or an empty answer: only who may manage the server is one.
	CaptainRole func(context.Context) (string, error)
	// AuthorOf names the author of a message written before this process began;
	// nil: a message deleted then is not noticed. The platform does not say who
	// wrote a deleted message.
	AuthorOf func(ctx context.Context, message string) (person string, known bool)
	// Missed names the channel in which messages count even if nobody listened when
	// they were written, and since when that may have been: the moment of the last
	// event that was worked at. They are read after each sign-in, at most a day of
	// them; nil, an empty channel or a zero time: none are.
	Missed func(context.Context) (channel string, since time.Time, err error)
	// Present is told the number of the bot's server whenever the bot finds itself
	// in it: at the start, and when it was let in again; nil: nobody is.
	Present func(ctx context.Context, guild string)
	// Removed is told when the bot is thrown out of its server, and at each sign-in
	// that finds it outside; nil: nobody is.
	Removed func(ctx context.Context, at time.Time)
	SignIns SignIns // nil: kept in memory only

	Now func() time.Time // the clock of what happens; waits are measured apart from it
	Log *slog.Logger     // nil: nothing is logged

	Timing Timing

	roots *x509.CertPool // whom to trust with the token; nil: whom this machine trusts
}

// Timing holds the waits of an Adapter. Each zero field takes its default.
type Timing struct {
	Defer   time.Duration // after which an interaction is deferred; 1.5 s
	Answer  time.Duration // within which the first answer must be out; 2.5 s (the platform allows 3)
	Work    time.Duration // the longest an event may be worked at; 1 min
	Drain   time.Duration // how long Run waits for events under way when it ends; 6 s
	Open    time.Duration // the longest a connection may take to be ready; 20 s
	Backoff time.Duration // the first wait before connecting again; 1 s, doubled up to 1 min
	Workers int           // events worked at at once; 64

	// After calls open once d has passed on the clock by which the platform counts its
	// rate limits, never before it returns; nil: real time. Waiting hears that a request
	// now waits for that; nil: nobody does. A clock that is simulated can then go on.
	After   func(d time.Duration, open func())
	Waiting func(atMost time.Duration)
}

func (t Timing) withDefaults() Timing {
	or := func(d *time.Duration, by time.Duration) {
		if *d == 0 {
			*d = by
		}
	}
	or(&t.Defer, 1500*time.Millisecond)
	or(&t.Answer, 2500*time.Millisecond)
	or(&t.Work, time.Minute)
	or(&t.Drain, 6*time.Second)
	or(&t.Open, 20*time.Second)
	or(&t.Backoff, time.Second)
	if t.Workers == 0 {
		t.Workers = 64
	}
	return t
}

// check completes the configuration or says what is wrong with it.
func (c Config) check() (Config, error) {
	c.Token = strings.TrimPrefix(strings.TrimSpace(c.Token), "Bot ")
	if c.Token == "" || strings.ContainsAny(c.Token, " \t\r\n") {
		return c, errors.New("the bot's token is missing or contains blanks")
	}
	if c.Now == nil {
		return c, errors.New("no clock was given")
	}
	if c.API == "" {
		c.API = DefaultAPI
	}
	c.API = strings.TrimSuffix(c.API, "/")
	if err := safeBase(c.API); err != nil {
		return c, err
	}
	if c.Guild != "" && !isID(c.Guild) {
		return c, fmt.Errorf("%q is no server's number; it has 17 to 20 digits", c.Guild)
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.SignIns == nil {
		c.SignIns = &memorySignIns{}
	}
	c.Timing = c.Timing.withDefaults()
	return c, nil
}

// safeBase refuses an address to which the token must not go.
func safeBase(base string) error {
	u, err := url.Parse(base)
	if err != nil || u.Host == "" || u.User != nil || strings.Trim(u.Path, "/") != "" || u.RawQuery != "" {
		return fmt.Errorf("%q is not an address like https://host or http://127.0.0.1:8080", base)
	}
	if u.Scheme == "https" || u.Scheme == "http" && isLoopback(u.Hostname()) {
		return nil
	}
	return fmt.Errorf("%q is refused: the token would travel unencrypted; use https or a loopback address", base)
}

func isLoopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
