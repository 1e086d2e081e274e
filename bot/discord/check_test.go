package discord_test

import (
	"net/url"
	"strings"
	"testing"

	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

// checked runs a check and returns what was wrong, joined.
func (p *play) checked(channels ...string) (good int, wrong, fix string) {
	p.t.Helper()
	found, err := discord.Check(soon(p.t), p.conf, channels...)
	if err != nil {
		p.t.Fatal(err)
	}
	for _, f := range found {
		if f.OK {
			good++
			continue
		}
		wrong += f.What + "\n"
		fix += f.Fix + "\n"
	}
	for _, r := range p.srv.Requests() {
		if r.Method != "GET" {
			p.t.Errorf("a check wrote: %s %s", r.Method, r.Path)
		}
	}
	if n := p.srv.Gateway().Stats().Connections; n != 0 {
		p.t.Errorf("a check connected %d times", n)
	}
	return good, wrong, fix
}

func TestCheckFindsAllWell(t *testing.T) {
	p := prepare(t)
	good, wrong, _ := p.checked("#training-log", "#announcements")
	if good != 6 || wrong != "" {
		t.Errorf("%d good, wrong: %s", good, wrong)
	}
}

func TestCheckSaysWhatToClick(t *testing.T) {
	for name, c := range map[string]struct {
		spoil      func(*play)
		wrong, fix string
	}{
		"token":   {func(p *play) { p.conf.Token = "outdated" }, "does not accept the token", "Reset Token"},
		"intent":  {func(p *play) { p.srv.Disallow(discordtest.MessageContentIntent) }, "message-content intent is off", "Message Content Intent"},
		"server":  {func(p *play) { p.srv.Guild().RemoveBot() }, "not in the server", "permissions=274878024768"},
		"servers": {func(p *play) { p.srv.AddGuild("Hill Lifting Club") }, "2 servers", "Name the server"},
		"channel": {func(p *play) { p.srv.Guild().DeleteChannel("training-log") }, "no channel #training-log", "/club settings"},
		"right":   {func(p *play) { p.srv.Deny("training-log", discordtest.AddReactions|discordtest.EmbedLinks) }, "lacks: Embed Links, Add Reactions", "page Permissions"},
		"budget":  {func(p *play) { p.srv.Gateway().SpendIdentifies(900) }, "only 100 of 1000", "after a day"},
	} {
		t.Run(name, func(t *testing.T) {
			p := prepare(t)
			c.spoil(p)
			_, wrong, fix := p.checked("#training-log", "#announcements")
			if !strings.Contains(wrong, c.wrong) || !strings.Contains(fix, c.fix) {
				t.Errorf("wrong: %sfix: %s", wrong, fix)
			}
		})
	}
}

func TestInvitationAsksForTheLeast(t *testing.T) {
	u, err := url.Parse(discord.InviteURL("1234"))
	if err != nil {
		t.Fatal(err)
	}
	q := u.Query()
	if u.Host != "discord.com" || q.Get("client_id") != "1234" || q.Get("permissions") != "274878024768" || q.Get("scope") != "bot applications.commands" {
		t.Error(u)
	}
}

func TestConfigurationIsChecked(t *testing.T) {
	good := prepare(t).conf
	for words, spoil := range map[string]func(*discord.Config){
		"token is missing":   func(c *discord.Config) { c.Token = " " },
		"no clock":           func(c *discord.Config) { c.Now = nil },
		"unencrypted":        func(c *discord.Config) { c.API = "http://discord.com" },
		"is not an address":  func(c *discord.Config) { c.API = "discord.com" },
		"not an address":     func(c *discord.Config) { c.API = "https://user@discord.com" },
		"no server's number": func(c *discord.Config) { c.Guild = "Harbour" },
	} {
		c := good
		spoil(&c)
		if _, err := discord.New(c); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want words about %q", err, words)
		}
	}
}
