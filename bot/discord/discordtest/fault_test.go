package discordtest

import (
	"strings"
	"testing"
	"time"
)

// posts counts what really stands in the channel.
func posts(srv *Server) int { return len(srv.User("ana").Sees("#training-log")) }

func TestFaultsBeforeAndAfterTheWork(t *testing.T) {
	const route = "/channels/{channel_id}/messages"
	for name, c := range map[string]struct {
		fault  Fault
		status int // 0: the connection broke
		code   int
		done   int // messages that exist afterwards
	}{
		"500":               {Fault{Kind: RefuseBefore}, 500, 0, 0},
		"503":               {Fault{Kind: RefuseBefore, Status: 503}, 503, 0, 0},
		"502 before":        {Fault{Kind: RefuseBefore, Status: 502}, 502, 0, 0},
		"502 after":         {Fault{Kind: RefuseAfter}, 502, 0, 1},
		"403 with a code":   {Fault{Kind: RefuseBefore, Status: 403, Code: 50013, Message: "Missing Permissions"}, 403, 50013, 0},
		"401":               {Fault{Kind: RefuseBefore, Status: 401}, 401, 0, 0},
		"cut before":        {Fault{Kind: CutBefore}, 0, 0, 0},
		"cut after":         {Fault{Kind: CutAfter}, 0, 0, 1},
		"429":               {Fault{Kind: TooMany}, 429, 0, 0},
		"another operation": {Fault{Kind: RefuseBefore, Method: "GET"}, 200, 0, 1},
		"another route":     {Fault{Kind: RefuseBefore, Route: "/users/@me"}, 200, 0, 1},
	} {
		t.Run(name, func(t *testing.T) {
			srv := New(t, Options{})
			if c.fault.Route == "" {
				c.fault.Route = route
			}
			armed := srv.Fail(c.fault)
			b := newBot(t, srv)
			path := "/channels/" + srv.Channel("#training-log") + "/messages"
			b.want(c.status, c.code, "POST", path, object{"content": "x"})
			if n := posts(srv); n != c.done {
				t.Errorf("%d messages exist, want %d", n, c.done)
			}
			if c.status == 200 {
				armed.Off()
				return
			}
			b.want(200, 0, "POST", path, object{"content": "x"})
			if armed.Hits() != 1 {
				t.Errorf("the fault met %d calls, want 1", armed.Hits())
			}
		})
	}
}

func TestFaultsSkipAndRepeat(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	srv.Fail(Fault{Kind: RefuseBefore, Status: 503, Skip: 1, Times: 2})
	for _, status := range []int{200, 503, 503, 200} {
		b.want(status, 0, "GET", "/users/@me", nil)
	}
	always := srv.Fail(Fault{Kind: RefuseBefore, Status: 500, Times: -1})
	for range 3 {
		b.want(500, 0, "GET", "/users/@me", nil)
	}
	always.Off()
	b.want(200, 0, "GET", "/users/@me", nil)
}

