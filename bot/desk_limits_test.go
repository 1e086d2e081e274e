package bot

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"blockbell/bot/chat"
)

// fits holds a message against what one message may be, and against what would ring
// people's bells. The limits are those of chat.MaxText and the others there.
func fits(t *testing.T, what string, m chat.Message) {
	t.Helper()
	all := 0
	count := func(part, s string, least, most int) {
		n := utf8.RuneCountInString(s)
		all += n
		if n < least || n > most {
			t.Errorf("%s: %s has %d characters, of %d to %d: %.80q", what, part, n, least, most, s)
		}
		if strings.Contains(s, "<@") {
			t.Errorf("%s: %s mentions somebody: %q", what, part, s)
		}
	}
	count("title", m.Title, 0, chat.MaxTitle)
	count("text", m.Text, 0, chat.MaxText)
	for _, f := range m.Fields {
		count("a field's name", f.Name, 1, chat.MaxFieldName)
		count("field "+f.Name, f.Value, 1, chat.MaxFieldValue)
	}
	if len(m.Fields) > chat.MaxFields || all > chat.MaxAll {
		t.Errorf("%s: %d fields and %d characters in all", what, len(m.Fields), all)
	}
	if len(m.Buttons) > chat.MaxButtons {
		t.Errorf("%s: %d buttons", what, len(m.Buttons))
	}
	for _, b := range m.Buttons {
		if n := utf8.RuneCountInString(b.Label); n < 1 || n > chat.MaxLabel {
			t.Errorf("%s: a label of %d characters: %q", what, n, b.Label)
		}
	}
	for _, f := range m.Files {
		if n := utf8.RuneCountInString(f.Alt); n > 1024 {
			t.Errorf("%s: %s is told in %d characters", what, f.Name, n)
		}
	}
}

// crowd is a club of a hundred whose names are as long as platforms allow (32
// characters) and full of signs that mean something there, half of them with a plan that
// waits for the captain.
func crowd(t *testing.T) *talk {
	t.Helper()
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club decide who:coach"))
	as := func(i int, text string) chat.Reply {
		e := k.event(fmt.Sprintf("lifter-with-a-long-handle-%06d", i))
		e.Author.Name = fmt.Sprintf("**@everyone** [x](y) <b> _~`|%03d", i)
		e.Text = text
		return k.handle(e)
	}
	for i := range 100 {
		k.ok(as(i, fmt.Sprintf("/me set level:%s category:men bodyweight:83.4 class:83 squat:180 bench:110 deadlift:220", []string{"novice", "advanced"}[i%2])))
		k.ok(as(i, fmt.Sprintf(`/meet add name:"The open championship of a region far away, part %d" date:2027-%02d-12 kind:main closes:2027-01-20`, i, 3+i%9)))
		r := as(i, "/season build")
		if i%2 == 0 && r.Kind != chat.Failure {
			k.ok(as(i, "/season accept"))
		}
		k.ok(k.say("cap", fmt.Sprintf("/club assign lifter:lifter-with-a-long-handle-%06d group:\"people %c%c lots\"", i, 'a'+i%5, 'a'+i%6)))
	}
	return k
}

// Nothing a captain asks is too long for one message, however large the club.
func TestDeskOfACrowdFitsIntoMessages(t *testing.T) {
	if testing.Short() {
		t.Skip("long: left to the run without -short")
	}
	k := crowd(t)
	for _, ask := range []string{
		"/club board", "/club board sort:meet page:3", "/club board sort:days page:5", "/club board sort:name page:2", `/club board group:"people aa lots"`,
		"/club approve", "/club groups", "/club digest", "/club today", "/club decide", "/club settings", "/club desk", "/club history", "/club cap", "/club gym",
		"/club classes", "/club announced", "/meet list lifter:lifter-with-a-long-handle-000007", "/nudges lifter:lifter-with-a-long-handle-000007",
		`/meet add name:"Lake Cup" date:2027-10-09 kind:tune-up lifters:all`, "/club away from:2027-02-01 to:2027-02-07", "/club left lifter:lifter-with-a-long-handle-000003",
		"/club move lifter:lifter-with-a-long-handle-000001 block:strength", "/club board",
	} {
		fits(t, ask, k.ok(k.say("cap", ask)).Message)
	}
	for _, label := range []string{"Next page", "Lay out plans for 101 lifters"} {
		fits(t, label, k.ok(k.press("cap", label)).Message)
	}
	for range 10 {
		r := k.ok(k.say("cap", "/club approve"))
		fits(t, "/club approve", r.Message)
		if len(r.Message.Buttons) == 0 {
			break
		}
		fits(t, r.Message.Buttons[0].Label, k.ok(k.pressToken("cap", r.Message.Buttons[0].Token)).Message)
	}
	if text := k.ok(k.say("cap", "/club approve")).Message.Text; !strings.Contains(text, "No plan waits") {
		t.Errorf("after ten rounds: %q", text)
	}
	fits(t, "/club announce", k.ok(k.say("cap", "/club announce")).Message)
	k.ok(k.say("cap", "/club settings advance:ask"))
	k.clock("2027-06-30T09:00:00Z")
	fits(t, "/club board", k.ok(k.say("cap", "/club board")).Message)
	fits(t, "begin all", k.ok(k.press("cap", "Begin all that wait")).Message)
}
