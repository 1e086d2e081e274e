package discordtest

import (
	"net"

	"github.com/gorilla/websocket"
)

// finish closes with a code, leaving the other side time to read it, or cuts.
func (l *link) finish(code int) {
	close(l.stop)
	if code == 0 {
		_ = l.ws.NetConn().Close()
		return
	}
	_ = l.ws.WriteMessage(websocket.CloseMessage, websocket.FormatCloseMessage(code, closeReasons[code]))
	if tcp, ok := l.ws.NetConn().(*net.TCPConn); ok {
		_ = tcp.CloseWrite()
	}
}

// closeReasons are the words beside the codes. Source:
// topics/opcodes-and-status-codes.
var closeReasons = map[int]string{
	4000: "Unknown error.", 4001: "Unknown opcode.", 4002: "Error while decoding payload.", 4003: "Not authenticated.",
	4004: "Authentication failed.", 4005: "Already authenticated.", 4007: "Invalid seq.", 4008: "Rate limited.",
	4009: "Session timed out.", 4010: "Invalid shard.", 4011: "Sharding required.", 4012: "Invalid API version.",
	4013: "Invalid intent(s).", 4014: "Disallowed intent(s).",
}

// shut cuts all connections for good.
func (g *Gateway) shut() {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	g.shutdown = true
	for l := range g.links {
		l.thaw()
		l.cut()
		_ = l.ws.NetConn().Close() // also where the bot does not answer a close
	}
}
