package discordtest

import (
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// Limits on what a bot sends over one connection. Source: events/gateway.
const (
	maxPacket  = 4096
	sendsPer   = 120
	sendWindow = time.Minute
)

// link is one websocket connection of the bot.
type link struct {
	g        *Gateway
	ws       *websocket.Conn
	greeting Greeting
	squeeze  *squeezer // the transport compression of the whole connection, or nil
	session  *session  // nil until identified or resumed; guarded by the server's lock
	sends    []time.Time

	mu     sync.Mutex
	queue  []outgoing
	signal chan struct{} // one slot: something is in the queue, or over
	over   bool
	frozen bool // nothing arrives and nothing leaves, yet the connection stands
	stop   chan struct{}
}

// outgoing is a packet, or the order to close with a code (0: cut).
type outgoing struct {
	data   []byte
	pack   bool // compress this packet alone
	half   bool // send the beginning of a frame, and nothing more ever
	ending bool
	code   int
}

var upgrader = websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}

// serve runs one connection until it ends.
func (g *Gateway) serve(w http.ResponseWriter, r *http.Request) {
	s := g.srv
	s.mu.Lock()
	refuse := g.refuse
	s.mu.Unlock()
	if refuse {
		write(w, answer{status: 503, body: "<html><body>503 Service Unavailable</body></html>"})
		return
	}
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return // the upgrader answered
	}
	l := &link{g: g, ws: ws, signal: make(chan struct{}, 1), stop: make(chan struct{})}
	if r.URL.Query().Get("compress") == "zlib-stream" {
		l.squeeze = newSqueezer()
	}
	written := make(chan struct{})
	go func() {
		defer close(written)
		l.write()
	}()
	if g.open(l, strings.HasPrefix(r.URL.Path, resumePath)) {
		g.greet(l, r.URL.Query())
		l.read()
	}
	g.lost(l)
	l.cut()
	<-written
	_ = ws.Close()
}

// open enters a connection into the books, unless the server is closing.
func (g *Gateway) open(l *link, toResume bool) bool {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	if g.shutdown {
		return false
	}
	g.links[l] = true
	g.stats.Connections++
	if toResume {
		g.stats.AtResumeURL++
	}
	if len(g.greetings) > 0 {
		l.greeting, g.greetings = g.greetings[0], g.greetings[1:]
	}
	g.srv.changed()
	return true
}

// lost takes a connection out of the books; its session waits to be resumed.
func (g *Gateway) lost(l *link) {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	delete(g.links, l)
	l.detach()
	g.srv.changed()
}

// detach parts a connection from its session, which waits to be resumed. The
// server's lock is held.
func (l *link) detach() {
	if l.session != nil {
		l.session.link = nil
		l.session = nil
	}
}

// push queues a packet.
func (l *link) push(data []byte) {
	l.enqueue(outgoing{data: data, pack: l.session != nil && l.session.compress})
}

// close ends the connection with a close code, after what is queued. The
// server's lock is held.
func (l *link) close(code int) {
	l.g.stats.Sent = append(l.g.stats.Sent, code)
	l.detach()
	l.enqueue(outgoing{ending: true, code: code})
}

// cut ends the TCP connection without a word.
func (l *link) cut() { l.enqueue(outgoing{ending: true}) }

func (l *link) enqueue(o outgoing) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.over {
		return
	}
	if o.ending {
		l.over = true
		if o.code == 0 {
			l.queue = nil
		}
	}
	l.queue = append(l.queue, o)
	select {
	case l.signal <- struct{}{}:
	default:
	}
}

// write sends what is queued until the connection ends.
func (l *link) write() {
	for range l.signal {
		l.mu.Lock()
		batch := l.queue
		l.queue = nil
		l.mu.Unlock()
		for _, o := range batch {
			if o.ending {
				l.finish(o.code)
				return
			}
			if !l.isFrozen() {
				l.send(o)
			}
		}
	}
}

// send writes one packet; a failure shows at the reading side.
func (l *link) send(o outgoing) {
	switch {
	case o.half:
		// A text frame of 100 bytes is announced (RFC 6455, section 5.2), and three
		// of them come.
		_, _ = l.ws.NetConn().Write([]byte{0x81, 100, '{', '"', 'o'})
		l.freeze()
	case l.squeeze != nil:
		_ = l.ws.WriteMessage(websocket.BinaryMessage, l.squeeze.next(o.data))
	case o.pack:
		_ = l.ws.WriteMessage(websocket.BinaryMessage, deflate(o.data))
	default:
		_ = l.ws.WriteMessage(websocket.TextMessage, o.data)
	}
}
