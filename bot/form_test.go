package bot

import (
	"slices"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestProfileFormIsMeSetInAnotherDress(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me"))
	form := k.ok(k.press("ana", "Fill in")).Form
	if form == nil || len(form.Fields) != 5 || len([]rune(form.Title)) > 45 {
		t.Fatalf("form %+v", form)
	}
	for _, f := range form.Fields {
		if len([]rune(f.Label)) > 45 || len([]rune(f.Hint)) > 100 {
			t.Errorf("%s is too long for a form", f.Name)
		}
	}
	send := func(options ...chat.Option) chat.Reply {
		e := k.event("ana")
		e.Kind, e.Button, e.Options = chat.Sent, form.Token, options
		return k.handle(e)
	}
	k.ok(send(chat.Option{Name: "squat", Value: "about 120"}, chat.Option{Name: "bench", Value: ""}, chat.Option{Name: "born", Value: "18 or over"}))
	k.refused(send(chat.Option{Name: "squat", Value: "130"}, chat.Option{Name: "bodyweight", Value: "5000"}), "bodyweight", "5000")
	got := data[struct {
		Profile struct {
			Squat *float64 `json:"squat_kg"`
			Bench *float64 `json:"bench_kg"`
			Born  *string  `json:"born"`
		} `json:"profile"`
	}](t, k.ok(k.say("ana", "/me")))
	if got.Profile.Squat == nil || *got.Profile.Squat != 120 || got.Profile.Bench != nil || got.Profile.Born != nil {
		t.Errorf("%+v", got.Profile)
	}
}

func TestSuggestionsTellNobodyAboutOthers(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.ok(k.say("ben", `/meet add name:"Spring Cup" date:2027-04-24`))
	k.ok(k.say("cap", "/me"))
	suggest := func(who, option, typed string) []string {
		got, err := k.bot.Suggest(t.Context(), chat.Event{Author: chat.Person{ID: who}}, option, typed)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if got := suggest("ben", "lifter", ""); !slices.Equal(got, []string{"ben"}) {
		t.Errorf("a lifter is offered %v", got)
	}
	if got := suggest("cap", "lifter", "A"); !slices.Contains(got, "ana") {
		t.Errorf("the captain is offered %v", got)
	}
	if got := suggest("ana", "name", "river"); !slices.Equal(got, []string{"River Open"}) {
		t.Errorf("meets %v", got)
	}
	if got := suggest("stranger", "name", ""); len(got) != 0 {
		t.Errorf("a stranger is offered %v", got)
	}
}

// The limits of the platform's command reference: names of 1 to 32 lower-case
// characters, texts of 1 to 100, at most 25 options and choices, required ones
// first, 8,000 characters in one command with all its subcommands.
func TestCommandsFitWhereTheyAreRegistered(t *testing.T) {
	size := map[string]int{}
	for _, c := range Specs() {
		if n := len([]rune(c.About)); n < 1 || n > 100 {
			t.Errorf("/%s %s: about has %d characters", c.Name, c.Sub, n)
		}
		size[c.Name] += len(c.Name) + len(c.Sub) + len(c.About)
		optional := false
		for _, p := range c.Params {
			if n := len([]rune(p.About)); n < 1 || n > 100 {
				t.Errorf("/%s %s %s: about has %d characters", c.Name, c.Sub, p.Name, n)
			}
			if p.Required && optional {
				t.Errorf("/%s %s: %s is required behind an optional one", c.Name, c.Sub, p.Name)
			}
			optional = optional || !p.Required
			size[c.Name] += len(p.Name) + len(p.About) + 2*len(strings.Join(p.Choices, ""))
			if len(p.Choices) > 25 || len(c.Params) > 25 || strings.ToLower(p.Name) != p.Name || len(p.Name) > 32 {
				t.Errorf("/%s %s %s does not fit", c.Name, c.Sub, p.Name)
			}
		}
	}
	for name, n := range size {
		if n > 8000 {
			t.Errorf("/%s has %d characters", name, n)
		}
	}
}
