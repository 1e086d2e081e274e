package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"time"

	"blockbell/bot"
	"blockbell/bot/discord"
	"blockbell/bot/nudge"
	"blockbell/bot/parse"
	"blockbell/bot/schedule"
	"blockbell/planner"
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
	w := &workspace{store: s, now: p.now, log: log, kick: make(chan struct{}, 1)}
	adapter, err := w.connect(p.ctx, c.adapterConfig(token, p.now, log), p.stdout)
	if err != nil {
		return err
	}
	return c.live(p, w, adapter)
}

// adapterConfig is what the flags say about the platform.
func (c *serveCommand) adapterConfig(token string, now func() time.Time, log *slog.Logger) discord.Config {
	return discord.Config{Token: token, API: c.API, Guild: c.Guild, Commands: bot.Specs(), Now: now, Log: log}
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
			if _, err := time.LoadLocation(c.Zone); err != nil || strings.EqualFold(c.Zone, "local") {
				return planner.Errorf(planner.Invalid, "Write it as area and city, for example Europe/Lisbon.", "--zone: %q is not a time zone", c.Zone)
			}
			club.Zone = c.Zone
		}
		return tx.SaveClub(club)
	})
}

// live runs everything until the context ends or the adapter gives up.
func (c *serveCommand) live(p *place, w *workspace, adapter *discord.Adapter) (err error) {
	runner := &nudge.Runner{Store: w.store, Poster: adapter, Log: w.log}
	clock, err := schedule.Start(schedule.Config{Minute: w.whileConnected(adapter, runner.Run), Nightly: w.upkeep, Now: p.now, Log: w.log, Stop: 3 * time.Second})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, clock.Close()) }()
	stopHealth, err := c.health(p.ctx, adapter)
	if err != nil {
		return err
	}
	defer stopHealth()
	ctx, stop := context.WithCancel(p.ctx)
	defer stop()
	posting := make(chan struct{})
	go func() {
		defer close(posting)
		w.postWhenKicked(ctx, runner.Run)
	}()
	err = adapter.Run(ctx)
	stop()
	<-posting
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
