package discordtest

import (
	"encoding/json"
	"errors"
	"net/url"
	"slices"
	"time"

	"github.com/gorilla/websocket"
)

// incoming is a packet of the bot.
type incoming struct {
	Op int             `json:"op"`
	D  json.RawMessage `json:"d"`
}

// greet says HELLO, or what a planned greeting says in its place.
func (g *Gateway) greet(l *link, q url.Values) {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	version, encoding := q.Get("v"), q.Get("encoding")
	switch {
	case l.greeting == NoHello:
	case l.greeting == ReconnectForHello:
		l.push(encode(packet{Op: 7}))
	case l.greeting == CutForHello:
		l.cut()
	case l.greeting >= 1000:
		l.close(int(l.greeting))
	case version != "10" && version != "9":
		l.close(4012)
	case encoding != "json" && encoding != "":
		l.close(4012)
	default:
		l.push(encode(packet{Op: 10, D: object{"heartbeat_interval": g.srv.opts.Heartbeat.Milliseconds(), "_trace": []string{}}}))
	}
}

// read takes what the bot sends until the connection ends.
func (l *link) read() {
	for {
		_, data, err := l.ws.ReadMessage()
		l.awaitThaw()
		s := l.g.srv
		s.mu.Lock()
		over := l.ended()
		switch {
		case over: // what comes behind the server's own close counts no more
		case err != nil:
			l.g.hungUp(l, err)
		default:
			l.g.hear(l, data)
		}
		s.changed()
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// ended tells whether the server has ended the connection.
func (l *link) ended() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.over
}

// hungUp notes how the bot ended the connection: 1000 and 1001 end the session
// as well.
func (g *Gateway) hungUp(l *link, err error) {
	code := websocket.CloseAbnormalClosure
	var closed *websocket.CloseError
	if errors.As(err, &closed) {
		code = closed.Code
	}
	g.stats.Closed = append(g.stats.Closed, code)
	if l.session != nil && (code == websocket.CloseNormalClosure || code == websocket.CloseGoingAway) {
		g.end(l.session)
	}
}

// hear acts on one packet. The lock is held.
func (g *Gateway) hear(l *link, data []byte) {
	var p incoming
	switch {
	case len(data) > maxPacket, json.Unmarshal(data, &p) != nil:
		l.close(4002)
		return
	case p.Op != 1 && !l.mayTalk(g.srv.Now()):
		l.close(4008)
		return
	}
	switch p.Op {
	case 1:
		g.stats.Heartbeats++
		if !g.muted {
			l.push(encode(packet{Op: 11}))
		}
	case 2:
		g.identify(l, p.D)
	case 6:
		g.resume(l, p.D)
	case 3, 4, 8, 31:
		if l.session == nil {
			l.close(4003)
		}
	default:
		l.close(4001)
	}
}

// mayTalk counts what the bot sends. Heartbeats are left out: they keep wall
// time, while the window is one of the simulated clock, which may stand still.
func (l *link) mayTalk(now time.Time) bool {
	l.sends = slices.DeleteFunc(l.sends, func(at time.Time) bool { return now.Sub(at) >= sendWindow })
	l.sends = append(l.sends, now)
	return len(l.sends) <= sendsPer
}

// freeze stops both directions while the TCP connection stands.
func (l *link) freeze() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.frozen = true
}

func (l *link) isFrozen() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.frozen
}

// thaw lets a frozen connection go on; what was sent meanwhile is lost.
func (l *link) thaw() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.frozen = false
}

// awaitThaw drops nothing that the bot sent, but acts on it only after the thaw
// or when the connection ends.
func (l *link) awaitThaw() {
	for {
		s := l.g.srv
		s.mu.Lock()
		wake := s.wake
		s.mu.Unlock()
		l.mu.Lock()
		frozen := l.frozen && !l.over
		l.mu.Unlock()
		if !frozen {
			return
		}
		select {
		case <-wake:
		case <-l.stop:
		case <-s.closing:
		}
	}
}
