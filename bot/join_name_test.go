package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// named lets somebody speak whom the workspace shows under a name.
func (k *talk) named(handle, name, text string) chat.Reply {
	k.t.Helper()
	e := k.event(handle)
	e.Author.Name, e.Text = name, text
	return k.handle(e)
}

// Names from the workspace come in as one quiet line, and no two lifters get the same.
func TestNewcomersAreToldApart(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for i, tt := range []struct{ shown, want string }{
		{"Ana", "Ana"}, {"ana", "ana 2"}, {"Ana", "Ana 3"}, {"captain", "captain 2"}, {"Blockbell", "Blockbell 2"},
		{"Zed\n**x** @everyone", "Zed ××x×× ＠everyone"}, {"Jürgen-Ødegård", "Jürgen-Ødegård"}, {"  ", ""}, {"104", "104 2"}, {strings.Repeat("long ", 20), strings.TrimSpace(strings.Repeat("long ", 8))},
	} {
		handle := fmt.Sprint(100 + i)
		k.ok(k.named(handle, tt.shown, "/block"))
		if got := k.lifter(handle).Name; got != tt.want && !(len([]rune(tt.shown)) > 40 && len([]rune(got)) <= 40) {
			t.Errorf("%q is called %q, want %q", tt.shown, got, tt.want)
		}
	}
	k.ok(k.say("cap", `/block lifter:"ana 2"`))
	k.ok(k.say("cap", "/block lifter:Ana"))
}

// Where two share a name from earlier times, who is meant is asked for by the handle.
func TestTwoOfOneNameAreNamedByHandle(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	err := k.store.Update(t.Context(), func(tx *store.Tx) error {
		for _, handle := range []string{"100", "200"} {
			if _, err := tx.AddLifter(planner.Lifter{Handle: handle, Name: "Ana", Unit: planner.KG}, k.now); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	k.refused(k.say("cap", "/block lifter:ana"), "2 lifters are called", "100 and 200")
	k.ok(k.say("cap", "/block lifter:200"))
	k.ok(k.say("cap", "@Ana squat 100x5, @cap 100x5"))
	k.ok(k.press("cap", "Ana (200)"))
}

func TestManyAnnouncementsThatWaitAreCounted(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for i := range 13 {
		k.ok(k.say("cap", fmt.Sprintf(`/club announce text:"x%d" at:"2027-01-%02d 18:00"`, i, 5+i)))
		k.ok(k.press("cap", "Schedule it"))
	}
	if text := k.ok(k.say("cap", "/club announced")).Message.Text; text != "3 more announcements after these." {
		t.Errorf("it says %q", text)
	}
}
