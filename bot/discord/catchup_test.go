package discord_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
)

// missing reads the log channel from a moment before the first event on.
func missing(p **play, since time.Duration) func(*setup) {
	return func(s *setup) {
		s.conf.Missed = func(context.Context) (string, time.Time, error) {
			return "#training-log", (*p).srv.Now().Add(-since), nil
		}
	}
}

func TestMessagesWrittenWhileAwayAreRead(t *testing.T) {
	var p *play
	p = prepare(t, missing(&p, time.Hour))
	ana := p.srv.User("ana")
	p.srv.Guild().Grant(ana, p.srv.Guild().AddRole("Managers", discordtest.ManageGuild, false))
	if _, err := ana.Say("#training-log", "squat 60x5 long ago"); err != nil {
		t.Fatal(err)
	}
	p.srv.Advance(3 * time.Hour)
	if _, err := p.srv.OtherBot("noise").Say("#training-log", "squat 500x1"); err != nil {
		t.Fatal(err)
	}
	for i := range 130 {
		if _, err := ana.Say("#training-log", fmt.Sprint("squat 100x", i)); err != nil {
			t.Fatal(err)
		}
	}
	p.run()
	heard := p.bot.await(t, 130)
	for i, e := range heard {
		if e.Text != fmt.Sprint("squat 100x", i) || e.Channel != "#training-log" || e.Author.Name != "ana" || !e.Author.Captain || !e.At.Equal(p.srv.Now()) {
			t.Fatalf("event %d is %+v", i, e)
		}
	}
	p.log.await(t, "messages=130")
	if n := len(p.srv.RequestsTo("GET", "/guilds/{guild_id}/members/{user_id}")); n != 1 {
		t.Errorf("one author was asked for %d times", n)
	}
}

func TestMessagesHeardAreNotReadAgain(t *testing.T) {
	var p *play
	p = prepare(t, missing(&p, time.Hour))
	p.run()
	p.log.await(t, "messages=0")
	ana := p.srv.User("ana")
	if _, err := ana.Say("#training-log", "heard live"); err != nil {
		t.Fatal(err)
	}
	p.bot.await(t, 1)
	p.srv.Gateway().Refuse(true)
	p.srv.Gateway().Invalidate(false)
	p.until(func() bool { return p.srv.Gateway().Stats().Ready == 0 })
	if _, err := ana.Say("#training-log", "said to nobody"); err != nil {
		t.Fatal(err)
	}
	p.srv.Gateway().Refuse(false)
	p.log.await(t, "messages=1")
	if heard := p.bot.await(t, 2); len(heard) != 2 || heard[1].Text != "said to nobody" {
		t.Errorf("heard %+v", heard)
	}
}

func TestWhatCannotBeReadBackIsSaid(t *testing.T) {
	p := start(t, func(s *setup) {
		s.conf.Missed = func(context.Context) (string, time.Time, error) { return "", time.Time{}, errors.New("disk full") }
	})
	p.log.await(t, "disk full")
	var q *play
	t.Run("no right", func(t *testing.T) {
		q = prepare(t, missing(&q, time.Hour))
		q.srv.Deny("training-log", discordtest.ReadHistory|discordtest.ViewChannel)
		q.run()
		q.log.await(t, "messages may have been missed")
		if strings.Contains(q.log.String(), "panic") {
			t.Error(q.log)
		}
	})
}
