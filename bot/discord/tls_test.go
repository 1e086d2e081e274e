package discord_test

import (
	"bytes"
	"crypto/x509"
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"testing"

	"blockbell/bot/discord"
)

// encrypted puts a server with a certificate before the emulator, which itself
// speaks in the clear, and returns it.
func (p *play) encrypted(h2 bool) *httptest.Server {
	behind, err := url.Parse(p.srv.URL())
	if err != nil {
		p.t.Fatal(err)
	}
	proxy := &httputil.ReverseProxy{Rewrite: func(r *httputil.ProxyRequest) { r.SetURL(behind) }}
	front := httptest.NewUnstartedServer(proxy)
	front.EnableHTTP2 = h2
	proxy.ModifyResponse = func(r *http.Response) error {
		if !strings.HasSuffix(r.Request.URL.Path, "/gateway") {
			return nil
		}
		body, err := io.ReadAll(r.Body)
		if err != nil {
			return err
		}
		body = bytes.ReplaceAll(body, []byte(p.srv.GatewayURL()), []byte("wss"+strings.TrimPrefix(front.URL, "https")))
		r.Body, r.ContentLength = io.NopCloser(bytes.NewReader(body)), int64(len(body))
		r.Header.Del("Content-Length")
		return nil
	}
	front.StartTLS()
	p.t.Cleanup(front.Close)
	return front
}

func TestEverythingWorksEncrypted(t *testing.T) {
	for name, h2 := range map[string]bool{"HTTP/1.1": false, "HTTP/2": true} {
		t.Run(name, func(t *testing.T) {
			p := prepare(t, withTable)
			front := p.encrypted(h2)
			roots := x509.NewCertPool()
			roots.AddCert(front.Certificate())
			p.conf.API = front.URL
			p.conf.Trust(roots)
			var err error
			if p.a, err = discord.New(p.conf); err != nil {
				t.Fatal(err)
			}
			p.run()
			p.ready(1)
			p.registered()
			p.answering()
			p.stop()
			if err := p.end(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestUntrustedCertificateGetsNoToken(t *testing.T) {
	p := prepare(t)
	p.conf.API = p.encrypted(false).URL
	a, err := discord.New(p.conf)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if _, err := a.Application(soon(t)); err == nil || !strings.Contains(err.Error(), "certificate") {
		t.Errorf("%v", err)
	}
	if n := len(p.srv.Requests()); n != 0 {
		t.Errorf("%d requests were made", n)
	}
}
