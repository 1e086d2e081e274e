package terminal

import (
	"errors"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestEventCarriesWhoWhereWhen(t *testing.T) {
	memory := newNotebook()
	s := newStage(t, memory, &scripted{})
	s.script(t, "clock 2027-01-04T08:00:00Z", "#announcements @Cap hello all")
	later := newStage(t, memory, &scripted{})
	later.script(t, "@ana squat 140x5")
	first, second := s.bot.events[0], later.bot.events[0]
	if first.Author != (chat.Person{ID: "cap", Name: "Cap", Captain: true}) || first.Channel != "#announcements" ||
		first.Kind != chat.Said || first.Text != "hello all" || stamp(first.At) != "2027-01-04T08:00:00Z" {
		t.Errorf("got %+v", first)
	}
	if second.Author.Captain || second.Channel != DefaultChannel || second.ID == first.ID || second.Message == "" {
		t.Errorf("got %+v after %+v", second, first)
	}
}

func TestEditAndDeleteNameTheNewestMessage(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	s.script(t, "@ana squat 140x5", "@ana bench 100x5", "@ana /block", "@bea hello", "edit @ana bench 102.5x5", "delete @ana", "edit @ana squat 142.5x5")
	e := s.bot.events
	if e[4].Kind != chat.Edited || e[4].Message != e[1].Message || e[4].Text != "bench 102.5x5" || e[4].ID == e[1].ID {
		t.Errorf("edit gave %+v, of %+v", e[4], e[1])
	}
	if e[5].Kind != chat.Deleted || e[5].Message != e[1].Message {
		t.Errorf("delete gave %+v", e[5])
	}
	if e[6].Message != e[0].Message {
		t.Errorf("after the delete, edit gave %+v, want message %s", e[6], e[0].Message)
	}
	if o := only(t, s.script(t, "delete @cap")); o.Kind != "error" || o.To != "@cap" {
		t.Errorf("deleting nothing gave %+v", o)
	}
}

func TestKindsOfReply(t *testing.T) {
	cases := []struct {
		reply      chat.Reply
		want       object
		complaints int
	}{
		{reply: chat.Reply{Kind: chat.React, Reaction: "✅"}, want: object{Kind: "reaction", Text: "✅"}},
		{reply: chat.Reply{Kind: chat.React, Reaction: "✅", Message: chat.Message{Text: "a record"}}, want: object{Kind: "reaction", Text: "✅ a record"}},
		{reply: chat.Reply{Kind: chat.Failure, Message: chat.Message{Private: true, Text: "too heavy"}}, want: object{Kind: "error", Text: "too heavy", Private: true, Line: 1}},
		{reply: chat.Reply{Kind: chat.Failure, Unknown: true, Message: chat.Message{Text: "what?"}}, want: object{Kind: "error", Text: "what?", Line: 1}, complaints: 1},
		{reply: chat.Reply{Kind: chat.Answer, Message: chat.Message{Title: "T", Text: "x"}}, want: object{Kind: "reply", Title: "T", Text: "x"}},
	}
	for _, c := range cases {
		s := newStage(t, newNotebook(), &scripted{answer: func(chat.Event) (chat.Reply, error) { return c.reply, nil }})
		o := only(t, s.script(t, "@ana hello"))
		if o.To != "@ana" || o.Kind != c.want.Kind || o.Text != c.want.Text || o.Title != c.want.Title ||
			o.Private != c.want.Private || o.Line != c.want.Line || s.Complaints() != c.complaints {
			t.Errorf("%+v gave %+v with %d complaints", c.reply, o, s.Complaints())
		}
	}
}

func TestSilenceStaysSilent(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	if got := s.script(t, "@ana nice weather"); got != "" {
		t.Errorf("got %q", got)
	}
}

func TestPanicAndFaultOfTheBotAreErrorLines(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: func(e chat.Event) (chat.Reply, error) {
		switch e.Text {
		case "/panic":
			panic("index 7")
		case "/fault":
			return chat.Reply{}, errors.New("disk full")
		case "/worded":
			words := chat.Message{Text: "went wrong, reference " + e.ID}
			return chat.Reply{Kind: chat.Failure, Message: words}, errors.New("disk full")
		}
		return says("fine")(e)
	}})
	all := objects(t, s.script(t, "@ana /panic", "@ana /fault", "@ana /worded", "@ana hello"))
	if len(all) != 4 || all[3].Text != "fine" || s.Complaints() != 3 {
		t.Fatalf("got %+v with %d complaints", all, s.Complaints())
	}
	for i, o := range all[:3] {
		if o.Kind != "error" || o.Line != i+1 || strings.Contains(o.Text, "index 7") || strings.Contains(o.Text, "disk") {
			t.Errorf("object %d is %+v", i, o)
		}
	}
	log := s.log.String()
	for _, want := range []string{"index 7", "event_test.go", "reference=T1", "reference=T2", "reference=terminal/3", "disk full"} {
		if !strings.Contains(log, want) {
			t.Errorf("the log does not hold %q:\n%s", want, log)
		}
	}
}

func TestRunnerRunsAfterEveryLine(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: proposing})
	s.script(t, "clock 2027-01-04T08:00:00Z", "@cap /poll", `press @ana "I come"`, "# nothing", "nonsense")
	if n := len(s.due.runs); n != 3 { // once to catch up, then after each handled line
		t.Errorf("the runner ran %d times, want 3", n)
	}
}
