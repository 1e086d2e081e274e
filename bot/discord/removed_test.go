package discord_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

func TestRemovalWhileAwayIsToldAtTheSignIn(t *testing.T) {
	told, here := make(chan time.Time, 1), make(chan string, 1)
	p := prepare(t, func(s *setup) {
		s.conf.Removed = func(_ context.Context, at time.Time) { told <- at }
		s.conf.Present = func(_ context.Context, guild string) { here <- guild }
	})
	p.conf.Guild = p.srv.Guild().ID
	var err error
	if p.a, err = discord.New(p.conf); err != nil {
		t.Fatal(err)
	}
	p.srv.Guild().RemoveBot()
	p.run()
	select {
	case <-told:
	case <-soon(t).Done():
		t.Fatal("nobody was told")
	}
	p.log.await(t, "the bot is not in its server; invite it")
	if len(here) != 0 {
		t.Error("the bot was said to be in its server")
	}
	p.srv.Guild().LetIn()
	select {
	case got := <-here:
		if got != p.srv.Guild().ID {
			t.Errorf("present in %s", got)
		}
	case <-soon(t).Done():
		t.Error("nobody was told that the bot is back")
	}
}

func TestApplicationTellsWhatPassesFromWhatDoesNot(t *testing.T) {
	p := prepare(t)
	p.srv.Fail(discordtest.Fault{Route: "/applications/@me", Kind: discordtest.TooMany, RetryAfter: time.Minute})
	_, err := p.a.Application(soon(t))
	var later *chat.RetryError
	if !errors.As(err, &later) || later.After < time.Minute {
		t.Errorf("429: %v", err)
	}
	p.conf.Token = "outdated"
	stranger, err := discord.New(p.conf)
	if err != nil {
		t.Fatal(err)
	}
	defer stranger.Close()
	_, err = stranger.Application(soon(t))
	var fatal *discord.FatalError
	if !errors.As(err, &fatal) || fatal.Code != 401 || !strings.Contains(err.Error(), "Reset Token") {
		t.Errorf("401: %v", err)
	}
}
