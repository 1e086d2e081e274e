package discordtest

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"time"
)

// Limit allows Calls in a window of Per, by the simulated clock.
type Limit struct {
	Calls int
	Per   time.Duration
}

// The invalid requests that the platform bears from one address: source
// topics/rate-limits, "Invalid Request Limit".
const (
	maxInvalid    = 10000
	invalidWindow = 10 * time.Minute
)

// limiter counts calls by bucket: the route and its top-level id. Without a
// limit of its own a route has one so wide that it never bites, because a
// simulated clock that stands still would never open the bucket again.
type limiter struct {
	byRoute map[string]Limit
	global  Limit
	buckets map[string]*bucket
	invalid []time.Time
}

type bucket struct {
	began time.Time
	used  int
}

func (l *limiter) init() {
	l.byRoute = map[string]Limit{}
	l.buckets = map[string]*bucket{}
}

// LimitRoute sets the rate limit of one operation; each channel, guild or
// webhook has its own bucket.
func (s *Server) LimitRoute(method, route string, l Limit) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.limits.byRoute[method+" "+route] = l
}

// LimitGlobally sets the limit of all calls together, 50 a second on the
// platform. Calls that carry an interaction's token do not count.
func (s *Server) LimitGlobally(l Limit) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.limits.global = l
}

// InvalidRequests counts the answers 401, 403 and 429 (without the shared ones)
// of the last ten minutes. At 10,000 the address is banned.
func (s *Server) InvalidRequests() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.limits.forget(s.Now())
	return len(s.limits.invalid)
}

func (l *limiter) forget(now time.Time) {
	for len(l.invalid) > 0 && now.Sub(l.invalid[0]) >= invalidWindow {
		l.invalid = l.invalid[1:]
	}
}

// countInvalid notes an answer that counts as an invalid request. The lock is
// held.
func (s *Server) countInvalid(a answer, scope string) answer {
	if a.status != 401 && a.status != 403 && a.status != 429 || scope == "shared" {
		return a
	}
	s.limits.forget(s.Now())
	s.limits.invalid = append(s.limits.invalid, s.Now())
	return a
}

// take counts one call. It returns a refusal, or the headers of the bucket.
func (l *limiter) take(s *Server, c *call) (*answer, map[string]string) {
	now := s.Now()
	if l.forget(now); len(l.invalid) >= maxInvalid {
		banned := answer{status: 429, body: "<html><body>error code: 1015</body></html>", header: map[string]string{"Retry-After": "600"}}
		return &banned, nil
	}
	if l.global.Calls > 0 && !c.route.open {
		if b := l.bucket("global", l.global, now); b.used > l.global.Calls {
			a := tooMany(l.global.Per-now.Sub(b.began), "global")
			return &a, nil
		}
	}
	limit, ok := l.byRoute[c.route.method+" "+c.route.path]
	if !ok {
		limit = Limit{Calls: 1000, Per: time.Second}
	}
	b := l.bucket(c.bucketKey(), limit, now)
	if b.used > limit.Calls && ok {
		a := tooMany(limit.Per-now.Sub(b.began), "user")
		l.headers(a.header, c, limit, b, now)
		return &a, nil
	}
	h := map[string]string{}
	l.headers(h, c, limit, b, now)
	return nil, h
}

// bucket finds a bucket, empties it when its window is over, and counts a call.
func (l *limiter) bucket(key string, limit Limit, now time.Time) *bucket {
	b := l.buckets[key]
	if b == nil || now.Sub(b.began) >= limit.Per {
		b = &bucket{began: now}
		l.buckets[key] = b
	}
	b.used++
	return b
}

func (l *limiter) headers(h map[string]string, c *call, limit Limit, b *bucket, now time.Time) {
	reset := b.began.Add(limit.Per)
	hash := fnv.New64a()
	_, _ = hash.Write([]byte(c.route.method + c.route.path))
	h["X-RateLimit-Bucket"] = fmt.Sprintf("%016x", hash.Sum64())
	h["X-RateLimit-Limit"] = strconv.Itoa(limit.Calls)
	h["X-RateLimit-Remaining"] = strconv.Itoa(max(limit.Calls-b.used, 0))
	if _, set := l.byRoute[c.route.method+" "+c.route.path]; !set {
		h["X-RateLimit-Remaining"] = strconv.Itoa(limit.Calls - 1)
	}
	h["X-RateLimit-Reset"] = fmt.Sprintf("%.3f", float64(reset.UnixMilli())/1000)
	h["X-RateLimit-Reset-After"] = fmt.Sprintf("%.3f", reset.Sub(now).Seconds())
}

// bucketKey joins the route with its top-level ids.
func (c *call) bucketKey() string {
	key := c.route.method + " " + c.route.path
	for _, name := range []string{"channel_id", "guild_id", "webhook_id", "webhook_token", "interaction_token"} {
		key += " " + c.params[name]
	}
	return key
}

// tooMany is the answer 429 with its headers.
func tooMany(wait time.Duration, scope string) answer {
	h := map[string]string{
		"Retry-After":             seconds(wait),
		"X-RateLimit-Scope":       scope,
		"X-RateLimit-Reset-After": fmt.Sprintf("%.3f", wait.Seconds()),
	}
	if scope == "global" {
		h["X-RateLimit-Global"] = "true"
	}
	return answer{status: 429, header: h, body: object{
		"message": "You are being rate limited.", "retry_after": wait.Seconds(), "global": scope == "global",
	}}
}
