package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"sync"
	"time"

	"blockbell/bot"
	"blockbell/bot/discord"
	"blockbell/bot/nudge"
	"blockbell/bot/parse"
	"blockbell/bot/schedule"
	"blockbell/store"
)

// serveCommand is the bot in a real workspace.
type serveCommand struct {
	platformFlags
	Hour     string     `placeholder:"HH:MM" env:"BLOCKBELL_HOUR" help:"When the daily post comes, on the club's clock. Kept; /club settings changes it too."`
	Zone     string     `placeholder:"AREA/CITY" env:"BLOCKBELL_ZONE" help:"The club's time zone. Kept; /club settings changes it too."`
	LogLevel slog.Level `env:"BLOCKBELL_LOG_LEVEL" default:"INFO" help:"DEBUG, INFO, WARN or ERROR."`
	Listen   string     `placeholder:"HOST:PORT" env:"BLOCKBELL_LISTEN" help:"Where /healthz answers; empty: nowhere."`
}

// Run answers on the platform until the context ends, which is no error.
func (c *serveCommand) Run(p *place) (err error) {
	token, err := c.token()
	if err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(p.stderr, &slog.HandlerOptions{Level: c.LogLevel}))
	s, err := store.Open(context.WithoutCancel(p.ctx), c.DB, store.Options{World: store.Platform, Now: p.now()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	if err := c.applySettings(p.ctx, s); err != nil {
		return err
	}
	w := &workspace{store: s, now: p.now, log: log, named: c.Guild, kick: make(chan struct{}, 1)}
	conf := c.adapterConfig(token, p, log)
	if conf.Guild, err = w.home(p.ctx); err != nil {
		return err
	}
	adapter, err := w.connect(p.ctx, conf, p.stdout)
	if err != nil || adapter == nil {
		return err
	}
	return c.live(p, w, adapter)
}

// drain is how long events under way may take after the signal to stop. With the
// second that the library needs to leave, everything ends within ten.
const drain = 4 * time.Second

// adapterConfig is what the flags say about the platform.
func (c *serveCommand) adapterConfig(token string, p *place, log *slog.Logger) discord.Config {
	waits := p.waits
	if waits.Drain == 0 {
		waits.Drain = drain
	}
	return discord.Config{Token: token, API: c.API, Commands: bot.Specs(), Now: p.now, Log: log, Timing: waits}
}

// applySettings keeps the hour and the zone given at the start.
func (c *serveCommand) applySettings(ctx context.Context, s *store.Store) error {
	if c.Hour == "" && c.Zone == "" {
		return nil
	}
	return s.Update(ctx, func(tx *store.Tx) error {
		club, err := tx.Club()
		if err != nil {
			return err
		}
		if c.Hour != "" {
			if club.Hour, club.Minute, err = parse.Clock(c.Hour); err != nil {
				return fmt.Errorf("--hour: %w", err)
			}
		}
		if c.Zone != "" {
			if club.Zone, err = parse.Zone(c.Zone); err != nil {
				return fmt.Errorf("--zone: %w", err)
			}
		}
		return tx.SaveClub(club)
	})
}

// live runs everything until the context ends or the adapter gives up.
func (c *serveCommand) live(p *place, w *workspace, adapter *discord.Adapter) error {
	w.adapter, w.runner = adapter, &nudge.Runner{Store: w.store, Poster: adapter, Log: w.log, Weekly: w.weekly, Read: w.readLog}
	ctx, stop := context.WithCancel(p.ctx)
	defer stop()
	stopHealth, err := c.health(ctx, adapter)
	if err != nil {
		return err
	}
	defer stopHealth()
	ticks, err := p.ticks(schedule.Config{Minute: w.post, Nightly: w.upkeep, Now: p.now, Log: w.log, Stop: drain})
	if err != nil {
		return err
	}
	var beside sync.WaitGroup
	beside.Go(func() { w.postWhenKicked(ctx) })
	beside.Go(func() {
		<-ctx.Done()
		if err := ticks.Close(); err != nil {
			w.log.Error("the clock did not stop", "error", err)
		}
	})
	err = adapter.Run(ctx)
	stop()
	beside.Wait()
	return err
}

// health answers /healthz: 200 while events can come in, 503 otherwise.
func (c *serveCommand) health(ctx context.Context, adapter *discord.Adapter) (stop func(), err error) {
	if c.Listen == "" {
		return func() {}, nil
	}
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", c.Listen)
	if err != nil {
		return nil, fmt.Errorf("--listen: %w", err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		if !adapter.Connected() {
			http.Error(w, "not connected", http.StatusServiceUnavailable)
			return
		}
		fmt.Fprintln(w, "ok")
	})
	server := &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second}
	go server.Serve(l) //nolint:errcheck // ends with Close
	return func() { server.Close() }, nil
}
