package discordtest

import (
	"context"
	"fmt"
	"net/http"
	"strings"
	"time"
)

// Request is one call of the bot, kept for assertions. Tokens are struck out.
type Request struct {
	At     time.Time // by the simulated clock
	Method string
	Route  string // the path as in the platform's document: /channels/{channel_id}/messages
	Path   string // the path itself, without /api/v10
	Query  string
	Header http.Header
	Body   []byte // the JSON; of a form, its payload_json
	Files  []Upload
	Status int // 0 while it runs and when the connection was cut before the work

	documented string // the route as the document has it
}

// redacted stands in the place of a token.
const redacted = "(token)"

// record notes a call and returns its place in the list.
func (s *Server) record(c *call, path string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	header := c.source.Header.Clone()
	if header.Get("Authorization") != "" {
		header.Set("Authorization", "Bot "+redacted)
	}
	for _, name := range []string{"interaction_token", "webhook_token"} {
		if t := c.params[name]; t != "" {
			path = strings.ReplaceAll(path, t, redacted)
		}
	}
	body := strings.ReplaceAll(string(c.body), s.token, redacted)
	s.requests = append(s.requests, Request{At: s.Now(), Method: c.route.method, Route: c.route.path, Path: path,
		Query: c.source.URL.RawQuery, Header: header, Body: []byte(body), Files: c.files, documented: c.documented()})
	s.changed()
	return len(s.requests) - 1
}

// settle notes how a call ended.
func (s *Server) settle(n, status int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.requests[n].Status = status
	s.changed()
}

// Requests are all calls so far, in the order in which they came.
func (s *Server) Requests() []Request {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]Request(nil), s.requests...)
}

// RequestsTo are the calls of one operation, such as POST
// /channels/{channel_id}/messages.
func (s *Server) RequestsTo(method, route string) []Request {
	var found []Request
	for _, r := range s.Requests() {
		if r.Method == method && r.Route == route {
			found = append(found, r)
		}
	}
	return found
}

// AwaitRequests blocks until an operation was called and answered n times.
func (s *Server) AwaitRequests(ctx context.Context, n int, method, route string) ([]Request, error) {
	var found []Request
	err := s.Until(ctx, func() bool {
		found = found[:0]
		for _, r := range s.RequestsTo(method, route) {
			if r.Status != 0 {
				found = append(found, r)
			}
		}
		return len(found) >= n
	})
	if err != nil {
		return found, fmt.Errorf("%d of %d calls of %s %s: %w", len(found), n, method, route, err)
	}
	return found, nil
}
