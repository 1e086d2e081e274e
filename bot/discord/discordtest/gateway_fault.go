package discordtest

import "slices"

// Greeting is what the next connection meets. A number from 1000 on is a close
// code in place of HELLO.
type Greeting int

// Greetings. "ForHello" stands in place of the first packet, "ForReady" in place
// of READY or RESUMED.
const (
	GreetNormally     Greeting = iota
	NoHello                    // silence from the start
	ReconnectForHello          // op 7
	CutForHello                // the connection breaks
	NoReady                    // silence after IDENTIFY or RESUME
	ReconnectForReady          // op 7
	InvalidForReady            // op 9 false
	ResumableForReady          // op 9 true
	CutForReady                // the connection breaks
)

// CloseForReady is a greeting that closes with a code in place of READY, such as
// 4004 or 4014.
func CloseForReady(code int) Greeting { return Greeting(-code) }

// CloseForHello is a greeting that closes with a code in place of HELLO.
func CloseForHello(code int) Greeting { return Greeting(code) }

// Greet plans what the next connections meet, one greeting each.
func (g *Gateway) Greet(next ...Greeting) {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	g.greetings = append(g.greetings, next...)
}

// greetSession does what a greeting puts in place of READY or RESUMED; each does
// it once. It returns false for the usual course.
func (g *Gateway) greetSession(l *link) bool {
	planned := l.greeting
	switch {
	case planned == NoReady:
		return true
	case planned == ReconnectForReady:
		l.push(encode(packet{Op: 7}))
	case planned == InvalidForReady:
		l.push(encode(packet{Op: 9, D: false}))
	case planned == ResumableForReady:
		l.push(encode(packet{Op: 9, D: true}))
	case planned == CutForReady:
		l.cut()
	case planned < 0:
		l.close(int(-planned))
	default:
		return false
	}
	l.greeting = GreetNormally
	return true
}

// each calls f for every connection.
func (g *Gateway) each(f func(*link)) {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	for l := range g.links {
		f(l)
	}
	g.srv.changed()
}

// Drop cuts every TCP connection; the sessions can be resumed.
func (g *Gateway) Drop() { g.each(func(l *link) { l.detach(); l.cut() }) }

// Refuse answers 503 to new connections while on; Drop and Refuse together are
// an outage.
func (g *Gateway) Refuse(on bool) { g.set(func() { g.refuse = on }) }

// MuteACKs answers no heartbeat while on.
func (g *Gateway) MuteACKs(on bool) { g.set(func() { g.muted = on }) }

// Freeze leaves every present connection half open: it stands, and nothing
// passes in either direction until Thaw.
func (g *Gateway) Freeze() { g.each((*link).freeze) }

// Thaw ends Freeze; events of the meantime are lost to that connection.
func (g *Gateway) Thaw() { g.each((*link).thaw) }

// AskHeartbeat sends op 1: the bot must beat at once.
func (g *Gateway) AskHeartbeat() { g.Send(1, nil) }

// Reconnect sends op 7: the bot should connect anew and resume.
func (g *Gateway) Reconnect() { g.Send(7, nil) }

// Invalidate sends op 9. Unless resumable, the sessions end.
func (g *Gateway) Invalidate(resumable bool) {
	g.each(func(l *link) {
		l.push(encode(packet{Op: 9, D: resumable}))
		if l.session != nil && !resumable {
			g.end(l.session)
		}
	})
}

// CloseWith closes every connection with a code. The codes after which nothing
// can be resumed also end the sessions.
func (g *Gateway) CloseWith(code int) {
	g.each(func(l *link) {
		final := []int{1000, 1001, 4004, 4007, 4009, 4010, 4011, 4012, 4013, 4014}
		if l.session != nil && slices.Contains(final, code) {
			g.end(l.session)
		}
		l.close(code)
	})
}

// Send sends any packet outside of the sessions' numbering.
func (g *Gateway) Send(op int, data any) {
	g.each(func(l *link) { l.push(encode(packet{Op: op, D: data})) })
}

// SendRaw sends any text, such as half a packet or a number out of order.
func (g *Gateway) SendRaw(text string) { g.each(func(l *link) { l.push([]byte(text)) }) }

// HalfFrame sends the beginning of a packet and then nothing more, on every
// connection.
func (g *Gateway) HalfFrame() { g.each(func(l *link) { l.enqueue(outgoing{half: true}) }) }

// Dispatch sends any event to every session, such as one that nobody knows.
func (g *Gateway) Dispatch(event string, data any) {
	g.set(func() { g.dispatch(event, about{always: true}, data) })
}

// Duplicate sends each of the next n events twice.
func (g *Gateway) Duplicate(n int) { g.set(func() { g.twice += n }) }

// Lose sends none of the next n events, not even on a resume.
func (g *Gateway) Lose(n int) { g.set(func() { g.lose += n }) }

// Swap lets each of n events pass behind the one that follows it.
func (g *Gateway) Swap(n int) { g.set(func() { g.swap += n }) }

// SpendIdentifies uses up n of the day's budget of 1000 identifies.
func (g *Gateway) SpendIdentifies(n int) {
	g.set(func() {
		for range n {
			g.budgeted = append(g.budgeted, g.srv.Now())
		}
	})
}

// Disallow switches privileged intents off in the application's settings: later
// identifies that ask for one end with 4014.
func (s *Server) Disallow(i Intents) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.opts.Disallowed = i
}

func (g *Gateway) set(f func()) {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	f()
	g.srv.changed()
}
