package discord

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"net"
	"net/http"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// serverFrame makes a frame as a server sends it. Source: RFC 6455 section 5.2.
func serverFrame(first byte, payload []byte) []byte {
	f := []byte{first}
	switch n := len(payload); {
	case n < 126:
		f = append(f, byte(n))
	case n < 1<<16:
		f = binary.BigEndian.AppendUint16(append(f, 126), uint16(n))
	default:
		f = binary.BigEndian.AppendUint64(append(f, 127), uint64(n))
	}
	return append(f, payload...)
}

const upgraded = "HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\n\r\n"

// through sends bytes through a link and returns what the library would read, and
// the verdict.
func through(t *testing.T, sent []byte) ([]byte, *verdict) {
	t.Helper()
	server, client := net.Pipe()
	l := newLink(client, time.Hour, func() error { return nil })
	go func() {
		for b := range slices.Chunk(sent, 7) { // in pieces, as networks do
			if _, err := server.Write(b); err != nil {
				break
			}
		}
		server.Close()
	}()
	read, err := io.ReadAll(l)
	var v *verdict
	if !errors.As(err, &v) {
		t.Fatalf("reading ended with %v", err)
	}
	return read, v
}

func TestLinkPassesOrdinaryFramesUnchanged(t *testing.T) {
	sent := []byte(upgraded)
	for _, n := range []int{0, 1, 125, 126, 1024, 1025, 65535, 65536, 200_000} {
		sent = append(sent, serverFrame(0x81, bytes.Repeat([]byte("x"), n))...)
	}
	sent = append(sent, serverFrame(0x01, []byte(`{"op":7}`))...) // a part of a longer message is no word of the gateway
	sent = append(sent, serverFrame(0x80, []byte(`{"op":7}`))...)
	sent = append(sent, serverFrame(0x89, []byte("ping"))...)
	read, v := through(t, sent)
	if !bytes.Equal(read, sent) || v.ending != endDropped {
		t.Errorf("%d of %d bytes passed, then: %v", len(read), len(sent), v)
	}
}

func TestLinkKeepsBackWhatTheLibraryCannotBear(t *testing.T) {
	event := serverFrame(0x81, []byte(`{"op":0,"t":"X","s":1,"d":{}}`))
	for name, c := range map[string]struct {
		frame []byte
		want  verdict
	}{
		"op 7":             {serverFrame(0x81, []byte(`{"op":7,"d":null}`)), verdict{ending: endAsked}},
		"op 9 true":        {serverFrame(0x81, []byte(`{"d":true,"op":9}`)), verdict{ending: endResume}},
		"op 9 false":       {serverFrame(0x81, []byte(`{"op":9,"d":false}`)), verdict{ending: endFresh}},
		"close 4004":       {serverFrame(0x88, []byte{4004 >> 8, 4004 & 0xff, 'n', 'o'}), verdict{ending: endClosed, code: 4004}},
		"close of no code": {serverFrame(0x88, nil), verdict{ending: endClosed, code: 1005}},
	} {
		t.Run(name, func(t *testing.T) {
			before := append([]byte(upgraded), event...)
			read, v := through(t, slices.Concat(before, c.frame, event))
			if !bytes.Equal(read, before) || *v != c.want {
				t.Errorf("read %q, verdict %+v", read, v)
			}
		})
	}
}

func TestLinkPassesARefusalOfTheUpgrade(t *testing.T) {
	sent := []byte("HTTP/1.1 503 Service Unavailable\r\n\r\nplease wait")
	if read, _ := through(t, sent); !bytes.Equal(read, sent) {
		t.Errorf("read %q", read)
	}
}

func TestLinkIsSilentAfterItsEnd(t *testing.T) {
	server, client := net.Pipe()
	defer server.Close()
	l := newLink(client, time.Hour, func() error { return nil })
	l.end(&verdict{ending: endAsked})
	if n, err := l.Write([]byte("goodbye, 1000")); n != 13 || err != nil {
		t.Errorf("%d %v: an error would make the library close another connection", n, err)
	}
	if l.end(&verdict{ending: endLeft}); l.verdict.ending != endAsked {
		t.Error("a later reason replaced the first")
	}
}

func TestGates(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, g := context.Background(), newGates()
		begin := time.Now()
		enter := func(route string, counted bool) time.Duration {
			if _, err := g.enter(ctx, route, counted); err != nil {
				t.Fatal(err)
			}
			return time.Since(begin)
		}
		h := http.Header{"X-Ratelimit-Remaining": {"1"}, "X-Ratelimit-Reset-After": {"2.5"}}
		g.learn("a", 200, h, 0, false)
		if at := enter("a", true); at != 0 {
			t.Errorf("the last place was taken at %s", at)
		}
		if at := enter("b", true); at != 0 {
			t.Errorf("another route waited until %s", at)
		}
		if at := enter("a", true); at != 2500*time.Millisecond {
			t.Errorf("the route opened at %s, want 2.5 s", at)
		}
		g.learn("b", 429, http.Header{}, time.Second, true)
		if at := enter("c", false); at != 2500*time.Millisecond {
			t.Errorf("an interaction waited for the global limit until %s", at)
		}
		if at := enter("c", true); at != 3500*time.Millisecond {
			t.Errorf("the global limit ended at %s, want 3.5 s", at)
		}
	})
}

