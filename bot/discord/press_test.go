package discord_test

import (
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

// offered shows a message with buttons to ana and returns it.
func (p *play) offered(private bool, buttons ...chat.Button) discordtest.Message {
	p.t.Helper()
	p.registered()
	p.says(chat.Reply{Kind: chat.Answer, Message: chat.Message{Private: private, Title: "Plan", Text: "Three blocks.", Buttons: buttons}})
	m, err := p.srv.User("ana").Command("#training-log", "season show").AwaitMessage(soon(p.t))
	if err != nil {
		p.t.Fatal(err)
	}
	return m
}

var accept, decline = chat.Button{Label: "Accept plan", Token: "TOKENA"}, chat.Button{Label: "Not now", Token: "TOKENB"}

func TestPressBecomesAnEvent(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(true, accept, decline)
	act := p.srv.User("ana").Press(m.ID, "Not now")
	e := p.bot.await(t, 2)[1]
	if e.Kind != chat.Pressed || e.Button != "TOKENB" || e.ID != act.ID || e.Author.Name != "ana" || e.Channel != "#training-log" {
		t.Errorf("heard %+v", e)
	}
}

func TestUpdateChangesTheMessageAndSwitchesItsButtonsOff(t *testing.T) {
	for _, deferred := range []bool{false, true} {
		t.Run(map[bool]string{false: "at once", true: "deferred"}[deferred], func(t *testing.T) {
			p := start(t, withTable, func(s *setup) {
				if deferred {
					soonDeferred(s)
				}
			})
			m := p.offered(true, accept, decline)
			r := chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Title: "Accepted", Text: "It begins on Monday."}}
			p.says(r)
			want := 7
			if deferred {
				p.slow(r)
				want = 6
			}
			act := p.srv.User("ana").Press(m.ID, "Accept plan")
			got, err := act.AwaitMessage(soon(t))
			if err != nil || act.Callback() != want {
				t.Fatalf("callback %d, %v", act.Callback(), err)
			}
			if got.ID != m.ID || got.Embeds[0].Title != "Accepted" {
				t.Errorf("changed to %v", got)
			}
			for _, b := range got.Components[0].Components {
				if !b.Disabled {
					t.Errorf("button %q can still be pressed", b.Label)
				}
			}
		})
	}
}

func TestUpdateWithButtonsOfItsOwnShowsThose(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(true, accept)
	p.says(chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Sure?", Buttons: []chat.Button{decline}}})
	got, err := p.srv.User("ana").Press(m.ID, "Accept plan").AwaitMessage(soon(t))
	if err != nil || len(got.Embeds) != 0 || got.Content != "Sure?" || len(got.Components) != 1 || got.Components[0].Components[0].Label != "Not now" {
		t.Errorf("%v %v %+v", got, err, got.Components)
	}
}

func TestPrivateUpdateNeverLandsOnAPublicMessage(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(false, accept)
	p.says(chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Your squat: 140 kg."}})
	got, err := p.srv.User("ana").Press(m.ID, "Accept plan").AwaitMessage(soon(t))
	if err != nil || !got.Private() || got.ID == m.ID {
		t.Errorf("%v %v", got, err)
	}
}

func TestAnswerToAPressIsAMessageOfItsOwn(t *testing.T) {
	for _, deferred := range []bool{false, true} {
		t.Run(map[bool]string{false: "at once", true: "deferred"}[deferred], func(t *testing.T) {
			p := start(t, withTable, func(s *setup) {
				if deferred {
					soonDeferred(s)
				}
			})
			m := p.offered(false, accept)
			p.says(quick("Only you see this.", true))
			if deferred {
				p.slow(quick("Only you see this.", true))
			}
			act := p.srv.User("ana").Press(m.ID, "Accept plan")
			if deferred {
				more, err := act.AwaitFollowUps(soon(t), 1)
				if err != nil || !more[0].Private() || more[0].Content != "Only you see this." {
					t.Errorf("%v %v", more, err)
				}
				return
			}
			if got, err := act.AwaitMessage(soon(t)); err != nil || !got.Private() || got.ID == m.ID {
				t.Errorf("%v %v", got, err)
			}
		})
	}
}

func TestSilenceToAPressIsAcknowledged(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(true, accept)
	p.says(chat.Reply{})
	if kind, err := p.srv.User("ana").Press(m.ID, "Accept plan").Await(soon(t)); err != nil || kind != 6 {
		t.Errorf("callback %d, %v", kind, err)
	}
}

func TestSilenceToACommandIsExplained(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	if m, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t)); err != nil || m.Content != "Already done." || !m.Private() {
		t.Errorf("%v %v", m, err)
	}
}

func TestReactionToACommandIsALine(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(chat.Reply{Kind: chat.React, Reaction: "✅", Message: chat.Message{Text: "Kept."}})
	if m, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t)); err != nil || m.Content != "✅ Kept." || !m.Private() {
		t.Errorf("%v %v", m, err)
	}
}

func TestManyButtonsStandInRows(t *testing.T) {
	p := start(t, withTable)
	var many []chat.Button
	for i := range 27 {
		many = append(many, chat.Button{Label: "B" + string(rune('a'+i)), Token: "T" + string(rune('a'+i))})
	}
	m := p.offered(true, many...)
	if len(m.Components) != 5 {
		t.Fatalf("%d rows", len(m.Components))
	}
	for i, r := range m.Components {
		for k, b := range r.Components {
			want := 2
			if i == 0 && k == 0 {
				want = 1
			}
			if b.Style != want || len(r.Components) != 5 {
				t.Errorf("row %d has %d buttons; %s has style %d", i, len(r.Components), b.Label, b.Style)
			}
		}
	}
}

// sheet asks for two lines.
var sheet = chat.Form{Token: "FORM", Title: "About you", Fields: []chat.FormField{
	{Name: "level", Label: "Level", Hint: "novice or elite", Value: "novice", Required: true}, {Name: "squat", Label: "Best squat"},
}}

func TestFormIsShownAndReadBack(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(true, accept)
	p.says(chat.Reply{Kind: chat.Answer, Form: &sheet, Message: chat.Message{Private: true, Text: "Type /me set."}})
	form, err := p.srv.User("ana").Press(m.ID, "Accept plan").AwaitForm(soon(t))
	if err != nil || form.Title != "About you" || len(form.Components) != 2 {
		t.Fatalf("%+v %v", form, err)
	}
	p.says(quick("Saved.", true))
	act := p.srv.User("ana").Submit(form, map[string]any{"Best squat": "140"})
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Saved." {
		t.Errorf("%v %v", m, err)
	}
	e := p.bot.await(t, 3)[2]
	want := []chat.Option{{Name: "level", Value: "novice"}, {Name: "squat", Value: "140"}}
	if e.Kind != chat.Sent || e.Button != "FORM" || len(e.Options) != 2 || e.Options[0] != want[0] || e.Options[1] != want[1] {
		t.Errorf("heard %+v", e)
	}
}

func TestFormAfterADeferralIsSaidInWords(t *testing.T) {
	p := start(t, withTable, soonDeferred)
	p.registered()
	p.slow(chat.Reply{Kind: chat.Answer, Form: &sheet, Message: chat.Message{Private: true, Text: "Type /me set."}})
	act := p.srv.User("ana").Command("#training-log", "block")
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Type /me set." {
		t.Errorf("%v %v", m, err)
	}
}
