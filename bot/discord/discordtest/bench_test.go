package discordtest

import (
	"bytes"
	"io"
	"net/http"
	"testing"
)

// benchmarkAnswer plays interactions to the end: a command, its event, a
// callback, the message.
func benchmarkAnswer(b *testing.B, o Options) {
	srv, err := Start(o)
	if err != nil {
		b.Fatal(err)
	}
	defer srv.Close()
	ana := srv.User("ana")
	srv.mu.Lock()
	srv.addCommand(&Command{Name: "block", Type: 1, App: srv.app})
	srv.mu.Unlock()
	body := encode(object{"type": 4, "data": object{"content": "day 3 of 28", "flags": Ephemeral, "embeds": []object{{"title": "Block"}}}})
	for b.Loop() {
		act := ana.Command("#training-log", "block")
		req, _ := http.NewRequestWithContext(b.Context(), "POST", srv.URL()+base+"/interactions/"+act.ID+"/"+act.Token()+"/callback", bytes.NewReader(body))
		req.Header.Set("User-Agent", "DiscordBot (https://example.org, 1)")
		req.Header.Set("Content-Type", "application/json")
		resp, err := http.DefaultClient.Do(req)
		if err != nil {
			b.Fatal(err)
		}
		_, _ = io.Copy(io.Discard, resp.Body)
		resp.Body.Close()
		if _, err := act.AwaitMessage(b.Context()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAnswer(b *testing.B)    { benchmarkAnswer(b, Options{}) }
func BenchmarkAnswerLax(b *testing.B) { benchmarkAnswer(b, Options{Lax: true}) }
