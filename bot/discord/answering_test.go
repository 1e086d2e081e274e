package discord_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

const markRoute = "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}/@me"

// marking answers log lines with a mark and commands with a line.
func marking(_ context.Context, e chat.Event) (chat.Reply, error) {
	if e.Kind == chat.Said {
		return chat.Reply{Kind: chat.React, Reaction: "✅"}, nil
	}
	return quick("Peaking, 9 days left.", true), nil
}

// crowd has n people write one log line each, and waits until all were heard.
func (p *play) crowd(n int) {
	p.t.Helper()
	for i := range n {
		if _, err := p.srv.User(fmt.Sprintf("lifter%d", i)).Say("#training-log", "squat 140x5"); err != nil {
			p.t.Fatal(err)
		}
	}
	p.bot.await(p.t, n)
}

func (p *play) marked() (n int) {
	for _, m := range p.srv.User("ana").Sees("#training-log") {
		n += len(m.Reactions)
	}
	return n
}

// Marks that wait at the platform's limit hold up nobody who asks something: the
// command is answered at once, with its first answer, by a clock that stands still.
// What is not out when the bot stops is counted.
func TestWaitingMarksDoNotHoldUpCommands(t *testing.T) {
	const lines = 200
	p := start(t, withTable, func(s *setup) { s.conf.Timing.Drain = 400 * time.Millisecond })
	p.registered()
	p.answers(marking)
	p.srv.LimitRoute("PUT", markRoute, discordtest.Limit{Calls: 1, Per: 9 * time.Second})
	p.crowd(lines)
	p.until(func() bool { return p.marked() == 1 })
	act := p.srv.User("ana").Command("#training-log", "block")
	m, err := act.AwaitMessage(soon(t))
	if err != nil || m.Content != "Peaking, 9 days left." {
		t.Fatalf("%v %v", m, err)
	}
	if act.Callback() != 4 {
		t.Error("the command had to wait for hands")
	}
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	if want := fmt.Sprintf("answers=%d", lines-1); !strings.Contains(p.log.String(), want) {
		t.Errorf("%s is not in the log:\n%s", want, p.log)
	}
}

// Marks that only wait their turn go out before the bot ends.
func TestMarksAreSentBeforeTheEnd(t *testing.T) {
	p := start(t)
	p.answers(marking)
	p.srv.LimitRoute("PUT", markRoute, discordtest.Limit{Calls: 20, Per: 100 * time.Millisecond})
	p.srv.Advance(time.Second)
	held := p.srv.Fail(discordtest.Fault{Method: "PUT", Route: markRoute, Kind: discordtest.HoldBefore})
	t.Cleanup(held.Release)
	p.crowd(10)
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	p.stop()
	held.Release()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	if n := p.marked(); n != 10 {
		t.Errorf("%d of 10 lines are marked", n)
	}
}

// A mark that is refused for a while is made after that while, and one message is
// not marked twice.
func TestRefusedMarkIsMadeLater(t *testing.T) {
	p := start(t)
	p.answers(marking)
	p.srv.Fail(discordtest.Fault{Method: "PUT", Route: markRoute, Kind: discordtest.TooMany, Times: 4, RetryAfter: 20 * time.Millisecond})
	p.crowd(1)
	p.until(func() bool { return p.marked() == 1 })
}

// A long limit on one channel is told at once, without another request; whoever
// posts goes on elsewhere meanwhile.
func TestLongLimitIsToldAtOnce(t *testing.T) {
	p := prepare(t)
	refused := p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.TooMany, RetryAfter: 10 * time.Minute})
	post := func(key, channel string) error {
		_, err := p.a.Post(soon(t), chat.Post{Key: key, To: chat.Target{Channel: channel}, Message: chat.Message{Text: "x"}, At: p.srv.Now()})
		return err
	}
	var later *chat.RetryError
	if err := post("a", "#announcements"); !errors.As(err, &later) || later.After != 10*time.Minute {
		t.Errorf("the first: %v", err)
	}
	if err := post("b", "#announcements"); !errors.As(err, &later) || later.After != time.Minute {
		t.Errorf("the second: %v", err)
	}
	if err := post("c", "#training-log"); err != nil {
		t.Errorf("another channel: %v", err)
	}
	if n := refused.Hits(); n != 1 {
		t.Errorf("the closed channel was asked %d times", n)
	}
}
