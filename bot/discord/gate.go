package discord

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

const (
	// globalRate is what may be sent in a second over all routes. The platform
	// allows 50 (topics/rate-limits); the rest is left for other processes of the
	// same bot, such as a check by hand.
	globalRate = 40
	// invalidLimit and invalidWindow stop a bot that is refused again and again:
	// 10,000 refusals in ten minutes get its address banned.
	invalidLimit  = 1000
	invalidWindow = 10 * time.Minute
)

// gates hold requests back until the platform wants them. They learn from the
// answers and know nothing of the clock: a gate that closes opens by a timer.
type gates struct {
	after   func(time.Duration, func()) // sets that timer
	waiting func(time.Duration)         // hears that a request has to wait, at most so long

	mu       sync.Mutex
	routes   map[string]*gate // only routes with a limit that has not yet passed
	second   *gate            // the global rate
	refused  *gate            // refusals in the current window
	everyone *gate            // a global limit told by the platform
}

// gate lets a number of requests through until it is renewed.
type gate struct {
	left    int
	renewed chan struct{} // closed then
	wait    time.Duration // from the moment the gate was set
}

func newGates() *gates {
	return &gates{
		after: func(d time.Duration, open func()) { time.AfterFunc(d, open) }, waiting: func(time.Duration) {},
		routes: map[string]*gate{},
	}
}

// by lets the gates open by another clock, where one is given.
func (g *gates) by(t Timing) *gates {
	if t.After != nil {
		g.after = t.After
	}
	if t.Waiting != nil {
		g.waiting = t.Waiting
	}
	return g
}

// enter waits until a request on the route may be sent, and counts it. It returns
// how long the gate that stood in the way was set for when the context ends first,
// or at once where that is longer than anybody waits: other routes are open.
func (g *gates) enter(ctx context.Context, route string, counted bool) (time.Duration, error) {
	for {
		closed := g.try(route, counted)
		if closed == nil {
			return 0, ctx.Err()
		}
		if closed.wait > longestWait {
			return closed.wait, errClosed
		}
		g.waiting(closed.wait)
		select {
		case <-closed.renewed:
		case <-ctx.Done():
			return closed.wait, ctx.Err()
		}
	}
}

// errClosed says that a gate is closed for long.
var errClosed = errors.New("closed for long")

// try takes a place on every gate concerned, or none and returns a closed one.
func (g *gates) try(route string, counted bool) *gate {
	g.mu.Lock()
	defer g.mu.Unlock()
	passing := []*gate{g.routes[route], g.refused}
	if counted {
		if g.second == nil {
			g.put(&g.second, globalRate, time.Second)
		}
		passing = append(passing, g.everyone, g.second)
	}
	for _, p := range passing {
		if p != nil && p.left <= 0 {
			return p
		}
	}
	for _, p := range passing {
		if p != nil && p != g.refused {
			p.left--
		}
	}
	return nil
}

// put sets a gate in its place until its time is over. The lock is held.
func (g *gates) put(place **gate, left int, wait time.Duration) {
	var made *gate
	made = g.set(left, wait, func() {
		if *place == made {
			*place = nil
		}
	})
	*place = made
}

// set makes a gate and forgets it when its time is over. The lock is held.
func (g *gates) set(left int, wait time.Duration, forget func()) *gate {
	made := &gate{left: left, renewed: make(chan struct{}), wait: wait}
	g.after(wait, func() {
		g.mu.Lock()
		defer g.mu.Unlock()
		forget()
		close(made.renewed)
	})
	return made
}

// learn reads an answer's headers. retry is the wait that a refusal names.
func (g *gates) learn(route string, status int, h http.Header, retry time.Duration, global bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if status == http.StatusTooManyRequests && retry > 0 {
		if global {
			g.put(&g.everyone, 0, retry)
		} else {
			g.setRoute(route, 0, retry)
		}
	} else if left, err := strconv.Atoi(h.Get("X-RateLimit-Remaining")); err == nil {
		if after := seconds(h.Get("X-RateLimit-Reset-After")); after > 0 {
			g.heard(route, left, after)
		}
	}
	if status == http.StatusUnauthorized || status == http.StatusForbidden ||
		status == http.StatusTooManyRequests && h.Get("X-RateLimit-Scope") != "shared" {
		g.countRefusal()
	}
}

// heard keeps the smaller number of places while answers overtake each other.
func (g *gates) heard(route string, left int, after time.Duration) {
	if old := g.routes[route]; old != nil {
		old.left = min(old.left, left)
		return
	}
	g.setRoute(route, left, after)
}

func (g *gates) setRoute(route string, left int, wait time.Duration) {
	var made *gate
	made = g.set(left, wait, func() {
		if g.routes[route] == made {
			delete(g.routes, route)
		}
	})
	g.routes[route] = made
}

func (g *gates) countRefusal() {
	if g.refused == nil {
		g.put(&g.refused, invalidLimit, invalidWindow)
	}
	g.refused.left--
}

// seconds reads a number of seconds from a header.
func seconds(text string) time.Duration {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || f < 0 || f > 1e6 {
		return 0
	}
	return time.Duration(f * float64(time.Second))
}

// routeOf is the part of a request that shares one limit: the method and the path
// without its smaller numbers. Channels, servers and interaction tokens have limits
// of their own.
func routeOf(method, path string) string {
	path, _, _ = strings.Cut(path, "?")
	parts := strings.Split(strings.Trim(path, "/"), "/")
	for i := 2; i < len(parts); i++ {
		if parts[0] == "webhooks" && i == 2 || parts[0] == "interactions" && i == 2 {
			continue
		}
		if isID(parts[i]) {
			parts[i] = "*"
		}
		if parts[i-1] == "reactions" {
			parts[i] = "*"
		}
	}
	return method + " " + strings.Join(parts, "/")
}
