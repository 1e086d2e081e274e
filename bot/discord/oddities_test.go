package discord_test

import (
	"context"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

func TestHeartbeatIsSentWhenAskedFor(t *testing.T) {
	p := start(t)
	p.until(func() bool { return p.srv.Gateway().Stats().Heartbeats == 1 })
	p.srv.Gateway().AskHeartbeat()
	p.until(func() bool { return p.srv.Gateway().Stats().Heartbeats == 2 })
}

func TestEventsOutOfOrderAreAllHeard(t *testing.T) {
	p := start(t)
	ana := p.srv.User("ana")
	p.srv.Gateway().Swap(1)
	for _, text := range []string{"squat 100x5", "squat 110x5", "squat 120x5"} {
		if _, err := ana.Say("#training-log", text); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]bool{}
	for _, e := range p.bot.await(t, 3) {
		seen[e.Text] = true
	}
	if len(seen) != 3 {
		t.Errorf("heard %v", seen)
	}
}

// object is a JSON object.
type object = map[string]any

// TestUnknownComponentsAreReadOver sends a form with parts that the library cannot
// decode, on a message with more of them.
func TestUnknownComponentsAreReadOver(t *testing.T) {
	p := start(t)
	p.srv.Gateway().Dispatch("INTERACTION_CREATE", object{
		"id": discordtest.IDAt(p.srv.Now()), "application_id": p.srv.AppID(), "type": 5, "token": "unused", "version": 1,
		"channel_id": p.srv.Channel("training-log"), "guild_id": p.srv.Guild().ID,
		"member":  object{"user": object{"id": p.srv.User("ana").ID, "username": "ana"}, "roles": []string{}, "permissions": "0"},
		"message": object{"id": "1", "components": []object{{"type": 99, "novelty": true}}},
		"data": object{"custom_id": "b1:FORM", "components": []object{
			{"type": 97, "custom_id": "shiny", "values": []string{"x"}},
			{"type": 18, "component": object{"type": 4, "custom_id": "squat", "value": "140"}},
			{"type": 1, "components": []object{{"type": 4, "custom_id": "bench", "value": "100"}}},
		}},
	})
	e := p.bot.await(t, 1)[0]
	if e.Kind != chat.Sent || e.Button != "FORM" || len(e.Options) != 2 || e.Options[0].Value != "140" || e.Options[1].Value != "100" {
		t.Errorf("heard %+v", e)
	}
}

func TestNonsenseFromTheGatewayStopsNothing(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	for _, kind := range []string{"INTERACTION_CREATE", "MESSAGE_CREATE", "MESSAGE_UPDATE", "MESSAGE_DELETE", "GUILD_DELETE", "CHANNEL_UPDATE", "GUILD_ROLE_UPDATE"} {
		for _, data := range []any{nil, "text", 7, []int{1}, object{}, object{"id": 5}, object{"type": 2, "data": object{"options": "none"}}} {
			p.srv.Gateway().Dispatch(kind, data)
		}
	}
	p.answering()
}

func TestUnknownButtonIsExplained(t *testing.T) {
	p := start(t)
	for i, id := range []string{"", "old-button", "b0:TOKEN", "b1:"} {
		p.srv.Gateway().Dispatch("INTERACTION_CREATE", object{
			"id": discordtest.IDAt(p.srv.Now()) + string(rune('0'+i)), "application_id": p.srv.AppID(), "type": 3, "token": "unused",
			"channel_id": p.srv.Channel("training-log"), "guild_id": p.srv.Guild().ID,
			"member": object{"user": object{"id": p.srv.User("ana").ID, "username": "ana"}}, "message": object{"id": "1"},
			"data": object{"custom_id": id, "component_type": 2},
		})
	}
	if _, err := p.srv.User("ana").Say("#training-log", "the next event"); err != nil {
		t.Fatal(err)
	}
	if heard := p.bot.await(t, 1); len(heard) != 1 || heard[0].Kind != chat.Said {
		t.Errorf("the bot heard %+v: nobody can know those buttons", heard)
	}
}

func TestTwoProcessesGiveOneAnswer(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Once.", true))
	other, err := discord.New(p.conf)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- other.Run(ctx) }()
	t.Cleanup(func() {
		stop()
		<-ended
	})
	p.until(func() bool { return p.srv.Gateway().Stats().Ready == 2 })
	act := p.srv.User("ana").Command("#training-log", "block")
	p.bot.await(t, 2)
	p.log.await(t, "40060")
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Once." {
		t.Errorf("%v %v", m, err)
	}
	if n := len(p.srv.User("ana").Sees("#training-log")); n != 1 {
		t.Errorf("%d messages", n)
	}
}

func TestReactionToADeletedMessageIsLeftOut(t *testing.T) {
	p := start(t)
	p.answers(func(_ context.Context, e chat.Event) (chat.Reply, error) {
		if e.Kind == chat.Said {
			if err := p.srv.User("ana").Delete(e.Message); err != nil {
				t.Error(err)
			}
			return chat.Reply{Kind: chat.React, Reaction: "✅"}, nil
		}
		return chat.Reply{}, nil
	})
	if _, err := p.srv.User("ana").Say("#training-log", "squat 100x5"); err != nil {
		t.Fatal(err)
	}
	p.bot.await(t, 2)
	p.stop()
	if err := p.end(); err != nil {
		t.Error(err)
	}
	if strings.Contains(p.log.String(), "ERROR") {
		t.Errorf("a message that is gone is no error:\n%s", p.log)
	}
}
