package discordtest

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// closed reads until the server closes and returns its code; 1006 is a cut.
func (b *bot) closed() int {
	b.t.Helper()
	for {
		_, _, err := b.ws.ReadMessage()
		var code *websocket.CloseError
		switch {
		case errors.As(err, &code):
			return code.Code
		case err != nil:
			return 1006
		}
	}
}

func (b *bot) identify(more object) {
	o := object{"token": b.srv.Token(), "intents": everything, "properties": object{"os": "linux"}}
	for k, v := range more {
		o[k] = v
	}
	b.send(2, o)
}

// hello opens a connection and takes the first packet.
func (b *bot) hello() {
	b.t.Helper()
	b.dial()
	if p := b.read(); p.Op != 10 || p.D["heartbeat_interval"] == nil {
		b.t.Fatalf("first packet %v, want HELLO", p)
	}
}

// ready identifies and returns the session id and the number of the last event.
func (b *bot) ready() (string, int) {
	b.t.Helper()
	b.hello()
	b.identify(nil)
	p := b.read()
	if p.T != "READY" || p.D["resume_gateway_url"] != b.srv.GatewayURL()+"/resume" {
		b.t.Fatalf("%v, want READY", p)
	}
	return p.D["session_id"].(string), b.until("GUILD_CREATE").S
}

func (b *bot) resume(id string, seq int) {
	b.send(6, object{"token": b.srv.Token(), "session_id": id, "seq": seq})
}

func TestAnIdentifyCanFail(t *testing.T) {
	for name, c := range map[string]struct {
		query string
		more  object
		code  int
	}{
		"wrong token":       {"/?v=10&encoding=json", object{"token": "wrong"}, 4004},
		"no properties":     {"/?v=10&encoding=json", object{"properties": nil, "token": 5}, 4002},
		"no such intent":    {"/?v=10&encoding=json", object{"intents": 1 << 30}, 4013},
		"forbidden intent":  {"/?v=10&encoding=json", object{"intents": PresencesIntent}, 4014},
		"no such shard":     {"/?v=10&encoding=json", object{"shard": []int{2, 1}}, 4010},
		"an old version":    {"/?v=8&encoding=json", nil, 4012},
		"too long a packet": {"/?v=10&encoding=json", object{"x": strings.Repeat("x", 5000)}, 4002},
	} {
		t.Run(name, func(t *testing.T) {
			srv := New(t, Options{Disallowed: PresencesIntent})
			b := newBot(t, srv)
			b.dialAt(c.query)
			b.identify(c.more)
			if code := b.closed(); code != c.code {
				t.Errorf("closed with %d, want %d", code, c.code)
			}
			if st := srv.Gateway().Stats(); !slices.Equal(st.Sent, []int{c.code}) || st.Ready != 0 {
				t.Errorf("stats %+v", st)
			}
		})
	}
}

func TestProtocolErrorsCloseTheConnection(t *testing.T) {
	for name, c := range map[string]struct {
		send func(*bot)
		code int
	}{
		"no such op":        {func(b *bot) { b.send(99, nil) }, 4001},
		"no JSON":           {func(b *bot) { b.ws.WriteMessage(websocket.TextMessage, []byte("{")) }, 4002},
		"identify twice":    {func(b *bot) { b.identify(nil); b.identify(nil) }, 4005},
		"not authenticated": {func(b *bot) { b.send(3, object{}) }, 4003},
		"more than 120 a minute": {func(b *bot) {
			b.identify(nil)
			for range 120 {
				b.send(3, object{})
			}
		}, 4008},
		"a number too high": {func(b *bot) {
			other := newBot(b.t, b.srv)
			id, _ := other.ready()
			b.resume(id, 1000)
		}, 4007},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBot(t, New(t, Options{}))
			b.hello()
			c.send(b)
			if code := b.closed(); code != c.code {
				t.Errorf("closed with %d, want %d", code, c.code)
			}
		})
	}
}

func TestHeartbeatsAreAcknowledged(t *testing.T) {
	srv, b := connected(t, Options{Heartbeat: 300 * time.Millisecond})
	b.until("GUILD_CREATE")
	b.send(1, 3)
	if p := b.read(); p.Op != 11 {
		t.Errorf("%v, want the ACK", p)
	}
	srv.Gateway().AskHeartbeat()
	if p := b.read(); p.Op != 1 {
		t.Errorf("%v, want op 1", p)
	}
	srv.Gateway().MuteACKs(true)
	b.send(1, 3)
	if err := srv.Until(soon(t), func() bool { return srv.Gateway().Stats().Heartbeats == 2 }); err != nil {
		t.Fatal(err)
	}
	srv.Gateway().Dispatch("NOBODY_KNOWS", object{"x": 1})
	if p := b.read(); p.T != "NOBODY_KNOWS" {
		t.Errorf("%v instead of the unknown event: a muted heartbeat was answered", p)
	}
}

func TestASessionIsResumed(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	id, seq := b.ready()
	srv.Gateway().Drop()
	if code := b.closed(); code != 1006 {
		t.Errorf("closed with %d, want a cut", code)
	}
	if err := srv.Until(soon(t), func() bool { return srv.Gateway().Stats().Ready == 0 }); err != nil {
		t.Fatal(err)
	}
	missed, _ := srv.User("ana").Say("#training-log", "squat 100x5")
	b.dialAt("/resume?v=10&encoding=json")
	b.read()
	b.resume(id, seq)
	if p := b.until("MESSAGE_CREATE"); p.D["id"] != missed || p.S != seq+2 { // after the event of ana's joining
		t.Errorf("replayed %v, want message %s as number %d", p, missed, seq+2)
	}
	if p := b.read(); p.T != "RESUMED" {
		t.Errorf("%v, want RESUMED", p)
	}
	if st := srv.Gateway().Stats(); st.Identifies != 1 || st.Resumes != 1 || st.Resumed != 1 || st.Connections != 2 || st.AtResumeURL != 1 {
		t.Errorf("stats %+v", st)
	}
}

func TestClosingWith1000EndsTheSession(t *testing.T) {
	for code, resumable := range map[int]bool{1000: false, 1001: false, 4200: true} {
		srv := New(t, Options{})
		b := newBot(t, srv)
		id, seq := b.ready()
		b.ws.WriteMessage(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""))
		b.ws.Close()
		if err := srv.Until(soon(t), func() bool { return len(srv.Gateway().Stats().Closed) == 1 }); err != nil {
			t.Fatal(err)
		}
		b.hello()
		b.resume(id, seq)
		_, raw, err := b.ws.ReadMessage()
		if err != nil || strings.Contains(string(raw), "RESUMED") != resumable || strings.Contains(string(raw), `"op":9`) == resumable {
			t.Errorf("after %d: %s %v, resumable %v", code, raw, err, resumable)
		}
		if got := srv.Gateway().Stats().Closed; got[0] != code {
			t.Errorf("close codes %v, want %d first", got, code)
		}
	}
}
