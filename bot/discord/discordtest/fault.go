package discordtest

import (
	"context"
	"time"
)

// Kind is a way in which the platform or the network can fail.
type Kind int

// The kinds of fault. "Before" means that the work is not done, "after" that it
// is done and only the answer is lost or wrong.
const (
	RefuseBefore Kind = iota // answer Status (500 when 0) and Code, nothing is done
	RefuseAfter              // do the work, then answer Status (502 when 0)
	CutBefore                // cut the connection, nothing is done
	CutAfter                 // do the work, then cut the connection
	CutBody                  // do the work, send half of the answer, then cut
	HoldBefore               // wait for Armed.Release, then do the work and answer
	HoldAfter                // do the work, wait for Armed.Release, then answer
	HoldBody                 // do the work, send half of the answer, wait for Armed.Release, send the rest
	TooMany                  // answer 429
)

// Fault is one thing that goes wrong. Method and Route choose the operation, and
// empty ones choose every operation. The route /attachments stands for the host
// of uploaded files.
type Fault struct {
	Method, Route string
	Kind          Kind
	Skip          int           // so many matching calls go well first
	Times         int           // how often; 0 is once, negative for ever
	Status, Code  int           // RefuseBefore, RefuseAfter
	Delay         time.Duration // HoldBefore, HoldAfter, HoldBody: release by itself after so much simulated time
	Message       string        // words of the error
	HTML          bool          // answer a page instead of JSON, as the edge in front of the API does
	RetryAfter    time.Duration // TooMany; 1 s when 0
	Scope         string        // TooMany: user (default), global or shared
	NoReset       bool          // TooMany: leave X-RateLimit-Reset-After out
}

// Armed is a fault that was switched on.
type Armed struct {
	Fault
	srv  *Server
	gate chan struct{}
	hits int
	off  bool
}

// Fail switches a fault on.
func (s *Server) Fail(f Fault) *Armed {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.Times == 0 {
		f.Times = 1
	}
	a := &Armed{Fault: f, srv: s, gate: make(chan struct{})}
	s.faults = append(s.faults, a)
	return a
}

// Release lets the calls go on that a HoldBefore or HoldAfter holds, and all
// later ones.
func (a *Armed) Release() {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	select {
	case <-a.gate:
	default:
		close(a.gate)
	}
}

// Off switches the fault off; calls that are held stay held.
func (a *Armed) Off() {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	a.off = true
}

// Hits is how many calls the fault met.
func (a *Armed) Hits() int {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	return a.hits
}

// Await blocks until the fault met n calls.
func (a *Armed) Await(ctx context.Context, n int) error {
	return a.srv.Until(ctx, func() bool { return a.Hits() >= n })
}

// trip finds the fault that meets a call.
func (s *Server) trip(r *route) *Armed {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, a := range s.faults {
		if a.off || a.Times == 0 || a.Method != "" && a.Method != r.method || a.Route != "" && a.Route != r.path {
			continue
		}
		if a.Skip > 0 {
			a.Skip--
			continue
		}
		if a.Times > 0 {
			a.Times--
		}
		a.hits++
		s.changed()
		return a
	}
	return nil
}
