package terminal

import (
	"errors"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

func TestCommandsThatTakeAFileGetIt(t *testing.T) {
	bot := &scripted{}
	s := newStage(t, newNotebook(), bot)
	s.Commands = []chat.Command{{Name: "log", Sub: "import", Params: []chat.Param{{Name: "unit"}, {Name: "file", File: true}}}}
	read := map[string]int{}
	s.ReadFile = func(path string) ([]byte, error) {
		read[path]++
		switch path {
		case "gone.csv":
			return nil, errors.New("there is no gone.csv")
		case "big.csv":
			return make([]byte, chat.MaxFileBytes+1), nil
		}
		return []byte("date,lift"), nil
	}
	s.script(t, "@ana /log import file:a.csv unit:lb", `@ana /LOG import unit:kg file:"dir/my log.csv"`, "@ana /log set file:a.csv", "@ana squat 140x5 file:a.csv", "@ana /log import")
	var got []string
	for _, e := range bot.events {
		name := "-"
		if len(e.Files) == 1 && string(e.Files[0].Bytes) == "date,lift" {
			name = e.Files[0].Name
		}
		got = append(got, name)
	}
	if want := "a.csv, my log.csv, -, -, -"; strings.Join(got, ", ") != want {
		t.Errorf("got %s, want %s", strings.Join(got, ", "), want)
	}
	if got := bot.events[1].Text; got != `/LOG import unit:kg file:"my log.csv"` {
		t.Errorf("the command became %s", got)
	}
	if read["a.csv"] != 1 || read["dir/my log.csv"] != 1 {
		t.Errorf("read %v", read)
	}
	for line, want := range map[string]string{"@ana /log import file:gone.csv": "no gone.csv", "@ana /log import file:big.csv": "at most 5 MB"} {
		if o := only(t, s.script(t, line)); o.Kind != "error" || !strings.Contains(o.Text, want) {
			t.Errorf("%s: %+v", line, o)
		}
	}
	if len(bot.events) != 5 {
		t.Errorf("%d events", len(bot.events))
	}
}

func TestProgressIsShownAsAChange(t *testing.T) {
	bot := &scripted{answer: func(e chat.Event) (chat.Reply, error) {
		e.Progress(chat.Message{Private: true, Text: "half"})
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: "done"}}, nil
	}}
	all := objects(t, newStage(t, newNotebook(), bot).script(t, "@ana hello"))
	if len(all) != 2 || all[0].Kind != "edit" || all[0].Text != "half" || all[0].To != "@ana" || !all[0].Private || all[1].Text != "done" {
		t.Errorf("%+v", all)
	}
}
