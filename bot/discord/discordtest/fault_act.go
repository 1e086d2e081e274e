package discordtest

import (
	"fmt"
	"net/http"
	"strconv"
	"time"
)

// before acts before the work; it returns false when the call ends there.
func (a *Armed) before(s *Server, w http.ResponseWriter, r *http.Request, began time.Time) bool {
	switch a.Kind {
	case CutBefore:
		cut(w)
		return false
	case HoldBefore:
		return a.hold(w, r, began)
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

// after acts after the work; it returns false when the answer is spent. (A
// RefuseAfter has changed the answer already.)
func (a *Armed) after(w http.ResponseWriter, r *http.Request, began time.Time, done answer) bool {
	switch a.Kind {
	case CutAfter:
		cut(w)
		return false
	case CutBody:
		cutShort(w, done)
		return false
	case HoldAfter:
		return a.hold(w, r, began)
	case HoldBody:
		body := half(w, done)
		if !a.hold(w, r, began) {
			panic(http.ErrAbortHandler)
		}
		_, _ = w.Write(body)
		return false
	}
	return true
}

// hold waits for the gate, or for the simulated clock to pass Delay since the
// call began; a client that gives up
// ends the call.
func (a *Armed) hold(w http.ResponseWriter, r *http.Request, began time.Time) bool {
	for {
		a.srv.mu.Lock()
		wake := a.srv.wake
		a.srv.mu.Unlock()
		if a.Delay > 0 && a.srv.Now().Sub(began) >= a.Delay {
			return true
		}
		select {
		case <-a.gate:
			return true
		case <-wake:
		case <-r.Context().Done():
			cut(w)
			return false
		case <-a.srv.closing:
			cut(w)
			return false
		}
	}
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
	half(w, a)
	panic(http.ErrAbortHandler) // the server's own way to cut an answer short
}

// half sends the first half of an answer and returns the other.
func half(w http.ResponseWriter, a answer) []byte {
	body := encode(a.body)
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(a.status)
	_, _ = w.Write(body[:len(body)/2])
	_ = http.NewResponseController(w).Flush()
	return body[len(body)/2:]
}
