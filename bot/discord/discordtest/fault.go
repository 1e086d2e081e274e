package discordtest

import (
	"context"
	"fmt"
	"net/http"
	"strconv"
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
	TooMany                  // answer 429
)

// Fault is one thing that goes wrong. Method and Route choose the operation, and
// empty ones choose every operation.
type Fault struct {
	Method, Route string
	Kind          Kind
	Skip          int           // so many matching calls go well first
	Times         int           // how often; 0 is once, negative for ever
	Status, Code  int           // RefuseBefore, RefuseAfter
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

// before acts before the work; it returns false when the call ends there.
func (a *Armed) before(s *Server, w http.ResponseWriter, r *http.Request) bool {
	switch a.Kind {
	case CutBefore:
		cut(w)
		return false
	case HoldBefore:
		return a.hold(w, r)
	case RefuseBefore, TooMany:
		s.mu.Lock()
		refusal := s.countInvalid(a.refusal(), a.scope())
		s.changed()
		s.mu.Unlock()
		write(w, refusal)
		return false
	}
	return true
}

// after acts after the work; it returns false when the answer is spent.
func (a *Armed) after(s *Server, w http.ResponseWriter, r *http.Request, done answer) bool {
	switch a.Kind {
	case CutAfter:
		cut(w)
		return false
	case CutBody:
		cutShort(w, done)
		return false
	case HoldAfter:
		return a.hold(w, r)
	case RefuseAfter:
		write(w, a.refusal())
		return false
	}
	return true
}

// hold waits for the gate; a client that gives up ends the call before the work.
func (a *Armed) hold(w http.ResponseWriter, r *http.Request) bool {
	select {
	case <-a.gate:
		return true
	case <-r.Context().Done():
	case <-a.srv.closing:
	}
	cut(w)
	return false
}

func (a *Armed) status() int {
	switch {
	case a.Kind == CutBefore || a.Kind == HoldBefore:
		return 0
	case a.Kind == TooMany:
		return 429
	case a.Status != 0:
		return a.Status
	case a.Kind == RefuseAfter:
		return 502
	}
	return 500
}

func (a *Armed) scope() string {
	if a.Kind == TooMany && a.Scope == "" {
		return "user"
	}
	return a.Scope
}

func (a *Armed) refusal() answer {
	if a.Kind == TooMany {
		return a.tooMany()
	}
	status := a.status()
	if a.HTML || status > 500 && a.Code == 0 && a.Message == "" {
		return answer{status: status, body: fmt.Sprintf("<html><body><h1>%d %s</h1></body></html>", status, http.StatusText(status))}
	}
	message := a.Message
	if message == "" {
		message = fmt.Sprintf("%d: %s", status, http.StatusText(status))
	}
	return refused(&apiError{status: status, code: a.Code, message: message})
}

func (a *Armed) tooMany() answer {
	wait := a.RetryAfter
	if wait == 0 {
		wait = time.Second
	}
	if a.HTML {
		return answer{status: 429, body: "<html><body>error code: 1015</body></html>", header: map[string]string{"Retry-After": seconds(wait)}}
	}
	limited := tooMany(wait, a.scope())
	if a.NoReset {
		delete(limited.header, "X-RateLimit-Reset-After")
	}
	return limited
}

func seconds(d time.Duration) string { return strconv.Itoa(int((d + time.Second - 1) / time.Second)) }

// cut ends the TCP connection without an answer.
func cut(w http.ResponseWriter) {
	if h, ok := w.(http.Hijacker); ok {
		if conn, _, err := h.Hijack(); err == nil {
			_ = conn.Close()
		}
	}
}

// cutShort promises the whole answer, sends half and cuts.
func cutShort(w http.ResponseWriter, a answer) {
	body := encode(a.body)
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Length", strconv.Itoa(len(body)+1))
	w.WriteHeader(a.status)
	_, _ = w.Write(body[:len(body)/2])
	_ = http.NewResponseController(w).Flush()
	panic(http.ErrAbortHandler) // the server's own way to cut an answer short
}
