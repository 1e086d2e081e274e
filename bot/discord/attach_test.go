package discord_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

// withFiles registers a command that takes a file.
func withFiles(s *setup) {
	s.conf.Commands = []chat.Command{{Name: "log", Sub: "import", About: "bring in sets", Params: []chat.Param{
		{Name: "file", About: "a table", Required: true, File: true}, {Name: "unit", About: "kg or lb", Choices: []string{"kg", "lb"}},
	}}}
}

func (p *play) sends(file discordtest.Upload) *discordtest.Action {
	p.t.Helper()
	p.until(func() bool { return len(p.srv.Commands()) == 1 })
	return p.srv.User("ana").Command("#training-log", "log import", discordtest.Opt{Name: "file", Value: file}, discordtest.Opt{Name: "unit", Value: "lb"})
}

func TestFileOfACommandIsFetched(t *testing.T) {
	p := start(t, withFiles)
	p.says(quick("Read.", true))
	act := p.sends(discordtest.Upload{Name: "my log.csv", ContentType: "text/csv", Bytes: []byte("date,lift\n")})
	if _, err := act.AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	e := p.bot.await(t, 1)[0]
	if len(e.Files) != 1 || e.Files[0].Name != "my log.csv" || string(e.Files[0].Bytes) != "date,lift\n" {
		t.Fatalf("files %+v", e.Files)
	}
	if len(e.Options) != 2 || e.Options[0] != (chat.Option{Name: "file", Value: "my log.csv"}) || e.Options[1].Value != "lb" {
		t.Errorf("options %+v", e.Options)
	}
}

func TestFileThatCannotBeHadIsSaidInWords(t *testing.T) {
	p := start(t, withFiles)
	p.says(quick("Read.", true))
	m, err := p.sends(discordtest.Upload{Name: "big.csv", Bytes: make([]byte, chat.MaxFileBytes+1)}).AwaitMessage(soon(t))
	if err != nil || !strings.Contains(m.Content, "up to 5 MB") || !m.Private() {
		t.Errorf("a large file: %v, %v", m, err)
	}
	p.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Route: "/attachments", Status: 503})
	m, err = p.sends(discordtest.Upload{Name: "a.csv", Bytes: []byte("x")}).AwaitMessage(soon(t))
	if err != nil || !strings.Contains(m.Content, "could not fetch") || !m.Private() {
		t.Errorf("a host out of order: %v, %v", m, err)
	}
	p.bot.mu.Lock()
	defer p.bot.mu.Unlock()
	if len(p.bot.heard) != 0 {
		t.Errorf("the bot heard %+v", p.bot.heard)
	}
}

// Progress changes the message whose button was pressed, and the answer takes its
// place in the end.
func TestProgressStandsWhereTheAnswerWillStand(t *testing.T) {
	p := start(t, withTable)
	m := p.offered(true, accept)
	// stands is what ana sees in the place of the message.
	stands := func() string {
		for _, one := range p.srv.User("ana").Sees("#training-log") {
			if one.ID == m.ID {
				return one.Content
			}
		}
		return ""
	}
	var seen []string
	p.answers(func(ctx context.Context, e chat.Event) (chat.Reply, error) {
		for _, text := range []string{"a quarter", "half at once", "half"} {
			if text == "half" {
				p.srv.Advance(2 * time.Second)
			}
			e.Progress(chat.Message{Private: true, Text: text})
			if text != "half at once" { // too soon after the one before
				if _, err := p.srv.User("ana").AwaitMessage(ctx, "#training-log", func(one discordtest.Message) bool { return one.ID == m.ID && one.Content == text }); err != nil {
					return chat.Reply{}, err
				}
			}
			seen = append(seen, stands())
		}
		return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Imported."}}, nil
	})
	act := p.srv.User("ana").Press(m.ID, "Accept plan")
	if act.Err() != nil {
		t.Fatal(act.Err())
	}
	if _, err := p.srv.User("ana").AwaitMessage(soon(t), "#training-log", func(one discordtest.Message) bool { return one.ID == m.ID && one.Content == "Imported." }); err != nil {
		t.Fatal(err)
	}
	if strings.Join(seen, ", ") != "a quarter, a quarter, half" {
		t.Errorf("seen: %q", seen)
	}
}
