package main

import (
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
)

// TestTroubleNeverDoublesOrSwallowsANudge lets each kind of trouble meet a nudge.
func TestTroubleNeverDoublesOrSwallowsANudge(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	for _, trouble := range []struct {
		name  string
		fault discordtest.Fault
		later time.Duration // until the next minute that is looked at; 0: none is needed
	}{
		{"429, short", discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: time.Second}, 0},
		{"429 for all", discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: time.Second, Scope: "global"}, 0},
		{"429 from the edge", discordtest.Fault{Kind: discordtest.TooMany, HTML: true, RetryAfter: time.Second}, 0},
		{"500", discordtest.Fault{Kind: discordtest.RefuseBefore}, 0},
		{"503, three times", discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: 3}, 0},
		{"503, for ever", discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1}, time.Hour},
		{"502 after the work", discordtest.Fault{Kind: discordtest.RefuseAfter, Status: 502}, 0},
		{"502 after the work, for ever", discordtest.Fault{Kind: discordtest.RefuseAfter, Status: 502, Times: -1}, time.Hour},
		{"cut before the work", discordtest.Fault{Kind: discordtest.CutBefore}, 0},
		{"cut after the work", discordtest.Fault{Kind: discordtest.CutAfter}, 0},
		{"half an answer", discordtest.Fault{Kind: discordtest.CutBody}, 0},
	} {
		s.toNextDue()
		before := s.settled()
		trouble.fault.Method, trouble.fault.Route = "POST", postRoute
		armed := s.srv.Fail(trouble.fault)
		s.minute()
		if armed.Hits() == 0 {
			t.Errorf("%s: met nothing", trouble.name)
		}
		armed.Off()
		if trouble.later > 0 {
			if len(s.open()) == 0 {
				t.Errorf("%s: nothing was left to be done", trouble.name)
			}
			s.srv.Advance(trouble.later)
			s.minute()
		}
		if after := s.settled(); after <= before || t.Failed() {
			t.Fatalf("%s: %d posts were sent before and %d after", trouble.name, before, after)
		}
	}
	t.Logf("%d posts sent", s.settled())
}

// TestPlatformDownForAWhile lets nudges fall due while nothing can be reached.
func TestPlatformDownForAWhile(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	s.toNextDue()
	s.srv.Gateway().Refuse(true)
	down := s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1})
	s.srv.Gateway().Drop()
	s.until(func() bool { return s.srv.Gateway().Stats().Ready == 0 })
	s.err.await(t, 1, "gateway connection ended")
	for range 3 * 60 {
		s.minute()
		s.srv.Advance(time.Minute)
	}
	if posts, facts := s.rows(); len(posts) > 0 || len(facts) > 1 {
		t.Errorf("something was decided while nothing could be said: %v %v", posts, facts)
	}
	down.Off()
	s.srv.Gateway().Refuse(false)
	s.err.await(t, 2, "gateway connected")
	s.minute()
	if sent := s.settled(); sent != 1 {
		t.Errorf("%d posts were sent after the platform came back", sent)
	}
}

// TestClosedDoorsAreNotKnockedAtForEver takes away what a nudge needs.
func TestClosedDoorsAreNotKnockedAtForEver(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	s.srv.User("ana").CloseDirects(true)
	s.srv.Deny("announcements", discordtest.SendMessages)
	s.toNextDue()
	s.minute()
	if n := len(s.postsByMark()); n != 0 {
		t.Errorf("%d posts went through closed doors", n)
	}
	posts, _ := s.rows()
	for key, p := range posts {
		t.Logf("%s is %s: %s", key, p["state"], p["reason"])
	}
	s.srv.Deny("announcements", 0)
	for range 60 {
		s.minute()
		s.srv.Advance(time.Minute)
	}
	s.settled()
	if n := s.srv.InvalidRequests(); n > 10 {
		t.Errorf("%d refused requests in ten minutes", n)
	}
}
