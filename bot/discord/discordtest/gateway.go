package discordtest

import (
	"context"
	"encoding/json"
	"slices"
	"time"
)

// identifiesPerDay is the budget of IDENTIFY; past it the platform ends all
// sessions and replaces the bot's token. Source: events/gateway.
const identifiesPerDay = 1000

// Gateway is the websocket side of the server: its sessions, and switches for
// what can go wrong there.
type Gateway struct {
	srv      *Server
	sessions []*session
	links    map[*link]bool
	budgeted []time.Time // identifies of the last 24 hours
	stats    GatewayStats

	greetings []Greeting
	refuse    bool
	muted     bool
	shutdown  bool
	twice     int        // so many next events are sent twice
	lose      int        // so many next events are never sent
	swap      int        // so many next events wait for the one behind them
	held      []heldBack // events that wait
}

// GatewayStats count what the bot did on the gateway since the start.
type GatewayStats struct {
	Connections int // websockets opened
	AtResumeURL int // of them at the address that READY gave for resuming
	Identifies  int
	Resumes     int // attempts
	Resumed     int // of them granted
	Heartbeats  int
	Ready       int   // sessions that are connected and usable now
	Closed      []int // how the bot ended connections: its close code, 1005 for none, 1006 for a cut
	Sent        []int // close codes that the server sent
}

// packet is one message of the gateway.
type packet struct {
	Op int     `json:"op"`
	D  any     `json:"d"`
	S  *int    `json:"s"`
	T  *string `json:"t"`
}

// session is one logical session, which may outlive its connections.
type session struct {
	id       string
	intents  Intents
	seq      int
	log      [][]byte // the dispatches, the first is number 1
	link     *link    // nil while it is not connected
	compress bool
}

// heldBack is an event that was taken out of its order.
type heldBack struct {
	event string
	about about
	body  func(Intents) any
}

func newGateway(s *Server) *Gateway { return &Gateway{srv: s, links: map[*link]bool{}} }

// Stats are the counts so far.
func (g *Gateway) Stats() GatewayStats {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	st := g.stats
	st.Closed, st.Sent = slices.Clone(st.Closed), slices.Clone(st.Sent)
	for _, s := range g.sessions {
		if s.link != nil {
			st.Ready++
		}
	}
	return st
}

// AwaitReady blocks until a session is connected and usable. Orders such as Send
// reach only connections that the server has taken in, so wait before giving one.
func (g *Gateway) AwaitReady(ctx context.Context) error {
	return g.srv.Until(ctx, func() bool { return g.Stats().Ready > 0 })
}

// dispatch sends an event with one body for all. The lock is held.
func (g *Gateway) dispatch(event string, a about, body any) {
	g.dispatchEach(event, a, func(Intents) any { return body })
}

// dispatchEach sends an event whose body depends on the session's intents, and
// applies the faults that concern events. The lock is held.
func (g *Gateway) dispatchEach(event string, a about, body func(Intents) any) {
	if !g.concerns(event, a) {
		return
	}
	switch {
	case g.lose > 0:
		g.lose--
		return
	case g.swap > 0 && len(g.held) == 0:
		g.swap--
		g.held = append(g.held, heldBack{event, a, body})
		return
	}
	g.deliver(event, a, body)
	if g.twice > 0 {
		g.twice--
		g.deliver(event, a, body)
	}
	held := g.held
	g.held = nil
	for _, h := range held {
		g.deliver(h.event, h.about, h.body)
	}
}

// concerns tells whether the bot can know of an event at all.
func (g *Gateway) concerns(event string, a about) bool {
	if a.guild != nil && a.guild.gone && event != "GUILD_DELETE" {
		return false
	}
	if a.channel != nil && a.channel.guild != nil {
		return g.srv.permissions(g.srv.bot, a.channel).Has(ViewChannel)
	}
	return true
}

func (g *Gateway) deliver(event string, a about, body func(Intents) any) {
	for _, s := range g.sessions {
		if a.always || s.intents&a.need == a.need {
			s.dispatch(event, body(s.intents))
		}
	}
}

// dispatch numbers an event, keeps it for a resume and sends it.
func (s *session) dispatch(event string, body any) {
	s.seq++
	seq := s.seq
	data := encode(packet{Op: 0, D: body, S: &seq, T: &event})
	s.log = append(s.log, data)
	if s.link != nil {
		s.link.push(data)
	}
}

// budget is how many identifies are left today and when the day is over.
func (g *Gateway) budget(now time.Time) (int, time.Duration) {
	g.budgeted = slices.DeleteFunc(g.budgeted, func(at time.Time) bool { return now.Sub(at) >= 24*time.Hour })
	reset := time.Duration(0)
	if len(g.budgeted) > 0 {
		reset = g.budgeted[0].Add(24 * time.Hour).Sub(now)
	}
	return max(identifiesPerDay-len(g.budgeted), 0), reset
}

// end takes a session out of the world: it cannot be resumed. The lock is held.
func (g *Gateway) end(s *session) {
	g.sessions = slices.DeleteFunc(g.sessions, func(o *session) bool { return o == s })
	if s.link != nil {
		s.link.session = nil
		s.link = nil
	}
}

// exhaust is what the platform does when the budget of identifies is spent: all
// sessions end and the token changes. The lock is held.
func (g *Gateway) exhaust() {
	g.srv.token += ".replaced"
	for _, s := range slices.Clone(g.sessions) {
		l := s.link
		g.end(s)
		if l != nil {
			l.close(4004)
		}
	}
	g.srv.changed()
}

// decodeD reads the data of a packet.
func decodeD(raw json.RawMessage, v any) bool {
	return len(raw) > 0 && json.Unmarshal(raw, v) == nil
}
