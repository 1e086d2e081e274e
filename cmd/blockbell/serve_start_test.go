package main

import (
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
	"blockbell/store"
)

// refused starts serve, which must end by itself, and returns what it said.
func (s *serving) refused(more ...string) string {
	s.t.Helper()
	s.begin(more...)
	if status := s.ended(); status != statusFailed {
		s.t.Errorf("%v: status %d, want %d", more, status, statusFailed)
	}
	return s.err.String()
}

// wants fails unless every one of the words is in the text.
func wants(t *testing.T, text string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not in\n%s", w, text)
		}
	}
}

func TestServePrintsWhereToInviteIt(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.ready()
	wants(t, s.out.String(), "https://discord.com/oauth2/authorize?", "client_id="+s.srv.AppID(), "permissions=274878024768", "scope=bot+applications.commands")
	if strings.Contains(s.out.String(), "intent") {
		t.Errorf("an intent that is on is spoken of: %s", s.out)
	}
}

func TestServeWithoutMessageContent(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Disallowed: discordtest.MessageContentIntent})
	s.ready()
	wants(t, s.out.String(), "The message-content intent is off", "direct messages", "mention", "page Bot")
	ana := s.srv.User("ana")
	if _, err := ana.Say("#training-log", "<@"+s.srv.BotID()+"> squat 100x5 @8"); err != nil {
		t.Fatal(err)
	}
	if _, err := ana.Say("", "bench 60x5 @8"); err != nil {
		t.Fatal(err)
	}
	if _, err := s.srv.AwaitRequests(soon(t), 2, "PUT", markRoute); err != nil {
		t.Errorf("not both lines were kept: %v", err)
	}
	m, err := ana.Command("#training-log", "log recent").AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	wants(t, fmt.Sprint(m.Content, m.Embeds), "100", "60")
}

func TestServeRefusesToStart(t *testing.T) {
	t.Parallel()
	t.Run("bad token", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		if err := os.WriteFile(s.tokens, []byte("MTIzNDU2.outdated.secret"), 0o600); err != nil {
			t.Fatal(err)
		}
		said := s.refused()
		wants(t, said, "does not accept the bot's token", "Reset Token", "blockbell check")
		if strings.Contains(said, "outdated.secret") {
			t.Errorf("the refused token is written: %s", said)
		}
	})
	t.Run("token withdrawn at the gateway", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		s.srv.Gateway().Greet(discordtest.CloseForReady(4004))
		wants(t, s.refused(), "does not accept the bot's token", "Reset Token", "4004")
	})
	t.Run("intent withdrawn at the gateway", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		s.srv.Gateway().Greet(discordtest.CloseForReady(4014))
		wants(t, s.refused(), "Message Content Intent", "4014")
	})
	t.Run("token withdrawn while it runs", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		s.ready()
		s.srv.Gateway().CloseWith(4004)
		if status := s.ended(); status != statusFailed {
			t.Errorf("status %d", status)
		}
		wants(t, s.err.String(), "does not accept the bot's token")
	})
	t.Run("several servers", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		s.srv.AddGuild("Hill Lifting Club")
		wants(t, s.refused(), "2 servers")
	})
	t.Run("address that is not safe", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		wants(t, s.refused("--api", "http://platform.example"), "unencrypted")
	})
	t.Run("no platform at a bad zone", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		wants(t, s.refused("--zone", "Lisbon"), "--zone", `"Lisbon"`, "Europe/Lisbon")
		wants(t, s.refused("--zone", "Local"), "--zone")
		wants(t, s.refused("--hour", "25:00"), "--hour")
		if n := len(s.srv.Requests()); n != 0 {
			t.Errorf("%d requests were made", n)
		}
	})
	t.Run("health address taken", func(t *testing.T) {
		s := newServing(t, discordtest.Options{})
		wants(t, s.refused("--listen", strings.TrimPrefix(s.srv.URL(), "http://")), "--listen", "address already in use")
	})
}

func TestServeNeedsAToken(t *testing.T) {
	t.Setenv(tokenVariable, "")
	status, _, errs := run(t, "", "serve", "--db", filepath.Join(t.TempDir(), "club.db"))
	if status != statusFailed {
		t.Errorf("status %d", status)
	}
	wants(t, errs, "There is no bot token", tokenVariable, "--token-file", "page Bot")
	empty := filepath.Join(t.TempDir(), "token")
	if err := os.WriteFile(empty, []byte(" \n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for file, says := range map[string]string{empty: "is empty", empty + ".none": "cannot be read"} {
		status, _, errs := run(t, "", "serve", "--db", filepath.Join(t.TempDir(), "club.db"), "--token-file", file)
		if status != statusFailed {
			t.Errorf("status %d", status)
		}
		wants(t, errs, says)
	}
}

func TestServeRefusesADatabaseInUse(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: mondayOn()})
	s.launched()
	second := s.launch()
	if status := second.wait(); status != statusFailed {
		t.Errorf("the second ended with status %d", status)
	}
	wants(t, second.err.String(), "in use", "process")
	if s.srv.Gateway().Stats().Identifies != 1 {
		t.Error("the second signed in")
	}
}

