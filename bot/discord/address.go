package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/url"
	"strings"

	"github.com/bwmarrin/discordgo"
)

// addressBook answers the library's question for the gateway's address with the
// one at which its session can be resumed, where there is one.
type addressBook struct {
	g    *gateway
	next http.RoundTripper
}

// RoundTrip answers for the platform where it can.
func (a *addressBook) RoundTrip(r *http.Request) (*http.Response, error) {
	at := a.g.resumeAddress()
	if at == "" || !strings.HasSuffix(r.URL.Path, "/gateway") {
		return a.ask(r)
	}
	body, err := json.Marshal(map[string]string{"url": at})
	if err != nil {
		return nil, err
	}
	return &http.Response{
		Status: "200 OK", StatusCode: http.StatusOK, Proto: "HTTP/1.1", ProtoMajor: 1, ProtoMinor: 1,
		Header: http.Header{}, Body: io.NopCloser(bytes.NewReader(body)), ContentLength: int64(len(body)), Request: r,
	}, nil
}

// ask asks the platform. The library gives its request no context, so it gets the
// one that ends with the bot.
func (a *addressBook) ask(r *http.Request) (*http.Response, error) {
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	defer context.AfterFunc(a.g.life, cancel)()
	resp, err := a.next.RoundTrip(r.WithContext(ctx))
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(io.LimitReader(resp.Body, largestAnswer))
	resp.Body = io.NopCloser(bytes.NewReader(body))
	return resp, err
}

// resumeAddress is empty unless the token may travel there.
func (g *gateway) resumeAddress() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	u, err := url.Parse(g.resume)
	if err != nil || u.Host == "" || u.Scheme != "wss" && !(u.Scheme == "ws" && isLoopback(u.Hostname())) {
		return ""
	}
	return g.resume
}

// dropAddress gives the address for resuming up after a try that failed: the usual
// one serves as well, and perhaps that gateway is gone.
func (g *gateway) dropAddress() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.resume = ""
}

// renewAddress makes the library forget the address it connected to last. It does
// so only after a dial that failed, so one is made to fail before it begins.
func (g *gateway) renewAddress(session *discordgo.Session) {
	g.setClear(true)
	defer g.setClear(false)
	_ = session.Open() // fails as intended
}

func (g *gateway) setClear(on bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.clear = on
}
