package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
)

// once runs minutes until the club's posts that are due stand, and fails unless each
// stands once and there are more of them than before.
func (s *serving) once(name string, before, minutes int) {
	s.t.Helper()
	for range minutes {
		s.minute()
		s.srv.Advance(time.Minute)
	}
	if after := s.settled(); after <= before {
		s.t.Errorf("%s: %d posts were sent before and %d after", name, before, after)
	}
}

// quiet starts serve as ready does, and waits until what it does unasked on arriving
// in its server is done: whoever moves the clock then is alone with it.
func (s *serving) quiet() {
	s.t.Helper()
	s.ready("--log-level", "DEBUG")
	s.looked(1)
}

// looked waits until serve has looked n times, of itself, at what is due.
func (s *serving) looked(n int) {
	s.t.Helper()
	s.err.await(s.t, n, "what is due was looked at")
}

// heard waits until serve knows all that happened on the platform so far: events
// reach it in their order, and this question is the last.
func (s *serving) heard() {
	s.t.Helper()
	path, opts := structured(s.t, "/block")
	if _, err := s.srv.User("ana").Command("#training-log", path, opts...).AwaitMessage(soon(s.t)); err != nil {
		s.t.Fatal(err)
	}
}

// A day without the platform costs the day, and nothing is told twice afterwards.
func TestPlatformDownForADay(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	s.toNextDue()
	before := s.settled()
	s.srv.Gateway().Refuse(true)
	down := s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1})
	s.srv.Gateway().Drop()
	s.err.await(t, 1, "gateway connection ended")
	for range 24 * 6 {
		s.minute()
		s.srv.Advance(10 * time.Minute)
	}
	down.Off()
	s.srv.Gateway().Refuse(false)
	s.err.await(t, 2, "gateway connected")
	s.minute()
	if lost := s.settled() - before; lost != 0 {
		t.Errorf("%d posts of a day that is over", lost)
	}
	if _, facts := s.rows(); len(facts) == 0 {
		t.Error("the ledger does not tell what was missed")
	}
	s.toNextDue()
	s.once("the next", before, 2)
}

// A platform that takes its time is waited for; another minute meanwhile makes no
// second post.
func TestSlowPlatformGetsOnePost(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	for _, kind := range []discordtest.Kind{discordtest.HoldBefore, discordtest.HoldAfter, discordtest.HoldBody} {
		s.toNextDue()
		before := s.settled()
		armed := s.srv.Fail(discordtest.Fault{Kind: kind, Method: "POST", Route: postRoute})
		ended := make(chan struct{}, 2)
		for range cap(ended) {
			go func() { s.minute(); ended <- struct{}{} }()
		}
		if err := armed.Await(soon(t), 1); err != nil {
			t.Fatal(err)
		}
		s.srv.Advance(20 * time.Second)
		armed.Release()
		for range cap(ended) {
			<-ended
		}
		s.once("slow", before, 1)
	}
}

// The platform may deliver a press twice; what it does is done once.
func TestDuplicateEventAnnouncesOnce(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	path, opts := structured(t, `/club announce text:"The gym is closed on Friday"`)
	m, err := s.srv.User("cap").Command("#training-log", path, opts...).AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	press := s.srv.User("cap").Press(m.ID, "Post it")
	for range 3 {
		press.Repeat()
	}
	if _, err := press.AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	stands := func() (n int) {
		for _, m := range s.srv.User("ana").Sees("#announcements") {
			if strings.Contains(m.Content+fmt.Sprint(m.Embeds), "closed on Friday") {
				n++
			}
		}
		return n
	}
	s.until(func() bool { return stands() > 0 })
	s.once("announced", 0, 3)
	if n := stands(); n != 1 {
		t.Errorf("announced %d times", n)
	}
}

// Without its channel a post waits; in a new one of the same name it is told once.
func TestDeletedChannelIsWaitedFor(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	s.toNextPublic()
	before := len(s.postsByMark())
	s.srv.Guild().DeleteChannel("announcements")
	for range 10 {
		s.minute()
		s.srv.Advance(time.Minute)
	}
	if len(s.open()) == 0 {
		t.Error("nothing waits for the channel")
	}
	s.srv.Guild().AddChannel("announcements")
	s.heard()
	s.srv.Advance(time.Hour)
	s.once("a new channel", before, 2)
}

// toNextPublic goes to the next moment at which something is due that is not sent
// to one person; what is due before is posted.
func (s *serving) toNextPublic() {
	s.t.Helper()
	for range 60 {
		s.toNextDue()
		hold := s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Method: "POST", Route: postRoute, Times: -1})
		s.minute()
		hold.Off()
		posts, _ := s.rows()
		for _, p := range posts {
			if p["state"] == "planned" && p["channel"] == "#announcements" {
				return
			}
		}
		s.srv.Advance(2 * time.Hour)
		s.minute()
	}
	s.t.Fatal("nothing public falls due")
}

// A bot that was thrown out and is let in again tells what fell due once.
func TestBotThatIsBackTellsOnce(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	s.toNextDue()
	before := s.settled()
	s.srv.Guild().RemoveBot()
	s.err.await(t, 1, threwOut)
	for range 10 {
		s.minute()
		s.srv.Advance(time.Minute)
	}
	s.srv.Guild().LetIn()
	s.err.await(t, 2, isBack)
	s.looked(2)
	s.srv.Advance(time.Hour)
	s.once("let in again", before, 2)
}

// A clock that is put back or runs ahead and is put right makes nothing come twice,
// not even what is in doubt when it jumps.
func TestClockThatJumpsTellsOnce(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.quiet()
	for _, jump := range []time.Duration{-3 * time.Hour, 3 * time.Hour, -48 * time.Hour, 48 * time.Hour} {
		s.toNextDue()
		before := s.settled()
		lost := s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseAfter, Method: "POST", Route: postRoute, Times: -1})
		s.minute() // posted, and nobody knows
		lost.Off()
		s.srv.Advance(jump)
		s.minute()
		s.srv.Advance(-jump + time.Hour)
		s.once(jump.String(), before, 2)
	}
}

// Two processes with copies of one database, which no lock keeps apart, still make
// one message: it is the same key on the platform.
func TestTwoProcessesByMistakeTellOnce(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	twin := &serving{t: t, srv: s.srv, db: filepath.Join(t.TempDir(), "copy.db"), tokens: s.tokens}
	if status, _, errs := run(t, "", "backup", "--db", s.db, "--to", twin.db); status != statusOK {
		t.Fatal(errs)
	}
	s.quiet()
	twin.quiet()
	for range 3 {
		s.toNextDue()
		before := s.settled()
		ended := make(chan struct{})
		go func() { twin.minute(); close(ended) }()
		s.minute()
		<-ended
		s.once("the first", before, 1)
		twin.once("its twin", before, 1)
	}
}
