package discord

import (
	"encoding/json"
	"log/slog"
	"net/http"
	"strings"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// The library keeps the gateway's version and its logger in package variables;
// they are set once, before anything runs. Its log lines hold whole events, so
// only the fact that it had something to say about is passed on, by format.
func init() {
	discordgo.APIVersion = apiVersion
	discordgo.Logger = func(level, _ int, format string, _ ...any) {
		slog.Debug("discord library", "level", level, "says", format)
	}
}

// newSession makes a library session with everything switched off that goes
// wrong: its state cache, reconnecting, repeating, compression, and handlers that
// run at once and out of order. Ours only queues, so it never holds up an ACK.
func (g *gateway) newSession() *discordgo.Session {
	s, _ := discordgo.New("Bot " + g.token) // never fails
	s.StateEnabled, s.Compress, s.Identify.Compress = false, false, false
	s.ShouldReconnectOnError, s.ShouldRetryOnRateLimit, s.MaxRestRetries = false, false, 0
	s.SyncEvents = true
	s.Identify.Intents = g.intents
	s.Identify.Properties.Browser, s.Identify.Properties.Device = "blockbell", "blockbell"
	s.UserAgent = userAgent
	s.Client = &http.Client{Transport: &addressBook{g: g, next: g.http.Transport}, Timeout: g.timing.Open / 2, CheckRedirect: noRedirect}
	s.Dialer = &websocket.Dialer{
		HandshakeTimeout:  g.timing.Open / 2,
		NetDialContext:    g.dialPlain,
		NetDialTLSContext: g.dialTLS,
	}
	s.AddHandler(g.received)
	s.AddHandler(g.letGo)
	return s
}

// letGo hears that the library is done with a connection.
func (g *gateway) letGo(from *discordgo.Session, _ *discordgo.Disconnect) {
	if !g.ours(from) {
		return
	}
	select {
	case g.gone <- struct{}{}:
	default:
	}
}

// ours tells whether a session is the one in use, and not one given up.
func (g *gateway) ours(s *discordgo.Session) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return s == g.session
}

// received takes note of what concerns the session and passes every event on.
func (g *gateway) received(from *discordgo.Session, e *discordgo.Event) {
	if !g.ours(from) {
		return
	}
	switch e.Type {
	case "READY":
		var r struct {
			Resume string `json:"resume_gateway_url"`
		}
		_ = json.Unmarshal(e.RawData, &r) // without it, the usual address serves
		g.nowReady(r.Resume)
	case "RESUMED":
		g.nowReady("")
	}
	if e.Operation == 0 && e.Type != "" {
		g.event(e.Type, e.RawData)
	}
}

func (g *gateway) nowReady(resume string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.ready, g.resumable = true, true
	if resume != "" {
		g.resume = strings.TrimSuffix(resume, "/")
	}
	g.log.Info("gateway connected")
}
