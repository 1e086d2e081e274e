package discord_test

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

func TestCommandBecomesAnEvent(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	ana := p.srv.User("ana")
	act := ana.Command("#training-log", "season build",
		discordtest.Opt{Name: "level", Value: "elite"}, discordtest.Opt{Name: "date", Value: "2027-06-12"})
	want := chat.Event{
		ID: act.ID, Kind: chat.Asked, At: p.srv.Now(), Author: chat.Person{ID: ana.ID, Name: "ana"}, Channel: "#training-log",
		Command: []string{"season", "build"},
		Options: []chat.Option{{Name: "level", Value: "elite"}, {Name: "date", Value: "2027-06-12"}},
	}
	got := p.bot.await(t, 1)[0]
	if got.Progress == nil {
		t.Error("progress cannot be shown")
	}
	got.Progress = nil // a function equals none
	if !reflect.DeepEqual(got, want) {
		t.Errorf("heard %+v, want %+v", got, want)
	}
}

func TestCommandInADirectConversationHasNoChannel(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Only you.", true))
	act := p.srv.User("ana").Command("", "block")
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Only you." {
		t.Errorf("%v %v", m, err)
	}
	if e := p.bot.await(t, 1)[0]; e.Channel != "" || e.Author.Name != "ana" {
		t.Errorf("heard %+v", e)
	}
}

func TestMentionsInOptionsBecomeNames(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	role := p.srv.Guild().AddRole("Coaches", 0, true)
	made := p.srv.Guild().AddChannel("lifting")
	ana := p.srv.User("ana")
	for i, c := range []struct{ option, value, want string }{
		{"log_channel", "<#" + made + ">", "#lifting"},
		{"log_channel", made, "#lifting"},
		{"log_channel", "#elsewhere", "#elsewhere"},
		{"captain_role", "<@&" + role + ">", "@Coaches"},
		{"captain_role", ana.Mention(), "@" + ana.ID},
	} {
		ana.Command("#training-log", "club settings", discordtest.Opt{Name: c.option, Value: c.value})
		if got := p.bot.await(t, i+1)[i].Options[0].Value; got != c.want {
			t.Errorf("%s:%s was heard as %q, want %q", c.option, c.value, got, c.want)
		}
	}
}

func TestMessagesBecomeEvents(t *testing.T) {
	p := start(t)
	ana := p.srv.User("ana")
	id, err := ana.Say("#training-log", "squat 140x5 @8")
	if err != nil {
		t.Fatal(err)
	}
	if err := ana.Edit(id, "squat 142.5x5 @8"); err != nil {
		t.Fatal(err)
	}
	if err := ana.Delete(id); err != nil {
		t.Fatal(err)
	}
	heard := p.bot.await(t, 3)
	who := chat.Person{ID: ana.ID, Name: "ana"}
	for i, want := range []chat.Event{
		{Kind: chat.Said, Author: who, Text: "squat 140x5 @8"},
		{Kind: chat.Edited, Author: who, Text: "squat 142.5x5 @8"},
		{Kind: chat.Deleted, Author: chat.Person{ID: ana.ID}},
	} {
		got := heard[i]
		if got.Kind != want.Kind || got.Author != want.Author || got.Text != want.Text || got.Message != id || got.Channel != "#training-log" || !got.At.Equal(p.srv.Now()) {
			t.Errorf("heard %+v, want %+v of message %s", got, want, id)
		}
	}
	if heard[0].ID == heard[1].ID || heard[1].ID == heard[2].ID || heard[0].ID == heard[2].ID {
		t.Error("different events share an identity")
	}
}

