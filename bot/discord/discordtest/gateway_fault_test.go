package discordtest

import (
	"testing"
	"time"
)

func TestGreetings(t *testing.T) {
	for name, c := range map[string]struct {
		greeting Greeting
		op       int // of the packet that comes in place, 0: none
		code     int // with which the connection ends, 0: it stands
		identify bool
	}{
		"op 7 for HELLO":       {ReconnectForHello, 7, 0, false},
		"cut for HELLO":        {CutForHello, 0, 1006, false},
		"4004 for HELLO":       {CloseForHello(4004), 0, 4004, false},
		"op 7 for READY":       {ReconnectForReady, 7, 0, true},
		"op 9 false for READY": {InvalidForReady, 9, 0, true},
		"op 9 true for READY":  {ResumableForReady, 9, 0, true},
		"cut for READY":        {CutForReady, 0, 1006, true},
		"4014 for READY":       {CloseForReady(4014), 0, 4014, true},
	} {
		t.Run(name, func(t *testing.T) {
			srv := New(t, Options{})
			srv.Gateway().Greet(c.greeting)
			b := newBot(t, srv)
			if c.identify {
				b.hello()
				b.identify(nil)
			} else {
				b.dial()
			}
			if c.op != 0 {
				if p := b.readLoose(); p != c.op {
					t.Errorf("op %d, want %d", p, c.op)
				}
			}
			if c.code != 0 {
				if code := b.closed(); code != c.code {
					t.Errorf("closed with %d, want %d", code, c.code)
				}
			}
			newBot(t, srv).ready() // the next connection is greeted normally
		})
	}
}

func TestSilentGreetings(t *testing.T) {
	srv := New(t, Options{})
	srv.Gateway().Greet(NoHello, NoReady)
	b := newBot(t, srv)
	b.dial()
	if err := srv.Until(soon(t), func() bool { return srv.Gateway().Stats().Connections == 1 }); err != nil {
		t.Fatal(err)
	}
	srv.Gateway().Send(1, nil)
	if p := b.read(); p.Op != 1 {
		t.Errorf("%v came before: want silence in place of HELLO", p)
	}
	b.hello()
	b.identify(nil)
	if err := srv.Until(soon(t), func() bool { return srv.Gateway().Stats().Identifies == 1 }); err != nil {
		t.Fatal(err)
	}
	srv.Gateway().Send(1, nil)
	if p := b.read(); p.Op != 1 || srv.Gateway().Stats().Ready != 0 {
		t.Errorf("%v came before: want silence in place of READY", p)
	}
}

func TestLiveOrders(t *testing.T) {
	srv := New(t, Options{})
	g := srv.Gateway()
	b := newBot(t, srv)
	id, seq := b.ready()
	g.Reconnect()
	if op := b.readLoose(); op != 7 {
		t.Errorf("op %d, want 7", op)
	}
	g.Invalidate(true)
	if op := b.readLoose(); op != 9 {
		t.Errorf("op %d, want 9", op)
	}
	b.identify(nil) // the session still lives on this connection
	if code := b.closed(); code != 4005 {
		t.Errorf("closed with %d, want 4005", code)
	}
	b.hello()
	b.resume(id, seq)
	b.until("RESUMED")
	g.Invalidate(false)
	if op := b.readLoose(); op != 9 {
		t.Errorf("op %d, want 9", op)
	}
	b.resume(id, seq)
	if op := b.readLoose(); op != 9 {
		t.Errorf("a dead session was resumed: op %d", op)
	}
	b.identify(nil)
	b.until("READY")
	g.CloseWith(4004)
	if code := b.closed(); code != 4004 {
		t.Errorf("closed with %d, want 4004", code)
	}
}

func TestEventsAreLostDoubledAndSwapped(t *testing.T) {
	srv, b := connected(t, Options{})
	ana, g := srv.User("ana"), srv.Gateway()
	say := func(text string) { _, _ = ana.Say("#training-log", text) }
	heard := func() (string, int) {
		p := b.until("MESSAGE_CREATE")
		return p.D["content"].(string), p.S
	}
	g.Duplicate(1)
	say("one")
	first, n := heard()
	if second, m := heard(); first != "one" || second != "one" || m != n+1 {
		t.Errorf("%q as %d, %q as %d: want one twice", first, n, second, m)
	}
	g.Lose(1)
	say("two")
	g.Swap(1)
	say("three")
	say("four")
	four, _ := heard()
	if three, _ := heard(); four != "four" || three != "three" {
		t.Errorf("%q, %q: want four before three, and two lost", four, three)
	}
}

