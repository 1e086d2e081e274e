package discord

import (
	"bufio"
	"bytes"
	"net"
	"sync"
	"time"
)

// link is one connection to the gateway, standing between the network and the
// library. What the library handles in a way it cannot come back from (op 7, op 9
// and close frames) never reaches it: it reads an error instead, and the verdict
// says what happened. Nothing is written any more once a link has ended, so the
// library's own farewell, which would make the session invalid, never leaves.
type link struct {
	net.Conn
	hello func() error // asked before HELLO is passed on; an error ends the link
	in    *bufio.Reader
	out   []byte // what the library may read now
	pass  int    // bytes of a long frame that still go through unread
	open  bool   // the HTTP handshake is over
	watch *time.Timer
	quiet time.Duration // the longest time without an ACK; only the reader uses it

	once    sync.Once
	ended   chan struct{} // closed when verdict is set
	verdict *verdict
}

// newLink wraps a connection. At first it may be silent for as long as opening
// may take; HELLO then says how often an ACK is to come.
func newLink(c net.Conn, opening time.Duration, hello func() error) *link {
	l := &link{Conn: c, hello: hello, in: bufio.NewReaderSize(c, 16<<10), ended: make(chan struct{}), quiet: opening}
	l.watch = time.AfterFunc(opening, func() { l.end(&verdict{ending: endSilent}) })
	return l
}

// end closes the connection and keeps the first reason.
func (l *link) end(v *verdict) {
	l.once.Do(func() {
		l.verdict = v
		close(l.ended)
		l.watch.Stop()
		_ = l.Conn.Close()
	})
}

func (l *link) over() bool {
	select {
	case <-l.ended:
		return true
	default:
		return false
	}
}

// Close is called by the library.
func (l *link) Close() error {
	l.end(&verdict{ending: endLeft})
	return nil
}

// Write is silent after the end: an error would make the library's heartbeat
// close whatever connection it has by then.
func (l *link) Write(p []byte) (int, error) {
	if l.over() {
		return len(p), nil
	}
	n, err := l.Conn.Write(p)
	if err != nil {
		l.end(&verdict{ending: endDropped, cause: err})
		return len(p), nil
	}
	return n, nil
}

// leave says goodbye for good: the session ends at once and the bot shows as
// away. The frame is a masked close with code 1000 (RFC 6455 sections 5.2, 7.4.1);
// the mask is zero, which is legal.
func (l *link) leave() {
	if !l.over() {
		_, _ = l.Conn.Write([]byte{frameLast | frameClose, 0x80 | 2, 0, 0, 0, 0, 1000 >> 8, 1000 & 0xff})
	}
	l.end(&verdict{ending: endLeft})
}

// Read gives the library what it may read.
func (l *link) Read(p []byte) (int, error) {
	if len(l.out) == 0 && l.pass == 0 {
		if err := l.fill(); err != nil {
			return 0, l.readError(err)
		}
	}
	if len(l.out) > 0 {
		n := copy(p, l.out)
		l.out = l.out[n:]
		return n, nil
	}
	n, err := l.in.Read(p[:min(len(p), l.pass)])
	l.pass -= n
	if err != nil {
		return n, l.readError(err)
	}
	return n, nil
}

// readError ends the link and returns the reason it ended for.
func (l *link) readError(err error) error {
	v, ok := err.(*verdict)
	if !ok {
		v = &verdict{ending: endDropped, cause: err}
	}
	l.end(v)
	<-l.ended
	return l.verdict
}

// fill reads what comes next: the answer to the handshake, then frames.
func (l *link) fill() error {
	if !l.open {
		return l.handshake()
	}
	f, err := readFrame(l.in)
	if err != nil {
		return err
	}
	if v := l.judge(f); v != nil {
		return v
	}
	if f.payload == nil {
		l.pass = f.size
	}
	l.out = append(f.head, f.payload...)
	return nil
}

// handshake passes the head of the HTTP answer on. After anything but an upgrade
// no frames follow, and the library reads an error page until it ends.
func (l *link) handshake() error {
	var head []byte
	for {
		line, err := l.in.ReadSlice('\n')
		head = append(head, line...)
		if err != nil {
			return err
		}
		if len(bytes.TrimSpace(line)) == 0 {
			break
		}
	}
	l.open, l.out = true, head
	if !bytes.HasPrefix(head, []byte("HTTP/1.1 101")) {
		l.pass = 1 << 20
	}
	return nil
}

// judge returns why the frame ends the link, nil when it does not.
func (l *link) judge(f frame) *verdict {
	if code, is := f.closed(); is {
		return &verdict{ending: endClosed, code: code}
	}
	p, ok := f.read()
	if !ok {
		return nil
	}
	switch p.Op {
	case opHello:
		if err := l.hello(); err != nil {
			return &verdict{ending: endBudget, cause: err}
		}
		if beat := p.interval(); beat > 0 {
			l.quiet = beat + beat/2
		}
		l.watch.Reset(l.quiet)
	case opAck:
		l.watch.Reset(l.quiet)
	case opReconnect:
		return &verdict{ending: endAsked}
	case opInvalid:
		if string(bytes.TrimSpace(p.Data)) == "true" {
			return &verdict{ending: endResume}
		}
		return &verdict{ending: endFresh}
	}
	return nil
}
