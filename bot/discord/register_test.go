package discord_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

const commandsRoute = "/applications/{application_id}/commands"

func TestCommandsAreRegisteredByComparison(t *testing.T) {
	p := prepare(t, withTable)
	writes, err := p.a.Register(soon(t))
	if err != nil || writes != 3 {
		t.Fatalf("%d writes, %v", writes, err)
	}
	if writes, err = p.a.Register(soon(t)); err != nil || writes != 0 {
		t.Errorf("again: %d writes, %v", writes, err)
	}
	p.a.Commands = append(table()[1:], chat.Command{Name: "help", About: "what I can do"})
	p.a.Commands[0].About = "the whole plan"
	if writes, err = p.a.Register(soon(t)); err != nil || writes != 3 {
		t.Errorf("one removed, one changed, one new: %d writes, %v", writes, err)
	}
	var names []string
	for _, c := range p.srv.Commands() {
		names = append(names, c.Name)
	}
	slices.Sort(names)
	if got := strings.Join(names, " "); got != "club help season" {
		t.Errorf("registered %s", got)
	}
	for _, method := range []string{"POST", "PATCH", "DELETE"} {
		route := commandsRoute
		if method != "POST" {
			route += "/{command_id}"
		}
		want := 1
		if method == "POST" {
			want = 4
		}
		if n := len(p.srv.RequestsTo(method, route)); n != want {
			t.Errorf("%d times %s, want %d", n, method, want)
		}
	}
}

func TestRestartWritesNoCommands(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.stop()
	if err := p.end(); err != nil {
		t.Fatal(err)
	}
	if n, err := p.a.Register(soon(t)); err != nil || n != 0 {
		t.Errorf("%d writes, %v", n, err)
	}
}

func TestCommandsOfEveryShape(t *testing.T) {
	p := prepare(t, withTable)
	if _, err := p.a.Register(soon(t)); err != nil {
		t.Fatal(err)
	}
	byName := map[string]discordtest.Command{}
	for _, c := range p.srv.Commands() {
		byName[c.Name] = c
	}
	season := byName["season"]
	if season.Description != "show, build" || len(season.Options) != 2 || season.Options[1].Type != discordtest.SubCommand {
		t.Fatalf("%+v", season)
	}
	build := season.Options[1].Options
	if build[0].Name != "date" || !build[0].Required {
		t.Errorf("the required option is not first: %+v", build)
	}
	if build[1].Name != "level" || len(build[1].Choices) != 2 || build[1].Autocomplete {
		t.Errorf("%+v", build[1])
	}
	if build[2].Name != "lifter" || !build[2].Autocomplete {
		t.Errorf("%+v", build[2])
	}
	if byName["club"].Rights != nil {
		t.Error("a captain without rights in the server could not see the command")
	}
}

func TestTablesThatThePlatformWouldRefuse(t *testing.T) {
	many := make([]chat.Param, 26)
	subs := make([]chat.Command, 26)
	for i := range many {
		many[i] = chat.Param{Name: fmt.Sprintf("o%d", i), About: "x"}
		subs[i] = chat.Command{Name: "many", Sub: fmt.Sprintf("s%d", i), About: "x"}
	}
	heavy := make([]chat.Command, 20)
	for i := range heavy {
		heavy[i] = chat.Command{Name: "heavy", Sub: fmt.Sprintf("s%d", i), About: strings.Repeat("a", 100)}
		for k := range 10 {
			heavy[i].Params = append(heavy[i].Params, chat.Param{Name: fmt.Sprintf("o%d", k), About: strings.Repeat("b", 100)})
		}
	}
	for name, c := range map[string]struct {
		table []chat.Command
		words string
	}{
		"bad name":            {[]chat.Command{{Name: "Me Now", About: "x"}}, "Me Now"},
		"bad option":          {[]chat.Command{{Name: "me", About: "x", Params: []chat.Param{{Name: "two words"}}}}, "two words"},
		"option twice":        {[]chat.Command{{Name: "me", About: "x", Params: []chat.Param{{Name: "a"}, {Name: "a"}}}}, "twice"},
		"26 options":          {[]chat.Command{{Name: "me", About: "x", Params: many}}, "26 options"},
		"26 subcommands":      {subs, "26 subcommands"},
		"with and without":    {[]chat.Command{{Name: "me", About: "x"}, {Name: "me", Sub: "set", About: "x"}}, "with and without"},
		"without and with":    {[]chat.Command{{Name: "me", Sub: "set", About: "x"}, {Name: "me", About: "x"}}, "with and without"},
		"too many characters": {heavy, "characters"},
	} {
		t.Run(name, func(t *testing.T) {
			p := prepare(t)
			p.a.Commands = c.table
			n, err := p.a.Register(soon(t))
			if err == nil || n != 0 || !strings.Contains(err.Error(), c.words) {
				t.Errorf("%d writes, %v; want an error that speaks of %q", n, err, c.words)
			}
			if len(p.srv.Requests()) != 0 {
				t.Error("the platform was asked all the same")
			}
		})
	}
}