func TestASlowAnswerIsHeldBehindAGate(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	srv.User("ana").Command("#training-log", "block")
	callback, _ := b.asked()
	held := srv.Fail(Fault{Kind: HoldBefore, Route: "/interactions/{interaction_id}/{interaction_token}/callback"})
	status := make(chan int)
	go func() {
		s, _ := b.do("POST", callback, object{"type": 4, "data": object{"content": "x"}})
		status <- s
	}()
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	srv.Advance(4 * time.Second)
	held.Release()
	if s := <-status; s != 404 {
		t.Errorf("the answer that came too late got %d, want 404", s)
	}
	after := srv.Fail(Fault{Kind: HoldAfter, Method: "POST"})
	go func() {
		s, _ := b.do("POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"content": "done"})
		status <- s
	}()
	if _, err := srv.User("ana").AwaitMessage(soon(t), "#training-log", func(m Message) bool { return m.Content == "done" }); err != nil {
		t.Fatal(err)
	}
	select {
	case s := <-status:
		t.Errorf("the answer %d was not held", s)
	default:
	}
	after.Release()
	if s := <-status; s != 200 {
		t.Errorf("after the release: %d, want 200", s)
	}
}

func TestHalfAnAnswer(t *testing.T) {
	srv := New(t, Options{})
	srv.Fail(Fault{Kind: CutBody})
	status, raw := newBot(t, srv).raw("POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"content": "x"})
	if status != 200 || len(raw) == 0 || strings.HasSuffix(string(raw), "}") || posts(srv) != 1 {
		t.Errorf("%d %q and %d messages, want half an answer and one message", status, raw, posts(srv))
	}
}

func TestAnAnswerIsHeldForSimulatedTime(t *testing.T) {
	srv := New(t, Options{})
	held := srv.Fail(Fault{Kind: HoldBefore, Delay: 4 * time.Second})
	status := make(chan int)
	go func() {
		s, _ := newBot(t, srv).do("GET", "/users/@me", nil)
		status <- s
	}()
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	srv.Advance(3 * time.Second)
	select {
	case s := <-status:
		t.Errorf("answered with %d after 3 of 4 seconds", s)
	default:
	}
	srv.Advance(time.Second)
	if s := <-status; s != 200 {
		t.Errorf("%d, want 200", s)
	}
}

func TestASlowBody(t *testing.T) {
	srv := New(t, Options{})
	held := srv.Fail(Fault{Kind: HoldBody})
	body := make(chan string)
	go func() {
		_, raw := newBot(t, srv).raw("GET", "/users/@me", nil)
		body <- string(raw)
	}()
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	select {
	case raw := <-body:
		t.Errorf("%s was not held", raw)
	default:
	}
	held.Release()
	if raw := <-body; !strings.HasSuffix(raw, "}") {
		t.Errorf("after the release: %s", raw)
	}
}

func TestFourKindsOf429(t *testing.T) {
	for name, c := range map[string]struct {
		fault  Fault
		header map[string]string
		body   string
		counts int
	}{
		"route":  {Fault{RetryAfter: 1500 * time.Millisecond}, map[string]string{"Retry-After": "2", "X-Ratelimit-Scope": "user", "X-Ratelimit-Global": ""}, `"retry_after":1.5`, 1},
		"global": {Fault{Scope: "global"}, map[string]string{"X-Ratelimit-Scope": "global", "X-Ratelimit-Global": "true", "X-Ratelimit-Reset-After": "1.000"}, `"global":true`, 1},
		"bare":   {Fault{Scope: "global", NoReset: true}, map[string]string{"X-Ratelimit-Reset-After": ""}, `"global":true`, 1},
		"shared": {Fault{Scope: "shared"}, map[string]string{"X-Ratelimit-Scope": "shared"}, `"global":false`, 0},
		"page":   {Fault{HTML: true}, map[string]string{"Content-Type": "text/html", "X-Ratelimit-Scope": ""}, "<html>", 1},
	} {
		t.Run(name, func(t *testing.T) {
			srv := New(t, Options{})
			c.fault.Kind = TooMany
			srv.Fail(c.fault)
			status, raw, header := newBot(t, srv).full("GET", "/users/@me", nil)
			if status != 429 || !strings.Contains(string(raw), c.body) {
				t.Errorf("%d %s, want 429 and %s", status, raw, c.body)
			}
			for k, v := range c.header {
				if header.Get(k) != v {
					t.Errorf("%s is %q, want %q", k, header.Get(k), v)
				}
			}
			if n := srv.InvalidRequests(); n != c.counts {
				t.Errorf("%d invalid requests, want %d", n, c.counts)
			}
		})
	}
}

func TestBucketsFillAndEmpty(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	srv.LimitRoute("POST", "/channels/{channel_id}/messages", Limit{Calls: 2, Per: 5 * time.Second})
	one, two := "/channels/"+srv.Channel("#training-log")+"/messages", "/channels/"+srv.Channel("#announcements")+"/messages"
	_, _, header := b.full("POST", one, object{"content": "x"})
	if header.Get("X-Ratelimit-Remaining") != "1" || header.Get("X-Ratelimit-Limit") != "2" || header.Get("X-Ratelimit-Bucket") == "" {
		t.Errorf("headers %v", header)
	}
	b.want(200, 0, "POST", one, object{"content": "x"})
	srv.Advance(2 * time.Second)
	if o := b.want(429, 0, "POST", one, object{"content": "x"}); o["retry_after"] != 3.0 {
		t.Errorf("retry_after %v, want 3", o["retry_after"])
	}
	b.want(200, 0, "POST", two, object{"content": "x"}) // another channel, another bucket
	srv.Advance(3 * time.Second)
	b.want(200, 0, "POST", one, object{"content": "x"})
}

func TestTheGlobalLimit(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	srv.LimitGlobally(Limit{Calls: 2, Per: time.Second})
	srv.User("ana").Command("#training-log", "block")
	callback, _ := b.asked()
	b.want(200, 0, "GET", "/users/@me", nil)
	b.want(200, 0, "GET", "/users/@me", nil)
	if o := b.want(429, 0, "GET", "/users/@me", nil); o["global"] != true {
		t.Errorf("%v, want a global limit", o)
	}
	b.want(204, 0, "POST", callback, object{"type": 4, "data": object{"content": "x"}}) // does not count
	srv.Advance(time.Second)
	b.want(200, 0, "GET", "/users/@me", nil)
}

// 10,000 invalid requests in ten minutes: source topics/rate-limits.
func TestTooManyInvalidRequestsAreBanned(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	srv.mu.Lock()
	for range maxInvalid - 1 {
		srv.limits.invalid = append(srv.limits.invalid, srv.Now())
	}
	srv.mu.Unlock()
	b.token = "wrong"
	b.want(401, 0, "GET", "/users/@me", nil)
	b.token = ""
	if status, raw := b.raw("GET", "/users/@me", nil); status != 429 || !strings.Contains(string(raw), "1015") {
		t.Errorf("%d %s, want the ban's page", status, raw)
	}
	srv.Advance(10 * time.Minute)
	b.want(200, 0, "GET", "/users/@me", nil)
}
