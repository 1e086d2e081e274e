package discord_test

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

// These compare the adapter with the bare library, tuned as well as it can be, on
// the same emulator, which checks nothing here, in the same process: what the guards
// cost.

func BenchmarkAdapter(b *testing.B) {
	srv := benchServer(b)
	bot := &brain{more: make(chan struct{}), answer: func(context.Context, chat.Event) (chat.Reply, error) {
		return quick("Week 3 of 6.", true), nil
	}}
	a, err := discord.New(discord.Config{API: srv.URL(), Token: srv.Token(), Now: srv.Now, Handler: bot, Commands: table(), Content: true})
	if err != nil {
		b.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	defer func() {
		stop()
		<-ended
	}()
	interactions(b, srv)
}

func BenchmarkBareLibrary(b *testing.B) {
	srv := benchServer(b)
	s, _ := discordgo.New("Bot " + srv.Token())
	s.Compress, s.StateEnabled = false, false
	base, _ := url.Parse(srv.URL())
	s.Client = &http.Client{Transport: &toBase{base, &http.Transport{MaxIdleConns: 256, MaxIdleConnsPerHost: 256}}}
	s.Identify.Intents = discordgo.IntentGuilds
	s.AddHandler(func(s *discordgo.Session, i *discordgo.InteractionCreate) {
		_ = s.InteractionRespond(i.Interaction, &discordgo.InteractionResponse{Type: 4, Data: &discordgo.InteractionResponseData{Content: "Week 3 of 6.", Flags: 64}})
	})
	if err := s.Open(); err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	if _, err := s.ApplicationCommandBulkOverwrite(srv.AppID(), "", []*discordgo.ApplicationCommand{{Name: "block", Description: "x"}}); err != nil {
		b.Fatal(err)
	}
	interactions(b, srv)
}

// toBase sends the library's requests to the emulator.
type toBase struct {
	base *url.URL
	next http.RoundTripper
}

func (t *toBase) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host = t.base.Scheme, t.base.Host
	r.URL.Path = strings.Replace(r.URL.Path, "/v9/", "/v10/", 1)
	return t.next.RoundTrip(r)
}

func benchServer(b *testing.B) *discordtest.Server {
	srv, err := discordtest.Start(discordtest.Options{Lax: true})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(srv.Close)
	return srv
}

// interactions has people use a command, one after another and many at once.
func interactions(b *testing.B, srv *discordtest.Server) {
	limit, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	b.Cleanup(cancel)
	if err := srv.Until(limit, func() bool { return len(srv.Commands()) > 0 && srv.Gateway().Stats().Ready == 1 }); err != nil {
		b.Fatal(err)
	}
	for _, people := range []int{1, 64} {
		b.Run(fmt.Sprintf("people=%d", people), func(b *testing.B) {
			var wg sync.WaitGroup
			for p := range people {
				u := srv.User(fmt.Sprint("lifter", p))
				wg.Go(func() {
					for i := p; i < b.N; i += people {
						if _, err := u.Command("#training-log", "block").Await(limit); err != nil {
							b.Error(err)
						}
					}
				})
			}
			wg.Wait()
		})
	}
}
