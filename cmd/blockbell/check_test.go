package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
)

// checked runs blockbell check.
func (s *serving) checked(more ...string) (status int, said string) {
	s.t.Helper()
	var out, errs bytes.Buffer
	p := program{now: s.srv.Now}
	status = p.Run(s.t.Context(), s.args("check", more...), strings.NewReader(""), &out, &errs)
	said = out.String() + errs.String()
	s.noSecrets(said)
	for _, r := range s.srv.Requests() {
		if r.Method != "GET" {
			s.t.Errorf("a check wrote: %s %s", r.Method, r.Path)
		}
	}
	return status, said
}

func TestCheckFindsAllWell(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	for _, database := range []string{"not there yet", "whole, made for the platform"} {
		status, said := s.checked()
		if status != statusOK || strings.Contains(said, "to do") {
			t.Errorf("status %d:\n%s", status, said)
		}
		wants(t, said, database, "the token belongs to", "the message-content intent is on", "sign-ins are left",
			"the bot is in the server", "all its rights in #training-log", "all its rights in #announcements")
		if database == "not there yet" {
			if _, err := os.Stat(s.db); err == nil {
				t.Error("a check made a database")
			}
			makeDatabase(t, s, "", "")
		}
	}
}

// makeDatabase has serve make the database, with two channels set where they are
// not empty.
func makeDatabase(t *testing.T, s *serving, logs, posts string) {
	t.Helper()
	o := newServing(t, discordtest.Options{}) // elsewhere, so that nothing is written here
	o.db = s.db
	o.ready()
	if logs != "" {
		act := o.srv.User("cap").Command("#training-log", "club settings",
			discordtest.Opt{Name: "log_channel", Value: logs}, discordtest.Opt{Name: "nudge_channel", Value: posts})
		if _, err := act.AwaitMessage(soon(t)); err != nil {
			t.Fatal(err)
		}
	}
	o.end()
}

func TestCheckSaysWhatToClick(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		spoil func(*testing.T, *serving)
		says  []string
	}{
		"bad token": {func(t *testing.T, s *serving) { writeFile(t, s.tokens, "outdated.token") },
			[]string{"does not accept the token", "Reset Token"}},
		"no token": {func(t *testing.T, s *serving) { writeFile(t, s.tokens, "") },
			[]string{"is empty", "page Bot", tokenVariable}},
		"intent off": {func(_ *testing.T, s *serving) { s.srv.Disallow(discordtest.MessageContentIntent) },
			[]string{"message-content intent is off", "switch on Message Content Intent"}},
		"not in the server": {func(_ *testing.T, s *serving) { s.srv.Guild().RemoveBot() },
			[]string{"not in the server", "https://discord.com/oauth2/authorize?", "choose your server"}},
		"several servers": {func(_ *testing.T, s *serving) { s.srv.AddGuild("Hill Lifting Club") },
			[]string{"2 servers", "Name the server"}},
		"missing rights": {func(_ *testing.T, s *serving) {
			s.srv.Deny("announcements", discordtest.SendMessages|discordtest.EmbedLinks)
		}, []string{"in #announcements the bot lacks: Send Messages, Embed Links", "settings of #announcements, page Permissions", "all its rights in #training-log"}},
		"channel missing": {func(_ *testing.T, s *serving) { s.srv.Guild().DeleteChannel("training-log") },
			[]string{"no channel #training-log", "/club settings"}},
		"another channel set": {func(t *testing.T, s *serving) { makeDatabase(t, s, "#lifting", "#news") },
			[]string{"no channel #lifting", "no channel #news"}},
		"damaged database": {func(t *testing.T, s *serving) {
			makeDatabase(t, s, "", "")
			spoilFile(t, s.db)
		}, []string{"database", "damaged", "the token belongs to"}},
		"no database": {func(t *testing.T, s *serving) { writeFile(t, s.db, strings.Repeat("not a database ", 400)) },
			[]string{"not a database"}},
		"rehearsal": {func(t *testing.T, s *serving) {
			if status, _, errs := run(t, "@ana /help\n", "rehearse", "--db", s.db, "-"); status != statusOK {
				t.Fatal(errs)
			}
		}, []string{"belongs to the terminal", "the token belongs to"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := newServing(t, discordtest.Options{})
			c.spoil(t, s)
			status, said := s.checked()
			if status != statusFailed {
				t.Errorf("status %d, want %d", status, statusFailed)
			}
			wants(t, said, append(c.says, "to do  ")...)
			if strings.Contains(said, "outdated.token") {
				t.Errorf("the refused token is written: %s", said)
			}
		})
	}
}

func writeFile(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// spoilFile overwrites the pages behind the first, which holds the schema.
func spoilFile(t *testing.T, path string) {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := 3 * 4096; i < len(raw); i++ {
		raw[i] = 0xA5
	}
	if err := os.WriteFile(path, raw, 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestCheckWithoutAPlatform(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.srv.Fail(discordtest.Fault{Kind: discordtest.CutBefore, Times: -1})
	status, said := s.checked()
	if status != statusFailed {
		t.Errorf("status %d", status)
	}
	wants(t, said, "no answer from the platform")
}

// A check can be made while the bot runs.
func TestCheckBesideServe(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.ready()
	var out, errs bytes.Buffer
	p := program{now: s.srv.Now}
	if status := p.Run(t.Context(), s.args("check"), strings.NewReader(""), &out, &errs); status != statusOK {
		t.Errorf("status %d: %s%s", status, out.String(), errs.String())
	}
}