func TestDeletionOfAnOlderMessageAsksForItsAuthor(t *testing.T) {
	p := prepare(t, func(s *setup) {
		s.conf.AuthorOf = func(_ context.Context, message string) (string, bool) { return "of-" + message, true }
	})
	id, err := p.srv.User("ana").Say("#training-log", "before the bot was there")
	if err != nil {
		t.Fatal(err)
	}
	p.run()
	p.ready(1)
	if err := p.srv.User("ana").Delete(id); err != nil {
		t.Fatal(err)
	}
	if e := p.bot.await(t, 1)[0]; e.Kind != chat.Deleted || e.Author.ID != "of-"+id {
		t.Errorf("heard %+v", e)
	}
}

func TestMessagesOfBotsAreNotHeard(t *testing.T) {
	p := start(t)
	if _, err := p.srv.OtherBot("noise").Say("#training-log", "squat 500x1"); err != nil {
		t.Fatal(err)
	}
	if _, err := p.a.Post(soon(t), chat.Post{Key: "k", To: chat.Target{Channel: "#training-log"}, Message: chat.Message{Text: "own words"}, At: p.srv.Now()}); err != nil {
		t.Fatal(err)
	}
	if _, err := p.srv.User("ana").Say("#training-log", "squat 100x5"); err != nil {
		t.Fatal(err)
	}
	if heard := p.bot.await(t, 1); len(heard) != 1 || heard[0].Text != "squat 100x5" {
		t.Errorf("heard %+v", heard)
	}
}

func TestMentionAtTheStartIsStripped(t *testing.T) {
	p := start(t, func(s *setup) { s.conf.Content = false }) // without the intent only such messages have words
	ana := p.srv.User("ana")
	for i, c := range []struct{ said, want string }{
		{"<@%s> squat 140x5 @8", "squat 140x5 @8"},
		{"<@!%s>: /block", "/block"},
		{"  <@%s>", "/help"},
	} {
		if _, err := ana.Say("#training-log", fmt.Sprintf(c.said, p.srv.BotID())); err != nil {
			t.Fatal(err)
		}
		if got := p.bot.await(t, i+1)[i].Text; got != c.want {
			t.Errorf("%q was heard as %q, want %q", c.said, got, c.want)
		}
	}
	if _, err := ana.Say("#training-log", "nothing that the bot may read"); err != nil {
		t.Fatal(err)
	}
	id, err := ana.Say("#training-log", ana.Mention()+" not for the bot")
	if err != nil {
		t.Fatal(err)
	}
	if err := ana.Edit(id, "changed, but the bot may not read to what"); err != nil {
		t.Fatal(err)
	}
	if _, err := ana.Say("", "in private"); err != nil {
		t.Fatal(err)
	}
	if e := p.bot.await(t, 4)[3]; e.Text != "in private" || e.Channel != "" {
		t.Errorf("heard %+v", e)
	}
}

func TestEditThatLeavesOnlyTheMentionIsEmpty(t *testing.T) {
	p := start(t)
	ana, mention := p.srv.User("ana"), "<@"+p.srv.BotID()+">"
	id, err := ana.Say("#training-log", mention+" squat 140x5")
	if err != nil {
		t.Fatal(err)
	}
	if err := ana.Edit(id, mention); err != nil {
		t.Fatal(err)
	}
	if e := p.bot.await(t, 2)[1]; e.Kind != chat.Edited || e.Text != "" {
		t.Errorf("heard %+v", e)
	}
}

func TestTypedCommandNamesPeopleAndChannels(t *testing.T) {
	p := start(t)
	bea := p.srv.User("bea")
	if _, err := p.srv.User("ana").Say("#training-log", "/block lifter:"+bea.Mention()+" in <#"+p.srv.Channel("announcements")+">"); err != nil {
		t.Fatal(err)
	}
	if got, want := p.bot.await(t, 1)[0].Text, "/block lifter:@"+bea.ID+" in #announcements"; got != want {
		t.Errorf("heard %q, want %q", got, want)
	}
}

