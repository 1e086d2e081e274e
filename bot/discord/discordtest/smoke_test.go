package discordtest

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// bot is a client made of nothing but the standard library and a websocket.
type bot struct {
	t   *testing.T
	srv *Server
	ws  *websocket.Conn
}

func newBot(t *testing.T, srv *Server) *bot { return &bot{t: t, srv: srv} }

// soon bounds a test's waiting.
func soon(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	t.Cleanup(cancel)
	return ctx
}

// do calls the API and returns the status and the JSON answer.
func (b *bot) do(method, path string, body any) (int, map[string]any) {
	b.t.Helper()
	status, raw := b.raw(method, path, body)
	var o map[string]any
	_ = json.Unmarshal(raw, &o)
	return status, o
}

func (b *bot) raw(method, path string, body any) (int, []byte) {
	b.t.Helper()
	var r io.Reader
	if body != nil {
		r = bytes.NewReader(encode(body))
	}
	req, err := http.NewRequestWithContext(b.t.Context(), method, b.srv.URL()+base+path, r)
	if err != nil {
		b.t.Fatal(err)
	}
	req.Header.Set("Authorization", "Bot "+b.srv.Token())
	req.Header.Set("User-Agent", "DiscordBot (https://example.org, 1)")
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		b.t.Logf("%s %s: %v", method, path, err)
		return 0, nil
	}
	defer resp.Body.Close()
	raw, _ := io.ReadAll(resp.Body)
	return resp.StatusCode, raw
}

type got struct {
	Op int            `json:"op"`
	D  map[string]any `json:"d"`
	S  int            `json:"s"`
	T  string         `json:"t"`
}

func (b *bot) dial() {
	b.t.Helper()
	ws, _, err := websocket.DefaultDialer.DialContext(soon(b.t), b.srv.GatewayURL()+"/?v=10&encoding=json", nil)
	if err != nil {
		b.t.Fatal(err)
	}
	b.ws = ws
	b.t.Cleanup(func() { ws.Close() })
}

func (b *bot) read() got {
	b.t.Helper()
	var p got
	if err := b.ws.ReadJSON(&p); err != nil {
		b.t.Fatal(err)
	}
	return p
}

func (b *bot) until(event string) got {
	b.t.Helper()
	for {
		if p := b.read(); p.T == event {
			return p
		}
	}
}

func (b *bot) connect(i Intents) {
	b.t.Helper()
	b.dial()
	if p := b.read(); p.Op != 10 {
		b.t.Fatalf("first packet %v, want HELLO", p)
	}
	b.send(2, object{"token": b.srv.Token(), "intents": i, "properties": object{"os": "linux", "browser": "x", "device": "x"}})
	b.until("READY")
}

func (b *bot) send(op int, d any) {
	b.t.Helper()
	if err := b.ws.WriteJSON(object{"op": op, "d": d}); err != nil {
		b.t.Fatal(err)
	}
}

func TestCommandIsAnswered(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	b.connect(GuildsIntent | GuildMessagesIntent | MessageContentIntent | DirectMessagesIntent)
	status, _ := b.do("PUT", "/applications/"+srv.AppID()+"/commands", []object{{"name": "season", "description": "the plan", "options": []object{
		{"type": SubCommand, "name": "build", "description": "make one", "options": []object{{"type": StringOption, "name": "level", "description": "how long you lift"}}}}}})
	if status != 200 {
		t.Fatal(status)
	}
	act := srv.User("ana").Command("#training-log", "season build", Opt{"level", "novice"})
	if act.Err() != nil {
		t.Fatal(act.Err())
	}
	e := b.until("INTERACTION_CREATE").D
	path := "/interactions/" + e["id"].(string) + "/" + e["token"].(string) + "/callback"
	status, o := b.do("POST", path+"?with_response=true", object{"type": 4, "data": object{"content": "hello", "flags": Ephemeral,
		"components": []object{{"type": 1, "components": []object{{"type": 2, "style": 1, "label": "Accept plan", "custom_id": "x1"}}}}}})
	if status != 200 {
		t.Fatal(status, o)
	}
	m, err := act.AwaitMessage(soon(t))
	if err != nil || m.Content != "hello" || !m.Private() {
		t.Fatal(m, err)
	}
	if n := len(srv.User("bea").Sees("#training-log")); n != 0 {
		t.Errorf("bea sees %d messages of ana's", n)
	}
	press := srv.User("ana").Press(m.ID, "Accept plan")
	e = b.until("INTERACTION_CREATE").D
	status, o = b.do("POST", "/interactions/"+e["id"].(string)+"/"+e["token"].(string)+"/callback", object{"type": 7, "data": object{"content": "done", "components": []object{}}})
	if status != 204 {
		t.Fatal(status, o)
	}
	if m, err = press.AwaitMessage(soon(t)); err != nil || m.Content != "done" {
		t.Fatal(m, err)
	}
	ch := srv.Channel("#training-log")
	post := object{"content": "due", "nonce": "k1", "enforce_nonce": true}
	_, first := b.do("POST", "/channels/"+ch+"/messages", post)
	_, second := b.do("POST", "/channels/"+ch+"/messages", post)
	if first["id"] == nil || first["id"] != second["id"] {
		t.Errorf("one nonce made two messages: %v %v", first, second)
	}
	for _, path := range []string{"/users/@me", "/oauth2/applications/@me", "/gateway/bot", "/gateway", "/guilds/" + srv.Guild().ID,
		"/guilds/" + srv.Guild().ID + "/channels", "/guilds/" + srv.Guild().ID + "/roles", "/channels/" + ch, "/channels/" + ch + "/messages",
		"/guilds/" + srv.Guild().ID + "/members/" + srv.BotID(), "/users/@me/guilds", "/applications/" + srv.AppID() + "/commands"} {
		if status, raw := b.raw("GET", path, nil); status != 200 {
			t.Errorf("GET %s: %d %s", path, status, raw)
		}
	}
	status, o = b.do("POST", "/users/@me/channels", object{"recipient_id": srv.User("ana").ID})
	if status != 200 {
		t.Fatal(status, o)
	}
	b.do("POST", "/channels/"+o["id"].(string)+"/messages", object{"content": "psst"})
	if in := srv.User("ana").Inbox(); len(in) != 1 || in[0].Content != "psst" {
		t.Errorf("inbox %v", in)
	}
}