func TestServeRefusesARehearsal(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	if status, _, errs := run(t, "@ana /help\n", "rehearse", "--db", s.db, "-"); status != statusOK {
		t.Fatal(errs)
	}
	said := s.refused()
	wants(t, said, s.db, "terminal", "hint:")
	if n := len(s.srv.Requests()); n != 0 {
		t.Errorf("%d requests were made", n)
	}
}

func TestRehearsalRefusesTheWorkspace(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.ready()
	s.end()
	status, _, errs := run(t, "@ana /help\n", "rehearse", "--db", s.db, "-")
	if status != statusFailed {
		t.Errorf("status %d", status)
	}
	wants(t, errs, s.db, "belongs to a real club", "hint:")
}

func TestHourAndZoneAreKept(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.ready("--hour", "07:15", "--zone", "Europe/Ljubljana")
	s.end()
	s.ready()
	m, err := s.srv.User("cap").Command("#training-log", "club settings").AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	wants(t, fmt.Sprint(m.Embeds), "07:15", "Europe/Ljubljana")
}

func TestHealthTellsOfTheConnection(t *testing.T) {
	t.Parallel()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := l.Addr().String()
	l.Close()
	s := newServing(t, discordtest.Options{})
	s.ready("--listen", address)
	status := func() int {
		resp, err := http.Get("http://" + address + "/healthz")
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		return resp.StatusCode
	}
	if got := status(); got != http.StatusOK {
		t.Errorf("%d while connected", got)
	}
	s.srv.Gateway().Refuse(true)
	s.srv.Gateway().Drop()
	s.err.await(t, 1, "gateway connection ended")
	if got := status(); got != http.StatusServiceUnavailable {
		t.Errorf("%d while the gateway is away", got)
	}
}

// TestSettingsComeFromFlagThenVariableThenFile sets one thing in all three places.
func TestSettingsComeFromFlagThenVariableThenFile(t *testing.T) {
	s := newServing(t, discordtest.Options{})
	folder := t.TempDir()
	config := filepath.Join(folder, "blockbell.toml")
	text := fmt.Sprintf("db = %q\ntoken-file = %q\napi = %q\nhour = \"06:00\"\nzone = \"Europe/Oslo\"\n", filepath.Join(folder, "file.db"), s.tokens, s.srv.URL())
	if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		variable, flag string
		want           string
	}{{"", "", "6:0"}, {"06:30", "", "6:30"}, {"06:30", "06:45", "6:45"}} {
		os.Unsetenv("BLOCKBELL_HOUR")
		if c.variable != "" {
			t.Setenv("BLOCKBELL_HOUR", c.variable)
		}
		args := []string{"serve", "--config", config}
		if c.flag != "" {
			args = append(args, "--hour", c.flag)
		}
		s.beginWith(args...)
		s.err.await(t, 1, "gateway connected")
		s.end()
		db, err := store.OpenForReading(t.Context(), filepath.Join(folder, "file.db"))
		if err != nil {
			t.Fatal(err)
		}
		err = db.View(t.Context(), func(tx *store.Tx) error {
			club, err := tx.Club()
			if got := fmt.Sprintf("%d:%d", club.Hour, club.Minute); got != c.want || club.Zone != "Europe/Oslo" {
				t.Errorf("%+v: the hour is %s in %s", c, got, club.Zone)
			}
			return err
		})
		db.Close()
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestUnknownSettingIsRefused(t *testing.T) {
	t.Parallel()
	for text, says := range map[string]string{
		"databse = \"x.db\"\n": `"databse" is no setting`,
		"token = \"secret\"\n": `"token" is no setting`,
		"db = \n":              "the configuration file",
	} {
		config := filepath.Join(t.TempDir(), "blockbell.toml")
		if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		status, _, errs := run(t, "", "serve", "--config", config)
		if status != statusUsage && status != statusFailed {
			t.Errorf("%q: status %d", text, status)
		}
		wants(t, errs, says)
	}
}

// Nothing that a person wrote, no number of a set and no token is in the log, even
// at its most talkative.
func TestLogHoldsNobodysWords(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: mondayOn()})
	p := s.launched()
	ana := s.srv.User("ana")
	act := ana.Command("#training-log", "me set", discordtest.Opt{Name: "bodyweight", Value: "62.345"}, discordtest.Opt{Name: "name", Value: "Quillfeather"})
	if _, err := act.AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	if _, err := ana.Say("#training-log", "squat 101.5x5 zebra crossing"); err != nil {
		t.Fatal(err)
	}
	s.until(func() bool {
		return len(s.srv.RequestsTo("PUT", markRoute))+len(s.srv.RequestsTo("POST", postRoute)) > 0
	})
	s.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: discordtest.RefuseBefore, Status: 400, Code: 50035, Times: -1})
	ana.Command("#training-log", "help")
	p.err.await(t, 1, "the first answer to an interaction failed")
	p.terminate()
	log := p.out.String() + p.err.String()
	for _, secret := range []string{"Quillfeather", "62.345", "101.5", "zebra", s.srv.Token(), act.Token()} {
		if strings.Contains(log, secret) {
			t.Errorf("%q is in the log:\n%s", secret, log)
		}
	}
	if !regexp.MustCompile(`event=\d{17,}`).MatchString(log) {
		t.Errorf("no event is named:\n%s", log)
	}
}
