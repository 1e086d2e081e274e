package discord_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

// answering makes sure that the bot still answers commands.
func (p *play) answering() {
	p.t.Helper()
	p.says(quick("Still here.", true))
	m, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(p.t))
	if err != nil || m.Content != "Still here." {
		p.t.Fatalf("no answer: %v %v\n%s", m, err, p.log)
	}
}

// signedIn wants a number of IDENTIFYs, and that the bot never said goodbye: that
// would have made its session invalid.
func (p *play) signedIn(want int) {
	p.t.Helper()
	s := p.srv.Gateway().Stats()
	if s.Identifies != want {
		p.t.Errorf("the bot signed in %d times, want %d", s.Identifies, want)
	}
	if slices.Contains(s.Closed, 1000) || slices.Contains(s.Closed, 1001) {
		p.t.Errorf("the bot closed with %v: the session cannot be resumed", s.Closed)
	}
}

// fast makes the platform send heartbeats often, so that silence shows soon.
func fast(s *setup) { s.options.Heartbeat = 800 * time.Millisecond }

// TestConnectionIsRegained holds each fault of the gateway against what the bot
// has to do about it.
func TestConnectionIsRegained(t *testing.T) {
	tests := []struct {
		name    string
		greet   []discordtest.Greeting // what the first connections meet
		fault   func(*discordtest.Gateway)
		beats   bool // needs fast heartbeats
		ready   int  // sessions begun or resumed in all
		signIns int
	}{
		{name: "TCP drop", fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 1},
		{name: "op 7 live", fault: (*discordtest.Gateway).Reconnect, ready: 2, signIns: 1},
		{name: "op 7 in place of HELLO", greet: []discordtest.Greeting{discordtest.ReconnectForHello}, ready: 1, signIns: 1},
		{name: "op 7 in place of READY", greet: []discordtest.Greeting{discordtest.ReconnectForReady}, ready: 2, signIns: 2},
		{name: "op 7 in place of RESUMED", greet: []discordtest.Greeting{discordtest.GreetNormally, discordtest.ReconnectForReady},
			fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 1},
		{name: "op 7 in place of HELLO while resuming", greet: []discordtest.Greeting{discordtest.GreetNormally, discordtest.ReconnectForHello},
			fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 1},
		{name: "op 9 false live", fault: func(g *discordtest.Gateway) { g.Invalidate(false) }, ready: 2, signIns: 2},
		{name: "op 9 true live", fault: func(g *discordtest.Gateway) { g.Invalidate(true) }, ready: 2, signIns: 1},
		{name: "op 9 false on resume", greet: []discordtest.Greeting{discordtest.GreetNormally, discordtest.InvalidForReady},
			fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 2},
		{name: "op 9 true on resume", greet: []discordtest.Greeting{discordtest.GreetNormally, discordtest.ResumableForReady},
			fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 1},
		{name: "cut in place of HELLO", greet: []discordtest.Greeting{discordtest.CutForHello}, ready: 1, signIns: 1},
		{name: "cut in place of RESUMED", greet: []discordtest.Greeting{discordtest.GreetNormally, discordtest.CutForReady},
			fault: (*discordtest.Gateway).Drop, ready: 2, signIns: 1},
		{name: "ACKs muted", fault: func(g *discordtest.Gateway) { g.MuteACKs(true) }, beats: true, ready: 2, signIns: 1},
		{name: "half open", fault: (*discordtest.Gateway).Freeze, beats: true, ready: 2, signIns: 1},
		{name: "half a frame", fault: (*discordtest.Gateway).HalfFrame, beats: true, ready: 2, signIns: 1},
		{name: "half open for a moment", fault: func(g *discordtest.Gateway) { g.Freeze(); g.Thaw() }, ready: 1, signIns: 1},
		{name: "close 4000 in place of HELLO", greet: []discordtest.Greeting{discordtest.CloseForHello(4000)}, ready: 1, signIns: 1},
		{name: "op 9 true in place of READY", greet: []discordtest.Greeting{discordtest.ResumableForReady}, ready: 2, signIns: 2},
		{name: "op 9 false in place of READY", greet: []discordtest.Greeting{discordtest.InvalidForReady}, ready: 2, signIns: 2},
		{name: "no HELLO", greet: []discordtest.Greeting{discordtest.NoHello}, ready: 1, signIns: 1},
		{name: "no READY", greet: []discordtest.Greeting{discordtest.NoReady}, ready: 2, signIns: 2},
		{name: "close 4000", fault: func(g *discordtest.Gateway) { g.CloseWith(4000) }, ready: 2, signIns: 1},
		{name: "close 4008", fault: func(g *discordtest.Gateway) { g.CloseWith(4008) }, ready: 2, signIns: 1},
		{name: "close 4007", fault: func(g *discordtest.Gateway) { g.CloseWith(4007) }, ready: 2, signIns: 2},
		{name: "close 4009", fault: func(g *discordtest.Gateway) { g.CloseWith(4009) }, ready: 2, signIns: 2},
		{name: "close 1000 from the server", fault: func(g *discordtest.Gateway) { g.CloseWith(1000) }, ready: 2, signIns: 2},
		{name: "half a packet", fault: func(g *discordtest.Gateway) { g.SendRaw(`{"op":0,"t":"MESS`) }, ready: 1, signIns: 1},
		{name: "op 1 request", fault: (*discordtest.Gateway).AskHeartbeat, ready: 1, signIns: 1},
		{name: "unknown event", fault: func(g *discordtest.Gateway) { g.Dispatch("SOMETHING_NEW", map[string]any{"id": "1"}) }, ready: 1, signIns: 1},
		{name: "unknown operation", fault: func(g *discordtest.Gateway) { g.Send(31, nil) }, ready: 1, signIns: 1},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p := prepare(t, withTable, func(s *setup) {
				s.conf.Timing.Open = 1500 * time.Millisecond
				if c.beats {
					fast(s)
				}
			})
			p.srv.Gateway().Greet(c.greet...)
			p.run()
			p.until(func() bool { return p.srv.Gateway().Stats().Ready == 1 && p.a.Connected() })
			p.registered()
			if c.fault != nil {
				before := p.srv.Gateway().Stats().Connections
				c.fault(p.srv.Gateway())
				if c.ready > 1 {
					p.until(func() bool { return p.srv.Gateway().Stats().Connections > before })
					p.srv.Gateway().MuteACKs(false)
				}
			}
			p.ready(c.ready)
			p.answering()
			p.signedIn(c.signIns)
		})
	}
}