func TestRegistrationIsTriedAgainWhileThePlatformFails(t *testing.T) {
	p := prepare(t, withTable)
	p.srv.Fail(discordtest.Fault{Method: "GET", Route: commandsRoute, Kind: discordtest.RefuseBefore, Status: 503, Times: 5})
	p.run()
	p.registered()
}

// guesses suggests words.
type guesses struct {
	words []string
	err   error
	asked chan chat.Event
}

func (g *guesses) Suggest(_ context.Context, e chat.Event, option, typed string) ([]string, error) {
	e.Text = option + "=" + typed
	g.asked <- e
	return g.words, g.err
}

func TestSuggestions(t *testing.T) {
	g := &guesses{asked: make(chan chat.Event, 1)}
	for i := range 30 {
		g.words = append(g.words, fmt.Sprint("lifter ", i))
	}
	g.words = append([]string{strings.Repeat("x", 101), "lifter 0", ""}, g.words...)
	p := start(t, withTable, func(s *setup) { s.conf.Suggester = g })
	p.registered()
	act := p.srv.User("ana").Autocomplete("#training-log", "season build", "lifter", "li", discordtest.Opt{Name: "level", Value: "novice"})
	got, err := act.AwaitChoices(soon(t))
	if err != nil || len(got) != 25 || got[0].Value != "lifter 0" || got[1].Value != "lifter 1" {
		t.Errorf("%v %v", got, err)
	}
	e := <-g.asked
	if e.Text != "lifter=li" || strings.Join(e.Command, " ") != "season build" || e.Author.Name != "ana" {
		t.Errorf("asked %+v", e)
	}
}

func TestSuggestionsThatFailAreNone(t *testing.T) {
	g := &guesses{asked: make(chan chat.Event, 1), err: errors.New("no idea")}
	p := start(t, withTable, func(s *setup) { s.conf.Suggester = g })
	p.registered()
	if got, err := p.srv.User("ana").Autocomplete("#training-log", "season build", "lifter", "").AwaitChoices(soon(t)); err != nil || len(got) != 0 {
		t.Errorf("%v %v", got, err)
	}
}

func TestMoreChoicesThanFitAreSuggested(t *testing.T) {
	var kinds []string
	for i := range 30 {
		kinds = append(kinds, fmt.Sprintf("kind-%02d", i))
	}
	p := start(t, func(s *setup) {
		s.conf.Commands = []chat.Command{{Name: "nudges", About: "x", Params: []chat.Param{{Name: "kind", About: "x", Choices: kinds}}}}
	})
	p.until(func() bool { return len(p.srv.Commands()) == 1 })
	got, err := p.srv.User("ana").Autocomplete("#training-log", "nudges", "kind", "-2").AwaitChoices(soon(t))
	if err != nil || len(got) != 10 || got[0].Value != "kind-20" {
		t.Errorf("%v %v", got, err)
	}
}
