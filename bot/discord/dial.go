package discord

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
)

// dialPlain connects without encryption, which is for this machine only: the
// token goes over the line.
func (g *gateway) dialPlain(ctx context.Context, network, address string) (net.Conn, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil || !isLoopback(host) {
		return nil, fmt.Errorf("refused to connect to %s without encryption", address)
	}
	return g.dial(ctx, func(ctx context.Context) (net.Conn, error) {
		return (&net.Dialer{}).DialContext(ctx, network, address)
	})
}

func (g *gateway) dialTLS(ctx context.Context, network, address string) (net.Conn, error) {
	return g.dial(ctx, func(ctx context.Context) (net.Conn, error) {
		return (&tls.Dialer{Config: &tls.Config{RootCAs: g.roots}}).DialContext(ctx, network, address)
	})
}

// errClear is what a dial fails with that only makes the library ask anew.
var errClear = errors.New("the address of the gateway is asked for anew")

func (g *gateway) dial(ctx context.Context, connect func(context.Context) (net.Conn, error)) (net.Conn, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	defer context.AfterFunc(g.life, cancel)()
	if g.clearing() {
		return nil, errClear
	}
	c, err := connect(ctx)
	if err != nil {
		return nil, err
	}
	l := newLink(c, g.timing.Open, g.hello)
	g.mu.Lock()
	defer g.mu.Unlock()
	g.link = l
	return l, nil
}

func (g *gateway) clearing() bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.clear
}

// hello is asked before the library hears HELLO, after which it signs in or
// resumes at once. Only signing in counts.
func (g *gateway) hello() error {
	g.mu.Lock()
	resuming := g.resumable
	g.mu.Unlock()
	if resuming {
		return nil
	}
	return spendSignIn(g.life, g.signIns, g.now())
}