func TestSessionIsResumedWhereThePlatformSays(t *testing.T) {
	p := start(t)
	p.srv.Gateway().Drop()
	p.ready(2)
	if s := p.srv.Gateway().Stats(); s.AtResumeURL != 1 {
		t.Errorf("%+v", s)
	}
}

func TestEventsOfAnOutageAreReplayed(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.srv.Gateway().Refuse(true)
	p.srv.Gateway().Drop()
	p.until(func() bool { return p.srv.Gateway().Stats().Ready == 0 })
	p.says(quick("Late but here.", true))
	act := p.srv.User("ana").Command("#training-log", "block")
	p.srv.Gateway().Refuse(false)
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Late but here." {
		t.Errorf("%v %v", m, err)
	}
	p.signedIn(1)
}

func TestFatalCloseCodesEndTheProgram(t *testing.T) {
	for code, words := range map[int]string{
		4004: "Reset Token", 4010: "shard", 4011: "too many servers", 4012: "newer release", 4013: "newer release", 4014: "Message Content Intent",
	} {
		for _, live := range []bool{false, true} {
			t.Run(map[bool]string{false: "first ", true: "live "}[live]+words, func(t *testing.T) {
				p := prepare(t)
				if !live {
					p.srv.Gateway().Greet(discordtest.CloseForReady(code))
				}
				p.run()
				if live {
					p.ready(1)
					p.srv.Gateway().CloseWith(code)
				}
				err := p.end()
				var fatal *discord.FatalError
				if !errors.As(err, &fatal) || fatal.Code != code || !strings.Contains(err.Error(), words) {
					t.Errorf("Run returned %v, want a fatal error with code %d that speaks of %q", err, code, words)
				}
				if n := p.srv.Gateway().Stats().Connections; n != 1 {
					t.Errorf("the bot connected %d times", n)
				}
			})
		}
	}
}

func TestStopDuringAnOutageStaysStopped(t *testing.T) {
	p := start(t)
	p.srv.Gateway().Refuse(true)
	p.srv.Gateway().Drop()
	p.log.await(t, "gateway connection ended")
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	p.srv.Gateway().Refuse(false)
	before := p.srv.Gateway().Stats().Connections
	if s := p.srv.Gateway().Stats(); s.Ready != 0 || s.Connections != before {
		t.Errorf("the bot came back: %+v", s)
	}
}

