package discordtest

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"mime/multipart"
	"net/http"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"go.uber.org/goleak"
)

// bot is a client made of nothing but the standard library and a websocket.
type bot struct {
	t   *testing.T
	srv *Server
	ws  *websocket.Conn

	token string // in place of the right one
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
	status, raw, _ := b.full(method, path, body)
	return status, raw
}

func (b *bot) full(method, path string, body any) (int, []byte, http.Header) {
	b.t.Helper()
	var r io.Reader
	if body != nil {
		r = bytes.NewReader(encode(body))
	}
	req, err := http.NewRequestWithContext(b.t.Context(), method, b.srv.URL()+base+path, r)
	if err != nil {
		b.t.Fatal(err)
	}
	token := b.srv.Token()
	if b.token != "" {
		token = b.token
	}
	req.Header.Set("Authorization", "Bot "+token)
	req.Header.Set("User-Agent", "DiscordBot (https://example.org, 1)")
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		b.t.Logf("%s %s: %v", method, path, err)
		return 0, nil, nil
	}
	defer resp.Body.Close()
	raw, _ := io.ReadAll(resp.Body)
	return resp.StatusCode, raw, resp.Header
}

// upload posts a body with one file and returns the status.
func (b *bot) upload(path string, body object, name, content string) int {
	b.t.Helper()
	var form bytes.Buffer
	w := multipart.NewWriter(&form)
	part, _ := w.CreateFormField("payload_json") // writing to memory cannot fail
	_, _ = part.Write(encode(body))
	part, _ = w.CreateFormFile("files[0]", name)
	_, _ = io.WriteString(part, content)
	_ = w.Close()
	req, err := http.NewRequestWithContext(b.t.Context(), "POST", b.srv.URL()+base+path, &form)
	if err != nil {
		b.t.Fatal(err)
	}
	req.Header.Set("Content-Type", w.FormDataContentType())
	req.Header.Set("Authorization", "Bot "+b.srv.Token())
	req.Header.Set("User-Agent", "DiscordBot (https://example.org, 1)")
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		b.t.Fatal(err)
	}
	resp.Body.Close()
	return resp.StatusCode
}

type got struct {
	Op int            `json:"op"`
	D  map[string]any `json:"d"`
	S  int            `json:"s"`
	T  string         `json:"t"`
}

func (b *bot) dial() {
	b.t.Helper()
	b.dialAt("/?v=10&encoding=json")
}

func (b *bot) dialAt(query string) {
	b.t.Helper()
	ws, _, err := websocket.DefaultDialer.DialContext(soon(b.t), b.srv.GatewayURL()+query, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	b.ws = ws
	b.t.Cleanup(func() { ws.Close() })
}

func dialGateway(t *testing.T, srv *Server) (*websocket.Conn, *http.Response, error) {
	return websocket.DefaultDialer.DialContext(soon(t), srv.GatewayURL()+"/?v=10&encoding=json", nil)
}

// readLoose returns the op of the next packet that is no event; its data may be
// of any form.
func (b *bot) readLoose() int {
	b.t.Helper()
	for {
		var p struct {
			Op int `json:"op"`
		}
		if err := b.ws.ReadJSON(&p); err != nil {
			b.t.Fatal(err)
		}
		if p.Op != 0 {
			return p.Op
		}
	}
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

// everything is what the tests' bot listens to.
const everything = GuildsIntent | MembersIntent | GuildMessagesIntent | GuildReactionsIntent | DirectMessagesIntent | DirectReactionsIntent | MessageContentIntent

// lenient starts a server that collects violations instead of failing the test.
func lenient(t *testing.T, o Options) *Server {
	t.Helper()
	s, err := Start(o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// connected is a strict server and a bot that is ready on its gateway.
func connected(t *testing.T, o Options) (*Server, *bot) {
	t.Helper()
	srv := New(t, o)
	b := newBot(t, srv)
	b.connect(everything)
	return srv, b
}

// register registers commands by name, each with one optional text.
func (b *bot) register(names ...string) {
	b.t.Helper()
	list := []object{}
	for _, name := range names {
		list = append(list, object{"name": name, "description": "for the test", "options": []object{
			{"type": StringOption, "name": "text", "description": "anything", "autocomplete": true}}})
	}
	if status, o := b.do("PUT", "/applications/"+b.srv.AppID()+"/commands", list); status != 200 {
		b.t.Fatal(status, o)
	}
}

// asked waits for an interaction and returns the path of its callback and that of
// its webhook.
func (b *bot) asked() (callback, webhook string) {
	b.t.Helper()
	e := b.until("INTERACTION_CREATE").D
	token := e["token"].(string)
	return "/interactions/" + e["id"].(string) + "/" + token + "/callback", "/webhooks/" + b.srv.AppID() + "/" + token
}

// want fails unless a call is answered with a status and, if not 0, a code.
func (b *bot) want(status int, code int, method, path string, body any) map[string]any {
	b.t.Helper()
	s, o := b.do(method, path, body)
	if got, _ := o["code"].(float64); s != status || code != 0 && int(got) != code {
		b.t.Errorf("%s %s: %d %v, want %d and code %d", method, path, s, o, status, code)
	}
	return o
}

func TestMain(m *testing.M) {
	goleak.VerifyTestMain(m, goleak.Cleanup(func(int) { http.DefaultClient.CloseIdleConnections() }))
}

func parseList(t *testing.T, raw []byte) []map[string]any {
	t.Helper()
	var list []map[string]any
	if err := json.Unmarshal(raw, &list); err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	return list
}

// plainGet calls without any of the headers that a bot should send.
func plainGet(t *testing.T, url string) (*http.Response, error) {
	req, err := http.NewRequestWithContext(t.Context(), "GET", url, nil)
	if err != nil {
		return nil, err
	}
	return http.DefaultClient.Do(req)
}
