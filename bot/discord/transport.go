package discord

import (
	"crypto/tls"
	"crypto/x509"
	"net"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// apiVersion is the version of the platform's API that everything speaks.
const apiVersion = "10"

// userAgent has the form that the platform's reference asks for.
const userAgent = "DiscordBot (https://example.org/blockbell, 1)"

// transport sends every request, whoever made it, to the configured base and the
// API version of this package: the library's own addresses are older.
type transport struct {
	base *url.URL
	next *http.Transport
}

func newTransport(base string, roots *x509.CertPool) (*transport, error) {
	u, err := url.Parse(base)
	if err != nil {
		return nil, err
	}
	dialer := &net.Dialer{Timeout: 5 * time.Second, KeepAlive: 15 * time.Second}
	return &transport{base: u, next: &http.Transport{
		Proxy:             http.ProxyFromEnvironment,
		DialContext:       dialer.DialContext,
		ForceAttemptHTTP2: true,
		// Without pings a connection that went dead would be used again and again.
		HTTP2:               &http.HTTP2Config{SendPingTimeout: 10 * time.Second, PingTimeout: 5 * time.Second},
		MaxIdleConns:        256,
		MaxIdleConnsPerHost: 256,
		IdleConnTimeout:     90 * time.Second,
		TLSHandshakeTimeout: 5 * time.Second,
		TLSClientConfig:     &tls.Config{RootCAs: roots},
	}}, nil
}

// RoundTrip sends a request where it belongs.
func (t *transport) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host, r.Host = t.base.Scheme, t.base.Host, ""
	if _, rest, found := strings.Cut(r.URL.Path, "/api/v"); found {
		if _, path, found := strings.Cut(rest, "/"); found {
			r.URL.Path, r.URL.RawPath = "/api/v"+apiVersion+"/"+path, rawPath(r.URL.RawPath)
		}
	}
	r.Header.Set("User-Agent", userAgent)
	return t.next.RoundTrip(r)
}

// rawPath is the same for a path in which something had to be escaped.
func rawPath(raw string) string {
	if _, rest, found := strings.Cut(raw, "/api/v"); found {
		if _, path, found := strings.Cut(rest, "/"); found {
			return "/api/v" + apiVersion + "/" + path
		}
	}
	return raw
}

// noRedirect keeps requests, which carry the token, from being led elsewhere.
func noRedirect(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