func TestStopSaysGoodbye(t *testing.T) {
	p := start(t)
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	p.until(func() bool { return slices.Contains(p.srv.Gateway().Stats().Closed, 1000) })
}

func TestStopFinishesWhatIsUnderWay(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	begun, proceed := make(chan struct{}), make(chan struct{})
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) {
		close(begun)
		<-proceed
		return quick("Done in time.", true), nil
	})
	act := p.srv.User("ana").Command("#training-log", "block")
	<-begun
	p.stop()
	p.until(func() bool { return p.srv.Gateway().Stats().Ready == 0 })
	close(proceed)
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Done in time." {
		t.Errorf("%v %v", m, err)
	}
	if err := p.end(); err != nil {
		t.Error(err)
	}
}

func TestStopGivesUpWhatDoesNotEnd(t *testing.T) {
	p := start(t, withTable, func(s *setup) { s.conf.Timing.Drain = 200 * time.Millisecond })
	p.registered()
	begun := make(chan struct{})
	p.answers(func(ctx context.Context, _ chat.Event) (chat.Reply, error) {
		close(begun)
		<-ctx.Done() // a handler that only the end of its context ends
		return chat.Reply{}, ctx.Err()
	})
	p.srv.User("ana").Command("#training-log", "block")
	<-begun
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	if !strings.Contains(p.log.String(), "the time to stop ran out") {
		t.Error("nothing was said about the event that was given up")
	}
}

// shelf keeps sign-ins as a file would.
type shelf struct {
	at   []time.Time
	fail error
}

func (s *shelf) Load(context.Context) ([]time.Time, error)    { return s.at, s.fail }
func (s *shelf) Save(_ context.Context, at []time.Time) error { s.at = at; return s.fail }

func TestSignInsAreBudgeted(t *testing.T) {
	used := &shelf{}
	p := prepare(t, func(s *setup) { s.conf.SignIns = used })
	now := p.srv.Now()
	for range 250 {
		used.at = append(used.at, now.Add(-23*time.Hour))
	}
	p.run()
	var fatal *discord.FatalError
	if err := p.end(); !errors.As(err, &fatal) || !strings.Contains(err.Error(), "250 times") {
		t.Errorf("Run returned %v, want a fatal error about the budget", err)
	}
	if n := p.srv.Gateway().Stats().Identifies; n != 0 {
		t.Errorf("the bot signed in %d times all the same", n)
	}
}

func TestOldSignInsDoNotCount(t *testing.T) {
	used := &shelf{}
	p := prepare(t, func(s *setup) { s.conf.SignIns = used })
	for range 250 {
		used.at = append(used.at, p.srv.Now().Add(-25*time.Hour))
	}
	p.run()
	p.ready(1)
	p.stop()
	_ = p.end()
	if len(used.at) != 1 || !used.at[0].Equal(p.srv.Now()) {
		t.Errorf("kept %v, want the one sign-in of now", used.at)
	}
}

func TestUnreadableBudgetIsTriedAgainWithoutSigningIn(t *testing.T) {
	used := &shelf{fail: errors.New("disk on fire")}
	p := prepare(t, func(s *setup) { s.conf.SignIns = used })
	p.run()
	p.until(func() bool { return p.srv.Gateway().Stats().Connections >= 2 })
	if n := p.srv.Gateway().Stats().Identifies; n != 0 {
		t.Errorf("the bot signed in %d times", n)
	}
}

func TestSeveralServersNeedAName(t *testing.T) {
	p := prepare(t)
	p.srv.AddGuild("Hill Lifting Club")
	p.run()
	if err := p.end(); err == nil || !strings.Contains(err.Error(), "2 servers") {
		t.Errorf("Run returned %v", err)
	}
}

func TestRemovalIsTold(t *testing.T) {
	told, here := make(chan time.Time, 1), make(chan string, 4)
	p := start(t, func(s *setup) {
		s.conf.Removed = func(_ context.Context, at time.Time) { told <- at }
		s.conf.Present = func(_ context.Context, guild string) { here <- guild }
	})
	if got := <-here; got != p.srv.Guild().ID {
		t.Errorf("present in %s", got)
	}
	p.srv.Guild().Outage(true)
	p.srv.Guild().Outage(false)
	p.srv.Guild().RemoveBot()
	select {
	case at := <-told:
		if !at.Equal(p.srv.Now()) {
			t.Errorf("told %v", at)
		}
	case <-soon(t).Done():
		t.Error("nobody was told")
	}
	if len(told) != 0 {
		t.Error("an outage counts as a removal")
	}
}
