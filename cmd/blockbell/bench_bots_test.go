package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"blockbell/bot"
	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
	"blockbell/planner"
	"blockbell/store"
)

// people is how many lifters a benchmark's club has.
const people = 64

// benchClub is an emulated platform with one bot and its club. Its clock is the
// wall's: a benchmark measures that.
type benchClub struct {
	srv     *discordtest.Server
	front   *httptest.Server // stands before the emulator and notes when answers come in
	lifters []*discordtest.User

	lines   [people]atomic.Int64 // log lines each has said so far
	lost    atomic.Int64         // answers that never came
	mu      sync.Mutex
	answers map[string]*answer
}

// answer is the first answer to one interaction or message.
type answer struct {
	at  time.Time
	got chan struct{} // closed when it came
}

func newBenchClub(b *testing.B) *benchClub {
	srv, err := discordtest.Start(discordtest.Options{Lax: true, Now: time.Now})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(srv.Close)
	c := &benchClub{srv: srv, answers: map[string]*answer{}}
	c.front = httptest.NewServer(http.HandlerFunc(c.note))
	b.Cleanup(c.front.Close)
	for n := range people {
		c.lifters = append(c.lifters, srv.User(fmt.Sprint("lifter", n)))
	}
	return c
}

// note notes the time of a request that answers somebody, then lets the emulator
// work at it.
func (c *benchClub) note(w http.ResponseWriter, r *http.Request) {
	now := time.Now()
	parts := strings.Split(r.URL.Path, "/") // "", api, v10, ...
	switch {
	case len(parts) > 4 && parts[3] == "interactions":
		c.came(parts[4], now)
	case len(parts) > 7 && parts[5] == "messages" && parts[7] == "reactions":
		c.came(parts[6], now)
	}
	c.srv.ServeHTTP(w, r)
}

func (c *benchClub) came(id string, at time.Time) {
	a := c.answer(id)
	c.mu.Lock()
	defer c.mu.Unlock()
	if a.at.IsZero() {
		a.at = at
		close(a.got)
	}
}

// answer is the place of an answer, whether it came yet or not.
func (c *benchClub) answer(id string) *answer {
	c.mu.Lock()
	defer c.mu.Unlock()
	a := c.answers[id]
	if a == nil {
		a = &answer{got: make(chan struct{})}
		c.answers[id] = a
	}
	return a
}

// connected waits until the bot listens and its commands are there.
func (c *benchClub) connected(b *testing.B) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	err := c.srv.Until(ctx, func() bool { return len(c.srv.Commands()) > 0 && c.srv.Gateway().Stats().Ready == 1 })
	if err != nil {
		b.Fatal(err)
	}
}

// wholeBot runs what blockbell serve runs: store, bot and adapter, on a database
// on disk, for lifters who have agreed plans.
func wholeBot(b *testing.B) *benchClub {
	c := newBenchClub(b)
	s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "club.db"), store.Options{World: store.Platform, Now: time.Now()})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	c.plan(b, s)
	w := &workspace{store: s, now: time.Now, log: slog.New(slog.DiscardHandler), kick: make(chan struct{}, 1)}
	adapter, err := w.connect(context.Background(), discord.Config{API: c.front.URL, Token: c.srv.Token(), Commands: bot.Specs(), Now: time.Now, Log: w.log}, io.Discard)
	if err != nil {
		b.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- adapter.Run(ctx) }()
	b.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			b.Error(err)
		}
	})
	c.connected(b)
	return c
}

// plan gives every lifter a meet and an agreed plan.
func (c *benchClub) plan(b *testing.B, s *store.Store) {
	talk, n := bot.New(bot.Config{Store: s}), 0
	meet := planner.DateOf(time.Now()).AddDays(160)
	for _, u := range c.lifters {
		for _, text := range []string{"/me set level:intermediate squat:160 bench:100 deadlift:190",
			fmt.Sprintf("/meet add name:%q date:%s", "River Open", meet), "/season build", "/season accept"} {
			n++
			r, err := talk.Handle(context.Background(), chat.Event{ID: fmt.Sprint("before", n), Kind: chat.Said, At: time.Now(),
				Author: chat.Person{ID: u.ID, Name: u.Name}, Channel: "#training-log", Message: fmt.Sprint("before", n), Text: text})
			if err != nil || r.Kind == chat.Failure {
				b.Fatal(text, r.Message.Text, err)
			}
		}
	}
}

// bareBot is the library alone, tuned as well as it can be, with a constant answer
// to everything.
func bareBot(b *testing.B) *benchClub {
	c := newBenchClub(b)
	s, err := discordgo.New("Bot " + c.srv.Token())
	if err != nil {
		b.Fatal(err)
	}
	s.Compress, s.StateEnabled = false, false
	base, _ := url.Parse(c.front.URL)
	s.Client = &http.Client{Transport: &toEmulator{base, &http.Transport{MaxIdleConns: 256, MaxIdleConnsPerHost: 256}}}
	s.Identify.Intents = discordgo.IntentGuilds | discordgo.IntentGuildMessages | discordgo.IntentMessageContent
	s.AddHandler(func(s *discordgo.Session, i *discordgo.InteractionCreate) {
		_ = s.InteractionRespond(i.Interaction, &discordgo.InteractionResponse{Type: 4, Data: &discordgo.InteractionResponseData{Content: "Week 3 of 6.", Flags: 64}})
	})
	s.AddHandler(func(s *discordgo.Session, m *discordgo.MessageCreate) {
		// The library allows itself one reaction in 200 ms and one request at a time
		// for each bucket; a bucket for each of 256 remainders takes that brake off.
		hash := fnv.New32a()
		_, _ = hash.Write([]byte(m.ID))
		_, _ = s.RequestWithBucketID("PUT", discordgo.EndpointMessageReaction(m.ChannelID, m.ID, url.PathEscape("✅"), "@me"), nil, fmt.Sprint(hash.Sum32()%256))
	})
	if err := s.Open(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	if _, err := s.ApplicationCommandBulkOverwrite(c.srv.AppID(), "", []*discordgo.ApplicationCommand{{Name: "block", Description: "a constant"}}); err != nil {
		b.Fatal(err)
	}
	c.connected(b)
	return c
}

// toEmulator sends the library's requests to the emulator.
type toEmulator struct {
	base *url.URL
	next http.RoundTripper
}

func (t *toEmulator) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host = t.base.Scheme, t.base.Host
	r.URL.Path = strings.Replace(r.URL.Path, "/v9/", "/v10/", 1)
	r.URL.RawPath = strings.Replace(r.URL.RawPath, "/v9/", "/v10/", 1)
	return t.next.RoundTrip(r)
}