func TestCommandWhereTheBotSeesNothing(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.srv.Gateway().Lose(1) // the bot never hears of the channel
	hidden := p.srv.Guild().AddChannel("platform-hall")
	p.srv.Deny(hidden, discordtest.ViewChannel)
	p.says(quick("Here.", true))
	if m, err := p.srv.User("ana").Command(hidden, "block").AwaitMessage(soon(t)); err != nil || m.Content != "Here." {
		t.Errorf("%v %v", m, err)
	}
	if e := p.bot.await(t, 1)[0]; e.Channel != "#platform-hall" {
		t.Errorf("heard in %q", e.Channel)
	}
}

func TestThreadCountsAsItsChannel(t *testing.T) {
	p := start(t)
	thread := p.srv.Guild().AddThread("training-log", "monday")
	if _, err := p.srv.User("ana").Say(thread, "squat 140x5"); err != nil {
		t.Fatal(err)
	}
	if e := p.bot.await(t, 1)[0]; e.Channel != "#training-log" {
		t.Errorf("heard in %q", e.Channel)
	}
}

func TestRenamedAndNewChannelsAreKnown(t *testing.T) {
	p := start(t)
	if _, err := p.srv.User("ana").Say(p.srv.Guild().AddChannel("second-log"), "bench 80x5"); err != nil {
		t.Fatal(err)
	}
	if e := p.bot.await(t, 1)[0]; e.Channel != "#second-log" {
		t.Errorf("heard in %q", e.Channel)
	}
	if n := len(p.srv.RequestsTo("GET", "/channels/{channel_id}")); n != 0 {
		t.Errorf("%d questions were asked about channels the gateway had told of", n)
	}
}

func TestCaptains(t *testing.T) {
	p := start(t, withTable, func(s *setup) {
		s.conf.CaptainRole = func(context.Context) (string, error) { return "@lead", nil }
	})
	p.registered()
	g := p.srv.Guild()
	managers := g.AddRole("Managers", discordtest.ManageGuild, false)
	lead := g.AddRole("Lead", 0, false)
	mia, lou, ana := p.srv.User("mia"), p.srv.User("lou"), p.srv.User("ana")
	g.Grant(mia, managers)
	g.Grant(lou, lead)
	n := 0
	for _, c := range []struct {
		who  *discordtest.User
		want bool
	}{{p.srv.User("cap"), true}, {mia, true}, {lou, true}, {ana, false}} {
		c.who.Command("#training-log", "block")
		if _, err := c.who.Say("#training-log", "/club board"); err != nil {
			t.Fatal(err)
		}
		n += 2
		for _, e := range p.bot.await(t, n)[n-2:] {
			if e.Author.Captain != c.want {
				t.Errorf("%s of %s: captain %v, want %v", e.Kind, c.who.Name, e.Author.Captain, c.want)
			}
		}
	}
}

func TestOtherServersAreLeftAlone(t *testing.T) {
	p := prepare(t, withTable)
	p.run()
	p.ready(1)
	p.registered()
	other := p.srv.AddGuild("Hill Lifting Club")
	ana := p.srv.User("ana")
	other.Join(ana)
	where := other.AddChannel("hill-log")
	if _, err := ana.Say(where, "squat 140x5"); err != nil {
		t.Fatal(err)
	}
	act := ana.Command(where, "block")
	if m, err := act.AwaitMessage(soon(t)); err != nil || !m.Private() || !strings.Contains(m.Content, "another server") {
		t.Errorf("%v %v", m, err)
	}
	p.answering()
	if heard := p.bot.await(t, 1); len(heard) != 1 {
		t.Errorf("heard %+v", heard)
	}
}

func TestDuplicateMessageReachesTheBotWithOneIdentity(t *testing.T) {
	p := start(t)
	ana := p.srv.User("ana")
	p.srv.Gateway().Duplicate(1)
	if _, err := ana.Say("#training-log", "squat 140x5"); err != nil {
		t.Fatal(err)
	}
	if heard := p.bot.await(t, 2); heard[0].ID != heard[1].ID {
		t.Errorf("heard %+v", heard)
	}
}
