package discord

import (
	"bufio"
	"encoding/binary"
	"encoding/json"
	"io"
	"time"
)

// The parts of a WebSocket frame that are looked at. Source: RFC 6455 section 5.2.
const (
	frameLast  = 0x80 // first byte: the last frame of its message
	frameKind  = 0x0f
	frameText  = 1
	frameClose = 8
	frameSize  = 0x7f // second byte: 126 and 127 mean that a longer size follows
)

// inspected is the size up to which frames are read before the library reads
// them. The gateway's own words (HELLO, ACK, reconnect, invalid session) are far
// shorter; most events are longer and only pass through.
const inspected = 1024

// frame is the head of a frame from the server and, where short, all of it.
type frame struct {
	head    []byte
	payload []byte // nil when the frame is not inspected
	size    int    // of the payload
}

// readFrame reads the head of the next frame, and its payload when it is one to
// be inspected.
func readFrame(in *bufio.Reader) (frame, error) {
	f := frame{head: make([]byte, 2, 10)}
	if _, err := io.ReadFull(in, f.head); err != nil {
		return f, err
	}
	extra := 0
	switch f.size = int(f.head[1] & frameSize); f.size {
	case 126:
		extra = 2
	case 127:
		extra = 8
	}
	f.head = f.head[:2+extra]
	if _, err := io.ReadFull(in, f.head[2:]); err != nil {
		return f, err
	}
	switch extra {
	case 2:
		f.size = int(binary.BigEndian.Uint16(f.head[2:]))
	case 8:
		f.size = int(binary.BigEndian.Uint64(f.head[2:]) & (1<<62 - 1))
	}
	kind := f.head[0] & frameKind
	if f.size > inspected || f.head[0]&frameLast == 0 || kind != frameText && kind != frameClose {
		return f, nil
	}
	f.payload = make([]byte, f.size)
	_, err := io.ReadFull(in, f.payload)
	return f, err
}

// The gateway's operations that a link looks for.
const (
	opReconnect = 7
	opInvalid   = 9
	opHello     = 10
	opAck       = 11
)

// packet is what the gateway says in a text frame.
type packet struct {
	Op   int             `json:"op"`
	Data json.RawMessage `json:"d"`
}

// read understands an inspected text frame; false for anything else.
func (f frame) read() (packet, bool) {
	var p packet
	if f.payload == nil || f.head[0]&frameKind != frameText {
		return p, false
	}
	return p, json.Unmarshal(f.payload, &p) == nil
}

// closed returns the code of a close frame; 1005 when it names none.
func (f frame) closed() (code int, is bool) {
	if f.payload == nil || f.head[0]&frameKind != frameClose {
		return 0, false
	}
	if len(f.payload) < 2 {
		return 1005, true
	}
	return int(binary.BigEndian.Uint16(f.payload)), true
}

// interval reads the heartbeat interval from HELLO.
func (p packet) interval() time.Duration {
	var d struct {
		Milliseconds float64 `json:"heartbeat_interval"`
	}
	if json.Unmarshal(p.Data, &d) != nil {
		return 0
	}
	return time.Duration(d.Milliseconds * float64(time.Millisecond))
}
