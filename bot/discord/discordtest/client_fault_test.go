package discordtest

import (
	"slices"
	"testing"
	"time"
)

// nextFault waits for something that the second client could not do.
func (c *secondClient) nextFault(t *testing.T) told {
	t.Helper()
	limit := soon(t)
	for {
		select {
		case x, ok := <-c.tells:
			if !ok {
				t.Fatal("the second client ended")
			}
			if x["event"] == "failed" {
				return x
			}
		case <-limit.Done():
			t.Fatal("the second client does not fail")
		}
	}
}

// refusals: the library repeats by itself what the platform refuses for a moment,
// and the nonce makes one message of it.
func (c *secondClient) refusals(t *testing.T) {
	const method, route = "POST", "/channels/{channel_id}/messages"
	ana := c.srv.User("ana")
	for name, fault := range map[string]Fault{
		"429":                {Kind: TooMany, RetryAfter: 20 * time.Millisecond},
		"429 for all":        {Kind: TooMany, RetryAfter: 20 * time.Millisecond, Scope: "global"},
		"502 after the work": {Kind: RefuseAfter},
		"503":                {Kind: RefuseBefore, Status: 503},
	} {
		c.srv.Advance(time.Hour) // the nonce of the last round is forgotten
		fault.Method, fault.Route = method, route
		armed := c.srv.Fail(fault)
		before := len(ana.Sees(chatter))
		ids, _ := c.says(t, ana, chatter, "once")["ids"].([]any)
		if len(ids) != 2 || ids[0] != ids[1] || armed.Hits() != 1 {
			t.Errorf("%s: posts %v, met %d", name, ids, armed.Hits())
		}
		if n := len(ana.Sees(chatter)) - before; n != 2 { // the word and the one post
			t.Errorf("%s: %d messages more, want 2", name, n)
		}
	}
}

// resumes: a cut, an order to reconnect and a lost session; what was said in the
// meantime is heard in the first two cases.
func (c *secondClient) resumes(t *testing.T) {
	ana, g := c.srv.User("ana"), c.srv.Gateway()
	began := g.Stats()
	g.Drop()
	if _, err := ana.Say(chatter, "into the gap"); err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "heard", "content": "into the gap", "by": "ana", "direct": false})
	if x := c.next(t, "resumed"); x["replayed"] == 0.0 {
		t.Errorf("told %v, want something replayed", x)
	}
	g.Reconnect()
	c.next(t, "resumed")
	s := g.Stats()
	if s.Identifies != began.Identifies || s.Resumed != began.Resumed+2 || s.AtResumeURL != began.AtResumeURL+2 {
		t.Errorf("after a cut and op 7: %+v, before %+v", s, began)
	}
	g.Invalidate(false)
	c.next(t, "identified")
	if s := g.Stats(); s.Identifies != began.Identifies+1 {
		t.Errorf("after op 9: %+v, before %+v", s, began)
	}
	if m, err := ana.Command(chatter, "week").AwaitMessage(soon(t)); err != nil || m.Content != "Week 1, all lifts" {
		t.Errorf("%+v, %v", m, err)
	}
}

// thrownOut: a code after which no client may come back.
func (c *secondClient) thrownOut(t *testing.T) {
	before := c.srv.Gateway().Stats().Connections
	c.srv.Gateway().CloseWith(4004)
	c.await(t, told{"event": "disconnected", "code": 4004.0})
	if n := c.srv.Gateway().Stats().Connections; n != before {
		t.Errorf("%d connections, want %d", n, before)
	}
}

// limits: the library reads the headers of the bucket, so that it is never told
// 429 although it wants to post faster.
func (c *secondClient) limits(t *testing.T) {
	ana := c.srv.User("ana")
	ids, _ := c.says(t, ana, chatter, "many")["ids"].([]any)
	if len(ids) != 5 {
		t.Errorf("posted %v", ids)
	}
	var posts []Request
	for _, r := range c.srv.RequestsTo("POST", "/channels/{channel_id}/messages") {
		if r.Status == 429 {
			t.Errorf("429 at %v", r.At)
		}
		posts = append(posts, r)
	}
	if len(posts) == 5 && posts[4].At.Sub(posts[0].At) < 300*time.Millisecond {
		t.Errorf("five posts took %v, two in 200 ms are allowed", posts[4].At.Sub(posts[0].At))
	}
}

// silence: heartbeats without an answer make the library connect anew with a code
// that lets it resume.
func (c *secondClient) silence(t *testing.T) {
	g := c.srv.Gateway()
	before := g.Stats()
	g.MuteACKs(true)
	if err := c.srv.Until(soon(t), func() bool { return len(g.Stats().Closed) > len(before.Closed) }); err != nil {
		t.Fatal(err)
	}
	g.MuteACKs(false)
	c.next(t, "resumed")
	s := g.Stats()
	if s.Identifies != before.Identifies || s.Heartbeats == 0 {
		t.Errorf("%+v, before %+v", s, before)
	}
	if slices.Contains(s.Closed, 1000) || slices.Contains(s.Closed, 1001) {
		t.Errorf("the client closed with %v", s.Closed)
	}
}
