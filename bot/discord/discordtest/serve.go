package discordtest

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"strings"

	"github.com/gorilla/websocket"
)

// base is where the API of version 10 lies.
const base = "/api/v10"

// ServeHTTP answers REST calls under /api/v10, files under /attachments and
// /ephemeral-attachments and the
// websocket of the gateway at the root.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !s.enter() {
		cut(w)
		return
	}
	defer s.leave()
	w.Header().Set("Date", s.Now().UTC().Format(http.TimeFormat))
	path := r.URL.EscapedPath()
	switch {
	case websocket.IsWebSocketUpgrade(r):
		s.gateway.serve(w, r)
	case strings.HasPrefix(path, "/attachments/"), strings.HasPrefix(path, "/ephemeral-attachments/"):
		s.serveFile(w, r, path)
	case strings.HasPrefix(path, base+"/"):
		s.serveREST(w, r, strings.TrimPrefix(path, base))
	default:
		write(w, refused(errNotFound))
	}
}

// serveREST takes one call through faults, rights, rate limits, rules of form
// and its handler, in the order of the platform.
func (s *Server) serveREST(w http.ResponseWriter, r *http.Request, path string) {
	c := &call{params: map[string]string{}, query: r.URL.Query(), source: r}
	bad := c.read(r)
	var missing *apiError
	if c.route, c.params, missing = findRoute(r.Method, path); missing != nil {
		c.route = &route{method: r.Method, path: path}
	}
	n, began := s.record(c, path), s.Now()
	fault := s.trip(c.route)
	if fault != nil && !fault.before(s, w, r, began) {
		s.settle(n, fault.status())
		return
	}
	a := s.decide(c, missing, bad)
	if fault != nil && fault.Kind == RefuseAfter {
		a = fault.refusal()
	}
	s.settle(n, a.status)
	if fault != nil && !fault.after(w, r, began, a) {
		return
	}
	write(w, a)
}

// decide does the work of a call under the lock.
func (s *Server) decide(c *call, missing, bad *apiError) answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	defer s.changed()
	s.checkHeaders(c)
	if !c.route.open && c.source.Header.Get("Authorization") != "Bot "+s.token {
		return s.countInvalid(refused(errUnauthorized), "")
	}
	if missing != nil {
		s.violate("%s %s: the platform has no such operation, or the emulator does not know it", c.route.method, c.route.path)
		return refused(missing)
	}
	limited, headers := s.limits.take(s, c)
	if limited != nil {
		return s.countInvalid(*limited, limited.header["X-RateLimit-Scope"])
	}
	a := s.answer(c, bad)
	if a.header == nil {
		a.header = headers
	}
	return s.countInvalid(a, "")
}

func (s *Server) answer(c *call, bad *apiError) answer {
	if bad == nil {
		if reasons := s.schema.checkRequest(c); len(reasons) > 0 {
			bad = invalidBody(reasons...)
		}
	}
	if bad != nil {
		return s.invalid(c, bad)
	}
	a := c.route.handle(s, c)
	for _, reason := range s.schema.checkAnswer(c, a) {
		s.violate("the emulator's own answer to %s %s: %s", c.route.method, c.route.path, reason)
	}
	return a
}

// invalid reports a body that breaks the rules of form and refuses it.
func (s *Server) invalid(c *call, err *apiError) answer {
	reasons := strings.Join(err.reasons, "; ")
	if reasons == "" {
		reasons = err.message
	}
	s.violate("%s %s: %s", c.route.method, c.route.path, reasons)
	return refused(err)
}

// checkHeaders looks at what the reference demands of every client.
func (s *Server) checkHeaders(c *call) {
	h := c.source.Header
	if agent := h.Get("User-Agent"); agent == "" || strings.HasPrefix(agent, "Go-http-client") {
		s.violate("%s %s: a User-Agent that names the bot is mandatory, not %q", c.route.method, c.route.path, agent)
	}
	if len(c.body) > 0 && h.Get("Content-Type") == "" {
		s.violate("%s %s: a body needs a Content-Type", c.route.method, c.route.path)
	}
	if reason := h.Get("X-Audit-Log-Reason"); len(reason) > 512 {
		s.violate("%s %s: the audit log reason has %d characters, at most 512 are allowed", c.route.method, c.route.path, len(reason))
	}
}

// write sends an answer; a body that is a string is HTML.
func write(w http.ResponseWriter, a answer) {
	for k, v := range a.header {
		w.Header().Set(k, v)
	}
	if text, ok := a.body.(string); ok {
		w.Header().Set("Content-Type", "text/html")
		w.WriteHeader(a.status)
		_, _ = io.WriteString(w, text)
		return
	}
	if a.body == nil {
		w.WriteHeader(a.status)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(a.status)
	_, _ = w.Write(encode(a.body)) // the client may be gone: its own affair
}

// encode writes JSON without escaping HTML, as the platform does.
func encode(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		panic("discordtest: a value of the emulator's own cannot be written: " + err.Error())
	}
	return bytes.TrimSpace(b.Bytes())
}
