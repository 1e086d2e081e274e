package discord_test

import (
	"context"
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
)

// A channel is hidden where neither everybody nor an ordinary role can read it;
// captains, who may read everything or hold the captain's role, do not count.
func TestReadersOfAChannel(t *testing.T) {
	p := start(t, func(s *setup) {
		s.conf.CaptainRole = func(context.Context) (string, error) { return "Lead", nil }
	})
	g := p.srv.Guild()
	g.AddRole("Managers", discordtest.ManageGuild, false)
	lead, friends := g.AddRole("Lead", 0, false), g.AddRole("Friends", 0, false)
	place := g.AddChannel("captains")
	said := 0
	readers := func(want string) {
		t.Helper()
		// What is heard after a change was told after it.
		if _, err := p.srv.User("ana").Say("#training-log", "squat 140x5"); err != nil {
			t.Fatal(err)
		}
		said++
		p.bot.await(t, said)
		if got := p.a.Readers("#captains"); want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("readers %q, want %q", got, want)
		}
	}
	readers("everybody")
	g.Overwrite(place, discordtest.Overwrite{ID: g.ID, Deny: discordtest.ViewChannel})
	readers("")
	g.Overwrite(place, discordtest.Overwrite{ID: lead, Allow: discordtest.ViewChannel})
	readers("")
	g.Overwrite(place, discordtest.Overwrite{ID: friends, Allow: discordtest.ViewChannel})
	readers("Friends")
	if got := p.a.Readers("#nowhere"); !strings.Contains(got, "no such channel") {
		t.Errorf("a channel that does not exist: %q", got)
	}
}
