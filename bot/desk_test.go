package bot

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
	"blockbell/store/storetest"
)

// weekly runs the club's posts from due to due.
func (k *talk) weekly(from, to string) (posts []chat.Post) {
	k.t.Helper()
	r := nudge.Runner{Store: k.store, Poster: posterFunc(func(p chat.Post) { posts = append(posts, p) }), Weekly: k.bot.Weekly}
	for at := k.at(from); ; {
		next, ok, err := r.Next(context.Background(), at, k.at(to))
		if err != nil {
			k.t.Fatal(err)
		}
		if !ok {
			break
		}
		if err := r.Run(context.Background(), next); err != nil {
			k.t.Fatal(err)
		}
		at = next
	}
	own := posts[:0]
	for _, p := range posts {
		if strings.HasPrefix(p.Key, "club/digest/") || strings.HasPrefix(p.Key, "club/changes/") {
			own = append(own, p)
		}
	}
	return own
}

func TestDigestComesOnceAWeekToTheCaptainsChannel(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "squat 100x5"))
	k.refused(k.say("cap", "/club desk digest:monday"), "channel that only captains can read")
	k.refused(k.say("cap", "/club desk channel:#announcements"), "#announcements", "whole club")
	k.refused(k.say("ana", "/club desk channel:#captains"), "captain")
	k.ok(k.say("cap", "/club desk channel:#captains digest:monday"))
	posts := k.weekly("2027-01-05T09:00:00Z", "2027-03-01T09:00:00Z")
	if len(posts) == 0 {
		t.Fatal("no digest came")
	}
	for _, p := range posts {
		if p.To.Channel != "#captains" || p.At.Weekday() != time.Monday || p.At.Hour() != 8 {
			t.Errorf("%s came to %s at %s", p.Key, p.To.Channel, p.At)
		}
	}
	k.ok(k.say("cap", "/club desk digest:off"))
	if posts := k.weekly("2027-03-01T09:00:00Z", "2027-04-01T09:00:00Z"); len(posts) != 0 {
		t.Errorf("%d digests although they are off", len(posts))
	}
}

func TestDigestNamesWhoNeedsALook(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "squat 100x5"))
	k.ok(k.say("ben", "/me set bodyweight:83.4 class:83"))
	k.ok(k.say("ben", `/meet add name:"River Open" date:2027-06-12 closes:2027-01-20`))
	k.ok(k.say("cleo", `/meet add name:"River Open" date:2027-06-12 kind:main`))
	k.ok(k.say("cleo", "/season build"))
	k.clock("2027-01-18T09:00:00Z")
	r := k.ok(k.say("cap", "/club digest"))
	fields := map[string]string{}
	for _, f := range r.Message.Fields {
		fields[f.Name] = f.Value
	}
	for name, want := range map[string]string{
		"Nothing logged for 10 days or more": "ana: last on Mon 4 January",
		"Near or above the class":            "ben: 0.4 kg above 83 for River Open",
		"Not entered yet":                    "ben: River Open closes in 2 days",
	} {
		if !strings.Contains(fields[name], want) {
			t.Errorf("%s: %q, want %q", name, fields[name], want)
		}
	}
	quiet := newTalk(t, "2027-01-04T09:00:00Z")
	if text := quiet.ok(quiet.say("cap", "/club digest")).Message.Text; !strings.Contains(text, "Nothing needs a look") {
		t.Errorf("an empty digest says %q", text)
	}
}

// A channel that ordinary members can read is refused, and where it becomes one
// later the digest is not posted.
func TestDigestStaysHidden(t *testing.T) {
	readers := "everybody"
	s := storetest.New(t)
	k := &talk{t: t, store: s, last: map[string][]chat.Button{}}
	k.bot = New(Config{Store: s, Captains: []string{"cap"}, Hidden: func(string) string { return readers }})
	k.clock("2027-01-04T09:00:00Z")
	k.ok(k.say("ben", `/meet add name:"River Open" date:2027-06-12 closes:2027-01-20`))
	k.refused(k.say("cap", "/club desk channel:#captains digest:monday"), "everybody", "View Channel")
	readers = ""
	k.ok(k.say("cap", "/club desk channel:#captains digest:monday"))
	if posts := k.weekly("2027-01-05T09:00:00Z", "2027-01-12T09:00:00Z"); len(posts) != 1 {
		t.Errorf("%d digests, want one", len(posts))
	}
	readers = "members with the role Friends"
	if posts := k.weekly("2027-01-12T09:00:00Z", "2027-01-19T09:00:00Z"); len(posts) != 0 {
		t.Errorf("posted where %s can read", readers)
	}
}

func TestChangesAreAnnouncedByThemselvesWhereWanted(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("cap", "/club desk changes:yes"))
	posts := k.weekly("2027-01-04T09:00:00Z", "2027-06-20T09:00:00Z")
	if len(posts) < 2 {
		t.Fatalf("%d announcements", len(posts))
	}
	for _, p := range posts {
		if p.To.Channel != "#announcements" || !strings.Contains(p.Message.Text, "for ana") {
			t.Errorf("%s: %q", p.Key, p.Message.Text)
		}
	}
	// Weeks without a new block are left out, and the ledger says why.
	err := k.store.View(context.Background(), func(tx *store.Tx) error {
		facts, err := tx.Facts(0, 100)
		skipped := 0
		for _, f := range facts {
			if f.Kind == "changes" && f.Reason == "nothing to tell" {
				skipped++
			}
		}
		if skipped+len(posts) != 24 {
			t.Errorf("%d posted and %d left out in 24 weeks", len(posts), skipped)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A digest of a large club fits into one message.
func TestDigestOfALargeClubFits(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for i := range 120 {
		who := fmt.Sprintf("lifter-with-a-long-name-%03d", i)
		k.ok(k.say(who, "/me set bodyweight:83.4 class:83"))
		k.ok(k.say(who, `/meet add name:"River Open" date:2027-06-12 closes:2027-01-20`))
	}
	m := k.ok(k.say("cap", "/club digest")).Message
	all := 0
	for _, f := range m.Fields {
		all += len([]rune(f.Name)) + len([]rune(f.Value))
		if len([]rune(f.Value)) > chat.MaxFieldValue {
			t.Errorf("%s has %d characters", f.Name, len([]rune(f.Value)))
		}
	}
	if all > chat.MaxAll || !strings.Contains(m.Fields[0].Value, "more") {
		t.Errorf("%d characters in all: %q", all, m.Fields[0].Value)
	}
}