func TestGlobalRate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := newGates()
		begin := time.Now()
		for i := range 3*globalRate + 1 {
			if _, err := g.enter(context.Background(), "r", true); err != nil {
				t.Fatal(err)
			}
			if at, want := time.Since(begin), time.Duration(i/globalRate)*time.Second; at != want {
				t.Fatalf("request %d was sent after %s, want %s", i, at, want)
			}
		}
	})
}

func TestRefusalsStopBeforeTheBan(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := newGates()
		for range invalidLimit {
			g.learn("r", 403, http.Header{}, 0, false)
		}
		g.learn("s", 429, http.Header{"X-Ratelimit-Scope": {"shared"}}, time.Millisecond, false) // does not count
		ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
		defer cancel()
		if wait, err := g.enter(ctx, "other", false); err == nil || wait != invalidWindow {
			t.Errorf("wait %s, %v: requests go on after %d refusals", wait, err, invalidLimit)
		}
		<-time.After(invalidWindow + time.Second) // by the bubble's clock
		if _, err := g.enter(context.Background(), "other", false); err != nil {
			t.Error(err)
		}
	})
}

func TestRoutes(t *testing.T) {
	for in, want := range map[string]string{
		"/channels/100000000000000001/messages":                                            "X channels/100000000000000001/messages",
		"/channels/100000000000000001/messages?limit=100":                                  "X channels/100000000000000001/messages",
		"/channels/100000000000000001/messages/100000000000000002":                         "X channels/100000000000000001/messages/*",
		"/channels/100000000000000001/messages/100000000000000002/reactions/%E2%9C%85/@me": "X channels/100000000000000001/messages/*/reactions/*/@me",
		"/webhooks/100000000000000001/tok/messages/@original":                              "X webhooks/100000000000000001/tok/messages/@original",
		"/users/@me": "X users/@me",
	} {
		if got := routeOf("X", in); got != want {
			t.Errorf("routeOf(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestCrewKeepsOrderAndBounds(t *testing.T) {
	c := newCrew(3)
	var mu sync.Mutex
	order := map[int][]int{}
	busy, most := 0, 0
	for i := range 300 {
		key := i % 7
		c.add(string(rune('a'+key)), func() {
			mu.Lock()
			busy++
			most = max(most, busy)
			order[key] = append(order[key], i)
			mu.Unlock()
			mu.Lock()
			busy--
			mu.Unlock()
		})
	}
	if err := c.wait(context.Background()); err != nil {
		t.Fatal(err)
	}
	for key, got := range order {
		if !slices.IsSorted(got) || len(got) != 300/7 && len(got) != 300/7+1 {
			t.Errorf("jobs of %d: %v", key, got)
		}
	}
	if most > 3 {
		t.Errorf("%d jobs ran at once", most)
	}
}

func TestCrewRefusesAFlood(t *testing.T) {
	c := newCrew(1)
	hold := make(chan struct{})
	for range pendingLimit {
		if !c.add("k", func() { <-hold }) {
			t.Fatal("refused too early")
		}
	}
	if c.add("other", func() {}) {
		t.Error("one more was taken")
	}
	close(hold)
	if err := c.wait(context.Background()); err != nil {
		t.Error(err)
	}
}

func TestWrongClockDoesNotMakeTheBotDeaf(t *testing.T) {
	platform := time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		ahead, age, want time.Duration
	}{
		{0, time.Second, time.Second},
		{0, 5 * time.Second, 5 * time.Second},
		{time.Hour, time.Second, time.Second},
		{time.Hour, 5 * time.Second, time.Hour + 5*time.Second},
		{-time.Hour, time.Second, 0},
	} {
		s := &skew{now: func() time.Time { return platform.Add(c.ahead) }}
		s.heard(platform.Format(http.TimeFormat), s.now())
		if got := s.age(idAt(platform.Add(-c.age))); got != c.want {
			t.Errorf("clock ahead by %s, interaction %s old: taken for %s, want %s", c.ahead, c.age, got, c.want)
		}
	}
}

func TestRecentForgetsTheOldest(t *testing.T) {
	r := newRecent()
	for i := range recentSize + 1 {
		if !r.fresh(string(rune(i + 1))) {
			t.Fatal("a new id was known")
		}
	}
	if r.fresh(string(rune(recentSize + 1))) {
		t.Error("the newest was forgotten")
	}
	if !r.fresh(string(rune(1))) {
		t.Error("the oldest was kept")
	}
}
