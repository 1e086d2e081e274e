package discordtest

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"io"
	"net/http"
	"testing"

	"github.com/gorilla/websocket"
)

func TestTheContentIntent(t *testing.T) {
	srv := New(t, Options{Disallowed: MessageContentIntent})
	b := newBot(t, srv)
	b.connect(everything &^ MessageContentIntent)
	ana := srv.User("ana")
	say := func(channel, text string) string {
		if _, err := ana.Say(channel, text); err != nil {
			t.Fatal(err)
		}
		return b.until("MESSAGE_CREATE").D["content"].(string)
	}
	hi := "hello <@" + srv.BotID() + ">"
	if got := say("#training-log", "squat 100x5"); got != "" {
		t.Errorf("content without the intent: %q", got)
	}
	if got := say("#training-log", hi); got != hi {
		t.Errorf("a message that mentions the bot: %q", got)
	}
	if got := say("", "psst"); got != "psst" {
		t.Errorf("a direct message: %q", got)
	}
	_, raw := b.raw("GET", "/channels/"+srv.Channel("#training-log")+"/messages", nil)
	if list := parseList(t, raw); list[0]["content"] != hi || list[1]["content"] != "" {
		t.Errorf("read back: %v", list)
	}
}

// The document has no schemas of the gateway, but a message looks the same there.
func TestMessagesOfEventsFitTheDocument(t *testing.T) {
	srv, b := connected(t, Options{})
	if srv.schema == nil {
		t.Skip("the platform's OpenAPI document is not beside the module: events cannot be held against it")
	}
	b.want(200, 0, "POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"content": "x", "embeds": []object{{"title": "t"}},
		"components": []object{row(button(1))}})
	first := b.until("MESSAGE_CREATE").D
	if _, err := srv.User("ana").Reply(first["id"].(string), "y <@"+srv.BotID()+">"); err != nil {
		t.Fatal(err)
	}
	for _, m := range []object{first, b.until("MESSAGE_CREATE").D} {
		if bad := srv.schema.against(encode(m), "components", "schemas", "MessageResponse"); len(bad) > 0 {
			t.Errorf("%v: %q", m, bad)
		}
	}
}

func TestEventsFollowIntents(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	b.connect(GuildMessagesIntent | MessageContentIntent)
	ana := srv.User("ana")                     // a member event: not asked for
	_, _ = ana.Say("", "psst")                 // a direct message: not asked for
	id, _ := ana.Say("#training-log", "hello") // asked for
	_ = ana.React(id, "✅")                     // not asked for
	_ = ana.Edit(id, "hullo")
	_ = ana.Delete(id)
	for _, want := range []string{"MESSAGE_CREATE", "MESSAGE_UPDATE", "MESSAGE_DELETE"} {
		if p := b.read(); p.T != want {
			t.Errorf("%v, want %s", p, want)
		}
	}
	srv.Deny("#training-log", ViewChannel)
	_, _ = ana.Say("#training-log", "secret")
	_, _ = ana.Say("#announcements", "open")
	if p := b.read(); p.D["content"] != "open" {
		t.Errorf("%v, want only what the bot may see", p)
	}
}

func TestCompression(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	b.hello()
	b.identify(object{"compress": true})
	kind, data, err := b.ws.ReadMessage()
	if err != nil || kind != websocket.BinaryMessage {
		t.Fatal(kind, err)
	}
	z, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var p got
	if err := json.NewDecoder(z).Decode(&p); err != nil || p.T != "READY" {
		t.Errorf("%v %v, want READY", p, err)
	}
	stream := newBot(t, srv)
	ws, _, err := websocket.DefaultDialer.DialContext(soon(t), srv.GatewayURL()+"/?v=10&encoding=json&compress=zlib-stream", nil)
	if err != nil {
		t.Fatal(err)
	}
	defer ws.Close()
	stream.ws = ws
	all := &streamed{ws: ws}
	if z, err = zlib.NewReader(all); err != nil {
		t.Fatal(err)
	}
	d := json.NewDecoder(z)
	if err := d.Decode(&p); err != nil || p.Op != 10 {
		t.Fatalf("%v %v, want HELLO", p, err)
	}
	stream.identify(nil)
	if err := d.Decode(&p); err != nil || p.T != "READY" {
		t.Errorf("%v %v, want READY", p, err)
	}
}

// streamed joins the messages of a websocket to one stream.
type streamed struct {
	ws   *websocket.Conn
	rest []byte
}

func (s *streamed) Read(p []byte) (int, error) {
	if len(s.rest) == 0 {
		_, data, err := s.ws.ReadMessage()
		if err != nil {
			return 0, err
		}
		s.rest = data
	}
	n := copy(p, s.rest)
	s.rest = s.rest[n:]
	return n, nil
}

var (
	_ io.Reader    = (*streamed)(nil)
	_ http.Handler = (*Server)(nil)
)
