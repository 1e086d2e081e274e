package discord_test

import (
	"testing"

	"blockbell/bot/discord/discordtest"
)

func TestCommandIsAnsweredPrivately(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Week 3 of 6.", true))
	act := p.srv.User("ana").Command("#training-log", "block")
	m, err := act.AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	if m.Content != "Week 3 of 6." || !m.Private() || act.Callback() != 4 {
		t.Errorf("answered with %d, %+v; want a private message at once", act.Callback(), m)
	}
	if seen := p.srv.User("bea").Sees("#training-log"); len(seen) != 0 {
		t.Errorf("others see %+v", seen)
	}
	_ = discordtest.SubCommand
}
