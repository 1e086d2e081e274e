package terminal

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

// proposing answers /build with a private plan whose buttons only the asker may
// press, /poll with a public button for anyone, and a press with an update.
func proposing(e chat.Event) (chat.Reply, error) {
	who := e.Author.ID
	switch {
	case e.Kind == chat.Pressed && strings.HasPrefix(e.Button, "again"):
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: "noted " + who}}, nil
	case e.Kind == chat.Pressed:
		return chat.Reply{Kind: chat.Update, Message: chat.Message{Text: "done " + e.Button}}, nil
	case e.Text == "/poll":
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: "who comes?", Buttons: []chat.Button{{Label: "I come", Token: "again-" + e.ID}}}}, nil
	}
	life := e.At.Add(7 * 24 * time.Hour)
	return chat.Reply{Kind: chat.Answer, Message: chat.Message{
		Text: "a plan", Private: true,
		Buttons: []chat.Button{
			{Label: "Accept plan", Token: "yes-" + e.ID, Owner: who, Expires: life},
			{Label: "Decline", Token: "no-" + e.ID, Owner: who, Expires: life},
		},
	}}, nil
}

func TestPressTakesTheNewestMessage(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: proposing})
	s.script(t, "@ana /build", "@ana /build")
	o := only(t, s.script(t, `press @ana "accept PLAN"`))
	if o.Kind != "edit" || o.To != "@ana" || !o.Private || o.Text != "done yes-terminal/2" {
		t.Errorf("got %+v", o)
	}
	e := s.bot.events[len(s.bot.events)-1]
	if e.Kind != chat.Pressed || e.Button != "yes-terminal/2" || e.Author.ID != "ana" || e.Channel != "#training-log" {
		t.Errorf("the event was %+v", e)
	}
}

func TestPressRepeatedAnswersAlreadyDone(t *testing.T) {
	memory := newNotebook()
	s := newStage(t, memory, &scripted{answer: proposing})
	s.script(t, "@ana /build", `press @ana "Accept plan"`)
	o := only(t, s.script(t, `press @ana "Accept plan"`))
	if o.Kind != "reply" || o.Text != "already done" || o.To != "@ana" || s.Complaints() != 0 {
		t.Errorf("after an update: %+v", o)
	}
	s.script(t, "@cap /poll", `press @ana "I come"`)
	if o := only(t, s.script(t, `press @ana "I come"`)); o.Text != "already done" {
		t.Errorf("after an answer: %+v", o)
	}
	if o := only(t, s.script(t, `press @bea "I come"`)); o.Text != "noted bea" {
		t.Errorf("another person: %+v", o)
	}
}

func TestPressLostInACrashIsDeliveredAgain(t *testing.T) {
	memory := newNotebook()
	s := newStage(t, memory, &scripted{answer: proposing})
	s.script(t, "@cap /poll")
	if _, err := memory.Press(t.Context(), 1, "again-terminal/1", "ana", s.memory.clock); err != nil {
		t.Fatal(err) // as far as a killed run came
	}
	if memory.records[0].Body.Buttons[0].Token != "again-terminal/1" {
		t.Fatalf("record 1 is not the poll: %+v", memory.records)
	}
	if o := only(t, s.script(t, `press @ana "I come"`)); o.Text != "noted ana" {
		t.Errorf("got %+v", o)
	}
}

func TestPressOfNoButtonListsWhatCanBePressed(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: proposing})
	if o := only(t, s.script(t, `press @ana "Accept plan"`)); o.Kind != "error" || !strings.Contains(o.Text, "nothing else @ana can press") {
		t.Errorf("with no message at all: %+v", o)
	}
	s.script(t, "@ana /build", "@cap /poll")
	o := only(t, s.script(t, "# second line is meant", `press @ana "Begin"`))
	if o.Line != 2 || !strings.Contains(o.Text, "I come, Accept plan, Decline") {
		t.Errorf("got %+v", o)
	}
	if o := only(t, s.script(t, `press @bea "Accept plan"`)); o.Kind != "error" || strings.Contains(o.Text, "Decline") {
		t.Errorf("a private message of somebody else: %+v", o)
	}
	s.script(t, `press @ana "Decline"`)
	if o := only(t, s.script(t, `press @ana "Accept plan"`)); o.Kind != "error" || strings.Contains(o.Text, "can press: Accept") {
		t.Errorf("a button that an update took away: %+v", o)
	}
	s.script(t, "@ana /build", "clock +7d")
	if o := only(t, s.script(t, `press @ana "Accept plan"`)); o.Kind != "error" {
		t.Errorf("an expired button: %+v", o)
	}
	if s.Complaints() != 5 {
		t.Errorf("%d complaints, want 5", s.Complaints())
	}
}

func TestAnswerThatErasesLeavesNoTrace(t *testing.T) {
	memory := newNotebook()
	s := newStage(t, memory, &scripted{answer: func(e chat.Event) (chat.Reply, error) {
		if e.Kind == chat.Pressed {
			memory.records = nil
		}
		return proposing(e)
	}})
	s.script(t, "@ana squat 140x5", "@ana /build")
	if len(memory.records) != 3 {
		t.Fatalf("kept %+v, want what was said and two plans", memory.records)
	}
	s.script(t, `press @ana "Accept plan"`)
	if len(memory.records) != 0 {
		t.Errorf("left behind: %+v", memory.records)
	}
	for _, e := range s.bot.events {
		if strings.Contains(e.ID, "ana") {
			t.Errorf("the event %s names a person", e.ID)
		}
	}
}
