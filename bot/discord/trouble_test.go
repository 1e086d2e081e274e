package discord_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

func TestRightThatIsLostAgainIsToldAgain(t *testing.T) {
	p := start(t)
	p.says(quick("For all.", false))
	lost := func(inbox int) {
		t.Helper()
		p.srv.Deny("training-log", discordtest.SendMessages)
		p.said("hello")
		p.until(func() bool { return len(p.srv.User("ana").Inbox()) == inbox })
	}
	lost(1)
	p.srv.Deny("training-log", 0) // the captain repairs it
	id := p.said("hello again")
	p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return m.ReplyTo == id })
	lost(2)
	if n := strings.Count(p.log.String(), "lacks a right"); n != 2 {
		t.Errorf("it was said %d times, want once for each loss", n)
	}
}

// A bot that may write but not react says each mark as a line; that it may write
// does not make the missing right news again.
func TestMissingReactionIsToldOnce(t *testing.T) {
	p := start(t)
	p.srv.Deny("training-log", discordtest.AddReactions)
	p.says(chat.Reply{Kind: chat.React, Reaction: "✅"})
	for range 3 {
		id := p.said("squat 140x5")
		p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return m.ReplyTo == id })
	}
	if n := strings.Count(p.log.String(), "lacks a right"); n != 1 {
		t.Errorf("it was said %d times", n)
	}
}

func TestAnswerForADeletedChannelGoesToThePerson(t *testing.T) {
	p := start(t)
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) {
		p.srv.Guild().DeleteChannel("training-log")
		return quick("For all.", false), nil
	})
	p.said("what now?")
	p.awaits("ana", "", func(m discordtest.Message) bool { return m.Content == "For all." })
}

func TestMarkInADeletedChannelIsLeftOut(t *testing.T) {
	p := start(t)
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) {
		p.srv.Guild().DeleteChannel("training-log")
		return chat.Reply{Kind: chat.React, Reaction: "✅"}, nil
	})
	p.said("squat 140x5")
	p.bot.await(t, 1)
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	if strings.Contains(p.log.String(), "ERROR") {
		t.Errorf("a channel that is gone is no error:\n%s", p.log)
	}
}

func TestAnswerToADeletedMessageStandsByItself(t *testing.T) {
	p := start(t)
	p.answers(func(_ context.Context, e chat.Event) (chat.Reply, error) {
		if e.Kind != chat.Said {
			return chat.Reply{}, nil
		}
		if err := p.srv.User("ana").Delete(e.Message); err != nil {
			t.Error(err)
		}
		return quick("For all.", false), nil
	})
	p.said("what now?")
	p.awaits("bea", "#training-log", func(m discordtest.Message) bool { return m.Content == "For all." && m.Bot })
}

// TestClockThatJumpsDeafensForOneEventOnly moves the machine's clock ahead of the
// platform's: what comes looks long past until the clocks are compared.
func TestClockThatJumpsDeafensForOneEventOnly(t *testing.T) {
	for name, jump := range map[string]time.Duration{"ahead": time.Hour, "back": -time.Hour} {
		t.Run(name, func(t *testing.T) {
			p := start(t, withTable)
			p.registered()
			p.ahead.Store(int64(jump))
			p.says(quick("Here.", true))
			act := p.srv.User("ana").Command("#training-log", "block")
			if jump > 0 {
				p.log.await(t, "came too late")
				p.log.await(t, "the clock of this machine is wrong")
			} else if _, err := act.AwaitMessage(soon(t)); err != nil {
				t.Error(err)
			}
			p.answering()
		})
	}
}

// TestFilesThatThePlatformFindsTooLargeAreLeftOut refuses a message with its file
// in each way that a file can go (40005): the words arrive all the same.
func TestFilesThatThePlatformFindsTooLargeAreLeftOut(t *testing.T) {
	reply := quick("Your plan.", true)
	reply.Message.Files = []chat.File{{Name: "season.png", Bytes: []byte("\x89PNG\r\n\x1a\n0000"), Alt: "three blocks"}}
	for name, c := range map[string]struct {
		method, route string
		late          bool
	}{
		"first answer": {"POST", callbackRoute, false},
		"edit":         {"PATCH", "/webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", true},
	} {
		t.Run(name, func(t *testing.T) {
			p := start(t, withTable, func(s *setup) {
				if c.late {
					soonDeferred(s)
				}
			})
			p.registered()
			refused := p.srv.Fail(discordtest.Fault{Method: c.method, Route: c.route, Kind: discordtest.RefuseBefore, Status: 413, Code: 40005})
			p.says(reply)
			if c.late {
				p.slow(reply)
			}
			p.srv.User("ana").Command("#training-log", "block")
			m := p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return strings.HasPrefix(m.Content, "Your plan.") })
			if len(m.Attachments) != 0 || !strings.Contains(m.Content, "too large") || refused.Hits() != 1 {
				t.Errorf("%+v, refused %d times", m, refused.Hits())
			}
		})
	}
	t.Run("post", func(t *testing.T) {
		p := prepare(t)
		p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.RefuseBefore, Status: 413, Code: 40005})
		post := p.due("k1")
		post.Message.Files = reply.Message.Files
		if _, err := p.a.Post(soon(t), post); err != nil {
			t.Fatal(err)
		}
		if all := p.posted(); len(all) != 1 || len(all[0].Attachments) != 0 || !strings.Contains(all[0].Content, "too large") {
			t.Errorf("%+v", all)
		}
	})
}
