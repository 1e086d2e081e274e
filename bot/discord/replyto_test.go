package discord_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

// said has ana write a message in the log channel.
func (p *play) said(text string) string {
	p.t.Helper()
	id, err := p.srv.User("ana").Say("#training-log", text)
	if err != nil {
		p.t.Fatal(err)
	}
	return id
}

// awaits blocks until a person sees a message for which ok is true.
func (p *play) awaits(who, channel string, ok func(discordtest.Message) bool) discordtest.Message {
	p.t.Helper()
	m, err := p.srv.User(who).AwaitMessage(soon(p.t), channel, ok)
	if err != nil {
		p.t.Fatalf("%v\n%s", err, p.log)
	}
	return m
}

func TestReactionMarksTheMessage(t *testing.T) {
	p := start(t)
	p.says(chat.Reply{Kind: chat.React, Reaction: "✅"})
	id := p.said("squat 140x5")
	m := p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return m.ID == id && len(m.Reactions) == 1 })
	if m.Reactions[0].Emoji != "✅" {
		t.Errorf("%+v", m.Reactions)
	}
}

func TestReactionThatIsForbiddenBecomesALine(t *testing.T) {
	p := start(t)
	p.srv.Deny("training-log", discordtest.AddReactions)
	p.says(chat.Reply{Kind: chat.React, Reaction: "✅"})
	id := p.said("squat 140x5")
	p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return m.Bot && m.Content == "✅" && m.ReplyTo == id })
}

func TestPublicReplyStandsUnderTheMessage(t *testing.T) {
	p := start(t)
	p.says(quick("A record: 140 kg.", false))
	id := p.said("squat 140x5")
	m := p.awaits("bea", "#training-log", func(m discordtest.Message) bool { return m.Bot })
	if m.ReplyTo != id || m.Content != "A record: 140 kg." || len(m.Pings.Users) != 0 {
		t.Errorf("%v, it rings for %+v", m, m.Pings)
	}
}

func TestPrivateReplyGoesToThePerson(t *testing.T) {
	for _, r := range []chat.Reply{quick("Your squat: 140 kg.", true), {Kind: chat.Failure, Message: chat.Message{Text: "Your squat: 140 kg."}}} {
		t.Run(string(r.Kind), func(t *testing.T) {
			p := start(t)
			p.says(r)
			p.said("/lift squat")
			p.awaits("ana", "", func(m discordtest.Message) bool { return m.Bot && m.Content == "Your squat: 140 kg." })
			for _, m := range p.srv.User("bea").Sees("#training-log") {
				if m.Bot {
					t.Errorf("others see %v", m)
				}
			}
		})
	}
}

func TestPrivateReplyToAClosedPersonWaitsBehindAButton(t *testing.T) {
	p := start(t)
	p.srv.User("ana").CloseDirects(true)
	p.says(quick("Your squat: 140 kg.", true))
	p.said("/lift squat")
	offer := p.awaits("bea", "#training-log", func(m discordtest.Message) bool { return m.Bot })
	if strings.ContainsAny(offer.Content, "0123456789") || offer.Components[0].Components[0].Label != "Show me" {
		t.Errorf("the public line is %v", offer)
	}
	m, err := p.srv.User("ana").Press(offer.ID, "Show me").AwaitMessage(soon(t))
	if err != nil || !m.Private() || m.Content != "Your squat: 140 kg." {
		t.Errorf("%v %v", m, err)
	}
	m, err = p.srv.User("bea").Press(offer.ID, "Show me").AwaitMessage(soon(t))
	if err != nil || !m.Private() || strings.Contains(m.Content, "140") {
		t.Errorf("somebody else reads %v %v", m, err)
	}
	p.srv.Advance(2 * time.Hour)
	m, err = p.srv.User("ana").Press(offer.ID, "Show me").AwaitMessage(soon(t))
	if err != nil || !strings.Contains(m.Content, "no longer kept") {
		t.Errorf("%v %v", m, err)
	}
	if n := len(p.bot.await(t, 1)); n != 1 {
		t.Errorf("the bot heard %d events: the button is the adapter's own", n)
	}
}

func TestReplyInADirectConversationStaysThere(t *testing.T) {
	p := start(t)
	p.says(quick("Kept.", true))
	if _, err := p.srv.User("ana").Say("", "squat 140x5"); err != nil {
		t.Fatal(err)
	}
	p.awaits("ana", "", func(m discordtest.Message) bool { return m.Bot && m.Content == "Kept." })
}

func TestRepliesSurviveALostAnswerOnce(t *testing.T) {
	p := start(t)
	p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.CutAfter})
	p.says(quick("Once.", false))
	p.said("hello")
	p.until(func() bool { return len(p.srv.RequestsTo("POST", postRoute)) == 2 })
	if _, err := p.srv.AwaitRequests(soon(t), 1, "POST", postRoute); err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, m := range p.srv.User("bea").Sees("#training-log") {
		if m.Bot {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d answers", n)
	}
}

func TestReplyWhereTheBotMayNotWriteGoesToThePersonAndIsToldOnce(t *testing.T) {
	p := start(t)
	p.srv.Deny("training-log", discordtest.SendMessages)
	p.says(quick("For all.", false))
	for n := range 3 {
		p.said("hello")
		p.until(func() bool { return len(p.srv.User("ana").Inbox()) == n+1 })
	}
	if n := strings.Count(p.log.String(), "lacks a right"); n != 1 {
		t.Errorf("it was said %d times", n)
	}
}

func TestPanicOverAMessageStopsNothing(t *testing.T) {
	p := start(t)
	p.answers(func(_ context.Context, e chat.Event) (chat.Reply, error) {
		if e.Text == "bad" {
			panic("plates fell")
		}
		return quick("Fine.", false), nil
	})
	bad := p.said("bad")
	p.awaits("ana", "", func(m discordtest.Message) bool { return strings.Contains(m.Content, "the reference "+bad) })
	p.said("good")
	p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return m.Content == "Fine." })
	p.log.await(t, "plates fell")
}

func TestLongAnswerIsCutAndGoesAlongAsAFile(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	long := strings.Repeat("squat 140x5_ ", 900)
	var fields []chat.Field
	for range 30 {
		fields = append(fields, chat.Field{Name: "week", Value: "3 x 5"})
	}
	p.says(chat.Reply{Kind: chat.Answer, Message: chat.Message{Private: true, Title: "All", Text: long, Fields: fields}})
	m, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Attachments) != 1 || !strings.Contains(string(m.Attachments[0].Bytes), long) {
		t.Errorf("%v", m)
	}
}

func TestPlainWordsStayPlain(t *testing.T) {
	p := start(t)
	p.says(quick("3*5 and *4*\n# not a heading\n@everyone <@1>", false))
	p.said("hello")
	m := p.awaits("bea", "#training-log", func(m discordtest.Message) bool { return m.Bot })
	if want := "3\\*5 and \\*4\\*\n\\# not a heading\n@everyone \\<@1>"; m.Content != want || m.Pings.Everyone {
		t.Errorf("%q rings %+v, want %q", m.Content, m.Pings, want)
	}
}
