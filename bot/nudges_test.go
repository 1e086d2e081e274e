package bot

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

func TestNudgesShowsTheComingFortnight(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/nudges where direct"))
	k.clock("2027-05-28T09:00:00Z")
	r := k.ok(k.say("ana", "/nudges"))
	for _, want := range []string{"In the next two weeks", "Sat 29 May, 08:00: River Open in 2 weeks", "Thu 10 June, 08:00: River Open in 2 days", "(in the club's post)"} {
		if !strings.Contains(r.Message.InWords().Text, want) {
			t.Errorf("%q is missing in %q", want, r.Message.Text)
		}
	}
	coming := data[struct {
		Coming []struct {
			Kind, Date string
			Public     bool
		}
	}](t, r).Coming
	if len(coming) < 4 || !slices.ContainsFunc(coming, func(c struct {
		Kind, Date string
		Public     bool
	}) bool {
		return c.Kind == "openers" && c.Date == "2027-06-10" && !c.Public
	}) {
		t.Errorf("for programs: %+v", coming)
	}
	k.ok(k.say("ana", "/nudges off openers"))
	if text := k.ok(k.say("ana", "/nudges")).Message.Text; strings.Contains(text, "openers") {
		t.Errorf("shown although it is off: %q", text)
	}
}

// The lifter's own hour, quiet days and pause are kept to, and what cannot wait
// comes all the same.
func TestOwnTimesOfALifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/nudges where direct"))
	k.refused(k.say("ana", "/nudges hour 25:00"), "25:00")
	k.ok(k.say("ana", "/nudges hour 19:30"))
	k.refused(k.say("ana", `/nudges quiet days:"sat someday"`), "someday", "not a day of the week")
	k.refused(k.say("ana", `/nudges quiet days:"mon tue wed thu fri sat sun"`), "Seven quiet days")
	if text := k.ok(k.say("ana", `/nudges quiet days:"sun, sat"`)).Message.Text; !strings.Contains(text, "Saturday and Sunday") {
		t.Errorf("said %q", text)
	}
	k.refused(k.say("ana", "/nudges snooze 61"), "61", "0 to 60")
	posts := k.directs("ana", "2027-05-20T00:00:00Z", "2027-06-12T00:00:00Z")
	if len(posts) < 3 {
		t.Fatalf("%d direct messages", len(posts))
	}
	for key, at := range posts {
		if at.Hour() != 19 || at.Minute() != 30 {
			t.Errorf("%s came at %s, want 19:30", key, at)
		}
		if quiet := at.Weekday() == time.Saturday || at.Weekday() == time.Sunday; quiet && !strings.Contains(key, "2027-05-29") {
			t.Errorf("%s came on a %s", key, at.Weekday())
		}
	}
	text := k.ok(k.say("ana", "/nudges")).Message.Text
	if !strings.Contains(text, "at 19:30 your time, not on Saturday and Sunday") {
		t.Errorf("shown as %q", text)
	}
}

func TestPauseHoldsBackWhatCanWait(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/nudges where direct"))
	k.clock("2027-05-20T09:00:00Z")
	if text := k.ok(k.say("ana", "/nudges snooze 30")).Message.Text; !strings.Contains(text, "before Sat 19 June") {
		t.Errorf("said %q", text)
	}
	k.directs("ana", "2027-05-20T09:00:00Z", "2027-06-18T00:00:00Z")
	told := map[string]bool{}
	err := k.store.View(context.Background(), func(tx *store.Tx) error {
		facts, err := tx.Facts(k.lifter("ana").ID, 100)
		for _, f := range facts {
			if f.State == store.FactSent && f.Due.After(k.at("2027-05-20T09:00:00Z")) {
				told[f.Kind] = true
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if !told["openers"] || !told["weigh-in"] || told["checklist"] || told["block-end"] {
		t.Errorf("told in the pause: %v; want openers and weigh-in, no checklist, no end of a block", told)
	}
	k.ok(k.say("ana", "/nudges snooze 0"))
	if text := k.ok(k.say("ana", "/nudges")).Message.Text; strings.Contains(text, "pause") {
		t.Errorf("the pause is still shown: %q", text)
	}
}

// 'I have entered' stops the questions, for that meet only.
func TestEnteredStopsAsking(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate nudges:direct"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12 kind:main closes:2027-05-20`))
	k.directs("ana", "2027-04-28T00:00:00Z", "2027-04-30T00:00:00Z")
	k.clock("2027-04-30T09:00:00Z")
	if text := k.ok(k.press("ana", "I have entered")).Message.Text; !strings.Contains(text, "River Open") {
		t.Errorf("answered %q", text)
	}
	if l := k.lifter("ana"); !k.meet(l.ID).Entered {
		t.Error("not kept")
	}
	for key := range k.directs("ana", "2027-05-01T00:00:00Z", "2027-05-20T00:00:00Z") {
		if strings.Contains(key, "2027-05-13") {
			t.Errorf("asked again: %s", key)
		}
	}
}

func TestKeepThemBringsBackWhatStops(t *testing.T) {
	k := newTalk(t, "2027-01-04T08:00:00Z")
	k.ok(k.say("cap", "/club settings advance:ask"))
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/nudges where direct"))
	k.directs("ana", "2027-01-05T00:00:00Z", "2027-03-28T00:00:00Z")
	k.clock("2027-03-28T09:00:00Z")
	if text := k.ok(k.press("ana", "Keep them")).Message.Text; !strings.Contains(text, "go on telling you when your block has ended") {
		t.Errorf("answered %q", text)
	}
}

// lifter, meet and at read what the tests above look at.
func (k *talk) lifter(handle string) (l planner.Lifter) {
	k.t.Helper()
	if err := k.store.View(context.Background(), func(tx *store.Tx) (err error) { l, _, err = tx.LifterByHandle(handle); return err }); err != nil {
		k.t.Fatal(err)
	}
	return l
}

func (k *talk) meet(of planner.LifterID) planner.Meet {
	k.t.Helper()
	var all []planner.Meet
	if err := k.store.View(context.Background(), func(tx *store.Tx) (err error) { all, err = tx.Meets(of); return err }); err != nil || len(all) == 0 {
		k.t.Fatal(len(all), err)
	}
	return all[0]
}

func (k *talk) at(text string) time.Time {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		k.t.Fatal(err)
	}
	return at
}

// directs runs the nudges from due to due and returns when each direct message to a
// person appeared.
func (k *talk) directs(who, from, to string) map[string]time.Time {
	k.t.Helper()
	got := map[string]time.Time{}
	k.runClock(k.at(from), k.at(to), func(p chat.Post) {
		if p.To.Person == who {
			got[p.Key] = p.At
			k.last[who] = append(slices.Clone(p.Message.Buttons), k.last[who]...)
		}
	})
	return got
}

// runClock posts what falls due between two moments.
func (k *talk) runClock(from, to time.Time, posted func(chat.Post)) {
	k.t.Helper()
	r := nudge.Runner{Store: k.store, Read: k.bot.ReadLog, Poster: posterFunc(posted)}
	for at := from; ; {
		next, ok, err := r.Next(context.Background(), at, to)
		if err != nil {
			k.t.Fatal(err)
		}
		if !ok {
			return
		}
		if err := r.Run(context.Background(), next); err != nil {
			k.t.Fatal(err)
		}
		at = next
	}
}
