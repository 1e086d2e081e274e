package discord_test

import (
	"bytes"
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

// TestPicturesGoEveryWay sends a picture with each kind of answer.
func TestPicturesGoEveryWay(t *testing.T) {
	picture := chat.File{Name: "season.png", Bytes: []byte("\x89PNG\r\n\x1a\n0000"), Alt: "three blocks up to June"}
	message := func(private bool) chat.Message {
		return chat.Message{Private: private, Title: "Your plan", Files: []chat.File{picture}}
	}
	for name, c := range map[string]struct {
		reply    chat.Reply
		deferred bool
		press    bool
	}{
		"at once":           {reply: chat.Reply{Kind: chat.Answer, Message: message(true)}},
		"deferred":          {reply: chat.Reply{Kind: chat.Answer, Message: message(true)}, deferred: true},
		"deferred, for all": {reply: chat.Reply{Kind: chat.Answer, Message: message(false)}, deferred: true},
		"update":            {reply: chat.Reply{Kind: chat.Update, Message: message(true)}, press: true},
		"update, deferred":  {reply: chat.Reply{Kind: chat.Update, Message: message(true)}, press: true, deferred: true},
		"press":             {reply: chat.Reply{Kind: chat.Answer, Message: message(true)}, press: true},
		"press, deferred":   {reply: chat.Reply{Kind: chat.Answer, Message: message(true)}, press: true, deferred: true},
	} {
		t.Run(name, func(t *testing.T) {
			p := start(t, withTable, func(s *setup) {
				if c.deferred {
					soonDeferred(s)
				}
			})
			m := p.offered(true, accept)
			p.says(c.reply)
			if c.deferred {
				p.slow(c.reply)
			}
			if c.press {
				p.srv.User("ana").Press(m.ID, "Accept plan")
			} else {
				p.srv.User("ana").Command("#training-log", "block")
			}
			got := p.awaits("ana", "#training-log", func(m discordtest.Message) bool { return len(m.Attachments) == 1 })
			a := got.Attachments[0]
			if a.Filename != picture.Name || a.Description != picture.Alt || !bytes.Equal(a.Bytes, picture.Bytes) || a.ContentType != "image/png" {
				t.Errorf("%+v", a)
			}
			if got.Private() == !c.reply.Message.Private {
				t.Errorf("private: %v", got.Private())
			}
		})
	}
}

func TestUpdateTakesAnOldPictureAway(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(chat.Reply{Kind: chat.Answer, Message: chat.Message{Private: true, Text: "Plan", Buttons: []chat.Button{accept},
		Files: []chat.File{{Name: "season.png", Bytes: []byte("\x89PNG\r\n\x1a\n0000")}}}})
	m, err := p.srv.User("ana").Command("#training-log", "season show").AwaitMessage(soon(t))
	if err != nil || len(m.Attachments) != 1 {
		t.Fatal(m, err)
	}
	p.says(chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Accepted."}})
	if m, err = p.srv.User("ana").Press(m.ID, "Accept plan").AwaitMessage(soon(t)); err != nil || len(m.Attachments) != 0 {
		t.Errorf("%v %v", m, err)
	}
}

func TestPictureUnderAMessage(t *testing.T) {
	p := start(t)
	p.says(chat.Reply{Kind: chat.Answer, Message: chat.Message{Files: []chat.File{{Name: "lift.png", Bytes: []byte("\x89PNG\r\n\x1a\n0000"), Alt: "rising"}}}})
	id := p.said("/lift squat")
	m := p.awaits("bea", "#training-log", func(m discordtest.Message) bool { return m.Bot })
	if m.ReplyTo != id || len(m.Attachments) != 1 || m.Attachments[0].Description != "rising" {
		t.Errorf("%v", m)
	}
}