func TestHalfOpenConnections(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	id, seq := b.ready()
	srv.Gateway().Freeze()
	b.send(1, seq)
	ana := srv.User("ana")
	_, _ = ana.Say("#training-log", "into the void")
	if n := srv.Gateway().Stats().Heartbeats; n != 0 {
		t.Errorf("%d heartbeats got through", n)
	}
	other := newBot(t, srv) // the bot notices and comes back on another connection
	other.hello()
	other.resume(id, seq)
	if p := other.until("MESSAGE_CREATE"); p.D["content"] != "into the void" {
		t.Errorf("replayed %v", p)
	}
}

func TestAnOutage(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	id, seq := b.ready()
	srv.Gateway().Refuse(true)
	srv.Gateway().Drop()
	b.closed()
	if _, resp, err := dialGateway(t, srv); err == nil || resp.StatusCode != 503 {
		t.Errorf("during the outage: %v %v", resp, err)
	}
	srv.Gateway().Refuse(false)
	b.hello()
	b.resume(id, seq)
	b.until("RESUMED")
	if err := srv.Gateway().AwaitReady(soon(t)); err != nil {
		t.Error(err)
	}
}

// 1000 identifies in 24 hours, then the token is replaced; source:
// events/gateway.
func TestTheBudgetOfIdentifies(t *testing.T) {
	srv := New(t, Options{})
	srv.Gateway().SpendIdentifies(999)
	first := newBot(t, srv)
	first.ready()
	old := srv.Token()
	if o := first.want(200, 0, "GET", "/gateway/bot", nil); o["session_start_limit"].(object)["remaining"] != 0.0 {
		t.Errorf("%v, want nothing left", o)
	}
	second := newBot(t, srv)
	second.hello()
	second.identify(nil)
	if code := second.closed(); code != 4004 {
		t.Errorf("closed with %d, want 4004", code)
	}
	if code := first.closed(); code != 4004 {
		t.Errorf("the living session was closed with %d, want 4004", code)
	}
	if srv.Token() == old {
		t.Error("the token is still the old one")
	}
	first.token = old
	first.want(401, 0, "GET", "/users/@me", nil)
	srv.Advance(24 * time.Hour)
	newBot(t, srv).ready()
}

func TestOneIdentifyInFiveSeconds(t *testing.T) {
	srv := New(t, Options{StrictIdentify: true})
	newBot(t, srv).ready()
	b := newBot(t, srv)
	b.hello()
	b.identify(nil)
	if op := b.readLoose(); op != 9 {
		t.Errorf("op %d, want 9", op)
	}
	srv.Advance(5 * time.Second)
	b.identify(nil)
	b.until("READY")
}

func TestGuildsComeAndGo(t *testing.T) {
	srv, b := connected(t, Options{})
	b.until("GUILD_CREATE")
	g := srv.AddGuild("Second Club")
	if p := b.until("GUILD_CREATE"); p.D["id"] != g.ID {
		t.Errorf("%v, want the second guild", p)
	}
	g.Outage(true)
	if p := b.until("GUILD_DELETE"); p.D["unavailable"] != true {
		t.Errorf("%v, want an outage", p)
	}
	g.Outage(false)
	b.until("GUILD_CREATE")
	g.RemoveBot()
	if p := b.until("GUILD_DELETE"); p.D["unavailable"] != nil {
		t.Errorf("%v, want a removal", p)
	}
}

func TestWaitingEnds(t *testing.T) {
	srv := New(t, Options{})
	ctx := soon(t)
	ended := make(chan error)
	go func() { ended <- srv.Until(ctx, func() bool { return false }) }()
	srv.Close()
	if err := <-ended; err == nil {
		t.Error("waiting on a closed server ended well")
	}
}
