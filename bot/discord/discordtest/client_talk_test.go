package discordtest

import (
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

const chatter = "#training-log"

// answers: deferred and for one person, with a follow-up, a menu, suggestions.
func (c *secondClient) answers(t *testing.T) {
	ana, bo := c.srv.User("ana"), c.srv.User("bo")
	act := ana.Command(chatter, "week", Opt{"number", 3}, Opt{"lift", "squat"})
	m, err := act.AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	if act.Callback() != 5 || m.Content != "Week 3, squat" || m.OnlyFor != ana.ID {
		t.Errorf("callback %d, %+v", act.Callback(), m)
	}
	more, err := act.AwaitFollowUps(soon(t), 1)
	if err != nil || more[0].Content != "Sleep well." || !more[0].Private() {
		t.Errorf("follow-ups %+v, %v", more, err)
	}
	if list := bo.Sees(chatter); len(list) > 0 {
		t.Errorf("another person sees %+v", list)
	}
	chosen := ana.Choose(m.ID, "Which lift", "bench")
	if m, err = chosen.AwaitMessage(soon(t)); err != nil || chosen.Callback() != 7 || m.Content != "Only bench" || len(m.Components) > 0 {
		t.Errorf("callback %d, %+v, %v", chosen.Callback(), m, err)
	}
	choices, err := ana.Autocomplete(chatter, "week", "lift", "de").AwaitChoices(soon(t))
	if diff := cmp.Diff([]Choice{{Name: "deadlift", Value: "deadlift"}}, choices); diff != "" || err != nil {
		t.Errorf("%v (-want +suggested)\n%s", err, diff)
	}
	loaded, err := ana.Command(chatter, "bar load", Opt{"spotter", bo}).AwaitMessage(soon(t))
	if err != nil || loaded.Private() || loaded.Content != "load with "+bo.Mention() || len(loaded.Pings.Users) > 0 {
		t.Errorf("%+v, %v", loaded, err)
	}
	c.await(t, told{"event": "answered", "rights": true, "channel": "training-log"})
}

// form: a button opens a sheet with a field of every kind; its content comes back
// through the library.
func (c *secondClient) form(t *testing.T) {
	ana := c.srv.User("ana")
	m, err := ana.Command(chatter, "week").AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := ana.Press(m.ID, "Log a set").AwaitForm(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	var labels []string
	for _, field := range sheet.Components {
		labels = append(labels, field.Label)
	}
	if diff := cmp.Diff([]string{"Weight", "Lift", "How it felt", "With a belt"}, labels); diff != "" {
		t.Errorf("(-want +labels)\n%s", diff)
	}
	sent := ana.Submit(sheet, map[string]any{"Weight": "142.5", "Lift": []string{"squat"}, "How it felt": "hard", "With a belt": true})
	m, err = sent.AwaitMessage(soon(t))
	if err != nil || m.Content != "142.5 squat hard true" || m.Private() {
		t.Errorf("%+v, %v", m, err)
	}
	c.await(t, told{"event": "submitted", "id": m.ID, "content": m.Content})
}

// late: an answer that is under way when its time is up is refused in a way that
// the library understands.
func (c *secondClient) late(t *testing.T) {
	held := c.srv.Fail(Fault{Kind: HoldBefore, Route: "/interactions/{interaction_id}/{interaction_token}/callback"})
	c.srv.User("ana").Command(chatter, "week")
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	c.srv.Advance(firstAnswer + time.Second)
	held.Release()
	if x := c.nextFault(t); x["code"] != 10062.0 {
		t.Errorf("told %v, want code 10062", x)
	}
}

// posts: once by nonce, changed, with a mark, a picture, directly, as a reply.
func (c *secondClient) posts(t *testing.T) {
	ana := c.srv.User("ana")
	ids, _ := c.says(t, ana, chatter, "once")["ids"].([]any)
	if len(ids) != 2 || ids[0] != ids[1] || seen(t, ana, chatter, ids[0]).Nonce != "block-2" {
		t.Errorf("two posts of one nonce are %v", ids)
	}
	done := c.says(t, ana, chatter, "edit")
	if m := seen(t, ana, chatter, done["id"]); m.Content != "Block 2 begins on Tuesday." || m.Edits != 1 || done["content"] != m.Content || done["edited"] != true {
		t.Errorf("%+v, and the client %v", m, done)
	}
	done = c.says(t, ana, chatter, "react")
	if m := seen(t, ana, chatter, done["id"]); !cmp.Equal(m.Reactions, []Reaction{{"\U0001F4AA", []string{c.srv.BotID()}}}) || done["mine"] != true {
		t.Errorf("%+v, and the client %v", m, done)
	}
	done = c.says(t, ana, chatter, "file")
	m := seen(t, ana, chatter, done["id"])
	if len(m.Attachments) != 1 || m.Attachments[0].Description != "Squat rises from 140 to 150 kg." || len(m.Embeds) != 1 || m.Embeds[0].Image.URL != m.Attachments[0].URL {
		t.Errorf("%+v", m)
	}
	if done["same"] != true || done["description"] != m.Attachments[0].Description {
		t.Errorf("the client read back %v", done)
	}
	done = c.says(t, ana, chatter, "direct")
	if m := seen(t, ana, "", done["id"]); m.Content != "Rest day tomorrow." {
		t.Errorf("%+v", m)
	}
	c.postsToMessages(t, ana)
}

func (c *secondClient) postsToMessages(t *testing.T, ana *User) {
	done := c.says(t, ana, chatter, "reply")
	if m := seen(t, ana, chatter, done["id"]); m.ReplyTo != done["to"] || len(m.Pings.Users) > 0 {
		t.Errorf("%+v, and the client %v", m, done)
	}
	done = c.says(t, ana, chatter, "remove")
	if slices.ContainsFunc(ana.Sees(chatter), func(m Message) bool { return m.ID == done["id"] }) {
		t.Error("the message that was removed is still there")
	}
	done = c.says(t, ana, chatter, "read")
	if diff := cmp.Diff([]any{"read", "remove", "Noted."}, done["contents"]); diff != "" {
		t.Errorf("the newest three messages: (-want +read)\n%s", diff)
	}
}

// hears: what people do reaches the library's own events.
func (c *secondClient) hears(t *testing.T) {
	ana := c.srv.User("ana")
	id, err := ana.Say(chatter, "squat 140x5")
	if err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "heard", "content": "squat 140x5", "by": "ana", "direct": false})
	if err := ana.React(id, "\U0001F525"); err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "reacted", "id": id, "emoji": "\U0001F525", "by": ana.ID})
	if err := ana.Edit(id, "squat 142.5x5"); err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "edited", "id": id, "content": "squat 142.5x5"})
	if err := ana.Delete(id); err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "deleted", "id": id})
	if _, err := ana.Say("", "am I alone?"); err != nil {
		t.Fatal(err)
	}
	c.await(t, told{"event": "heard", "content": "am I alone?", "by": "ana", "direct": true})
}
