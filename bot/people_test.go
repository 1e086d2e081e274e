package bot

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

const people = `/club import table:"name, meet, squat, bench, deadlift, level, class, category, born, date
Ana K, River Open, 120, 70, 145, intermediate, 63, women, 1996, 2027-06-12
Ben L, River Open, 180, 120, 21O, novice, 93, men, 1990, 2027-06-12
Kid M, River Open, 60, 40, 80, new, 63, women, 2011, 2027-06-12
Ana K, , , , , , , , ,
Cleo, , 1500, , , , , , , "`

func TestTableOfLiftersIsSeenBeforeItIsWritten(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.refused(k.say("ana", people), "captain")
	r := k.ok(k.say("cap", people))
	for _, want := range []string{"Add 2 lifters", "Ana K: squat 120 kg, bench 70 kg, deadlift 145 kg, women 63, intermediate, born in 1996 (counted as 1 January), River Open on Sat 12 June 2027",
		"born in 2011 (counted as 31 December)", "Row 3, column 5 (deadlift)", "Row 5, column 1 (name): Ana K stands in row 2 already", "Row 6, column 3 (squat)", "Nothing is written"} {
		if !strings.Contains(r.Message.Title+r.Message.Text, want) {
			t.Errorf("it does not say %q:\n%s\n%s", want, r.Message.Title, r.Message.Text)
		}
	}
	if n := len(k.placeholders()); n != 0 {
		t.Fatalf("%d written before the yes", n)
	}
	k.ok(k.press("cap", "Add 2 lifters"))
	k.ok(k.press("cap", "Add 2 lifters"))
	if got := k.placeholders(); len(got) != 2 {
		t.Fatalf("%v", got)
	}
	r = k.ok(k.say("cap", people))
	if strings.Contains(r.Message.Title, "Add ") || !strings.Contains(r.Message.Text, "Left alone, since they are in the club already: Ana K, Kid M") {
		t.Errorf("again: %s\n%s", r.Message.Title, r.Message.Text)
	}
	k.ok(k.press("cap", "Undo this import"))
	if got := k.placeholders(); len(got) != 0 {
		t.Errorf("left: %v", got)
	}
}

// placeholders lists the names that /club placeholders shows.
func (k *talk) placeholders() (out []string) {
	k.t.Helper()
	got := data[struct {
		Placeholders []struct{ Name string }
	}](k.t, k.ok(k.say("cap", "/club placeholders")))
	for _, p := range got.Placeholders {
		out = append(out, p.Name)
	}
	return out
}

func TestTableWithoutHeadingsOrAsAFileOrInAForm(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", `/meet add name:"River Open" date:2027-06-12`))
	one := k.ok(k.say("cap", `/club import table:"Ana K, river open, 120, 70, 145; Ben L,,180"`))
	if !strings.Contains(one.Message.Text, "Ana K: squat 120 kg, bench 70 kg, deadlift 145 kg, River Open on Sat 12 June 2027") || !strings.Contains(one.Message.Text, "Ben L: squat 180 kg.") {
		t.Errorf("%s", one.Message.Text)
	}
	e := k.event("cap")
	e.Kind, e.Command = chat.Asked, []string{"club", "import"}
	e.Files = []chat.File{{Name: "x.csv", Bytes: []byte("Lifter;Squat;Note\nAna K;92,5;secret\n")}}
	file := k.ok(k.handle(e))
	if !strings.Contains(file.Message.Text, "Ana K: squat 92.5 kg") || !strings.Contains(file.Message.Text, "Not read, not kept: Note") || strings.Contains(file.Message.Text, "secret") {
		t.Errorf("%s", file.Message.Text)
	}
	asked := k.ok(k.say("cap", "/club import"))
	if asked.Form == nil || !asked.Form.Fields[0].Long {
		t.Fatalf("no form: %+v", asked)
	}
	e = k.event("cap")
	e.Kind, e.Button, e.Options = chat.Sent, asked.Form.Token, []chat.Option{{Name: "table", Value: "Ana K\tNowhere\t120\nBen L\t\t180"}}
	form := k.ok(k.handle(e))
	if !strings.Contains(form.Message.Text, `Row 1, meet: Nobody has a meet called "Nowhere" ahead`) || !strings.Contains(form.Message.Text, "Ben L: squat 180 kg") {
		t.Errorf("%s", form.Message.Text)
	}
	k.refused(k.say("cap", `/club import table:"`+strings.Repeat("x,\n", 300)+`"`), "at most 200")
}

// put lets Ana K stand in the club without an account, with a meet and a plan.
func (k *talk) put() {
	k.t.Helper()
	k.ok(k.say("cap", `/club import table:"name,meet,date,squat,bench,deadlift,level,group
Ana K,River Open,2027-06-12,120,70,145,intermediate,monday"`))
	k.ok(k.press("cap", "Add 1 lifter"))
	k.ok(k.press("cap", "Lay out plans for 1 lifter"))
	k.ok(k.say("cap", `/season accept lifter:"Ana K"`))
	k.ok(k.say("cap", "@Ana_K squat 100x5 @8"))
}

func TestWhoHasNotJoinedIsPlannedForAndToldNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/nudges where direct"))
	k.put()
	k.ok(k.say("cap", `/meet papers name:"River Open" lifter:"Ana K" closes:2027-05-20`))
	for _, ask := range []string{"/club board", "/club today", "/club digest", "/club groups", `/today lifter:"Ana K"`, `/week lifter:"Ana K"`, `/lift squat lifter:"Ana K"`, `/mydata export lifter:"Ana K"`} {
		r := k.ok(k.say("cap", ask))
		if all := r.Message.Title + r.Message.Text + strings.Join(fieldTexts(r.Message), " "); strings.Contains(all, "laceholder:") {
			t.Errorf("%s shows the handle of somebody who has none: %s", ask, all)
		}
	}
	if all := fmt.Sprint(k.ok(k.say("cap", "/club board")).Message); !strings.Contains(all, "not joined yet") {
		t.Errorf("the board says %s", all)
	}
	if all := fmt.Sprint(k.ok(k.say("cap", "/club today")).Message); !strings.Contains(all, "Ana K") {
		t.Errorf("today's sheet says %s", all)
	}
	k.refused(k.say("cap", `/club left lifter:"Ana K"`), "has not joined")
	k.refused(k.say("cap", `/club assign lifter:cap coach:"Ana K"`), "has not joined")
	told := map[string]int{}
	for day := range 240 {
		k.now = time.Date(2027, 1, 5, 8, 0, 0, 0, time.UTC).AddDate(0, 0, day)
		for _, p := range k.due() {
			if p.To.Person != "" && p.To.Person != "cap" || p.To.Person == "" {
				t.Fatalf("day %d: told %+v", day, p)
			}
			for _, f := range p.Facts {
				told[strings.Split(f, "/")[1]]++
			}
		}
	}
	if told["entry"] != 3 || told["after-meet"] != 1 || len(told) != 2 {
		t.Errorf("the captain was told %v", told)
	}
}

func TestEntryOfWhoHasNotJoinedIsSettledByTheCaptain(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/nudges where direct"))
	k.put()
	k.ok(k.say("cap", `/meet papers name:"River Open" lifter:"Ana K" closes:2027-02-20`))
	k.clock("2027-01-30T08:00:00Z")
	got := k.due()
	if len(got) != 1 || !strings.Contains(got[0].Message.Text, "For Ana K, who has not joined yet: The entry for River Open closes in 21 days") {
		t.Fatalf("%+v", got)
	}
	for _, b := range got[0].Message.Buttons {
		if b.Label == "Ana K is entered" {
			k.ok(k.pressToken("cap", b.Token))
		}
	}
	for day := range 25 {
		k.now = k.now.AddDate(0, 0, 1)
		if got := k.due(); len(got) != 0 {
			t.Fatalf("day %d: %+v", day, got[0].Facts)
		}
	}
}

func TestClaimWantsACaptainsYesAndCanBeTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.put()
	k.ok(k.say("ana", "/me set squat:130"))
	k.refused(k.say("ana", "/me claim"), "Nobody of your name")
	k.refused(k.say("ana", "/me claim name:Anna"), "Ask your captain")
	k.ok(k.say("ana", `/me claim name:"ana k"`))
	k.refused(k.say("ben", `/me claim name:"Ana K"`), "already")
	k.refused(k.say("ana", `/season lifter:"Ana K"`), "Another lifter")
	r := k.ok(k.say("cap", "/club placeholders"))
	if !strings.Contains(r.Message.Text, "Ana K: ana says to be them") {
		t.Errorf("%s", r.Message.Text)
	}
	k.shows(k.ok(k.say("cap", "/club digest")), "Not joined yet; a claim waits\nAna K: ana says to be them")
	k.ok(k.press("cap", "Yes, ana is Ana K"))
	season := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	if len(season.Blocks) == 0 {
		t.Error("the plan did not come along")
	}
	if got := k.lifter("ana"); got.Squat != 130000 || got.Bench != 70000 || got.Group != "monday" {
		t.Errorf("%+v", got)
	}
	if got := k.sets("ana"); got != 1 {
		t.Errorf("%d sets", got)
	}
	if n := len(k.placeholders()); n != 0 {
		t.Error("she is still among those who have not joined")
	}
	k.refused(k.pressToken("cap", k.token("cap", "No, ana is not Ana K")), "settled")
	k.ok(k.press("cap", "Take it back"))
	if got := k.lifter("ana"); got.Squat != 130000 || got.Bench != 0 || k.sets("ana") != 0 {
		t.Errorf("%+v", got)
	}
	if got := k.placeholders(); len(got) != 1 || got[0] != "Ana K" {
		t.Fatalf("%v", got)
	}
	k.ok(k.say("cap", `/season lifter:"Ana K"`))
	k.ok(k.say("cap", `/club placeholders name:"Ana K" is:ana`))
	k.ok(k.press("cap", "Yes, ana is Ana K"))
	k.clock("2027-01-05T08:00:00Z")
	k.due()
	k.ok(k.pressNote("ana"))
	if got := k.placeholders(); len(got) != 1 {
		t.Errorf("the lifter could not give it back: %v", got)
	}
	k.ok(k.say("cap", `/club placeholders name:"Ana K" erase:yes`))
	k.ok(k.press("cap", "Erase Ana K"))
	if got := k.placeholders(); len(got) != 0 {
		t.Errorf("%v", got)
	}
}

// pressNote takes back the newest thing that was done for somebody.
func (k *talk) pressNote(who string) chat.Reply {
	k.t.Helper()
	var token string
	err := k.store.Update(k.t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(who)
		if err != nil {
			return err
		}
		tx2 := store.Button{Token: "look-" + who, Label: "Look", Owner: l.ID, Action: "note.show", Args: []byte("{}"), Made: k.now, Expires: k.now.AddDate(0, 0, 7)}
		token = tx2.Token
		return tx.AddButton(tx2)
	})
	if err != nil {
		k.t.Fatal(err)
	}
	k.ok(k.pressToken(who, token))
	return k.press(who, "Take back 1")
}

func (k *talk) token(who, label string) string {
	k.t.Helper()
	for _, b := range k.last[who] {
		if b.Label == label {
			return b.Token
		}
	}
	k.t.Fatalf("%s has no button %q", who, label)
	return ""
}

func (k *talk) sets(who string) (n int) {
	k.t.Helper()
	l := k.lifter(who)
	k.read(func(tx *store.Tx) error {
		all, err := tx.Sets(l.ID, 1, planner.DateOf(k.now).AddDays(1))
		n = len(all)
		return err
	})
	return n
}

func TestNewcomerOfTheSameNameIsAsked(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", `/club import table:"name,squat
ana,120"`))
	k.ok(k.press("cap", "Add 1 lifter"))
	k.refused(k.say("ben", "/me set name:ana"), "added before joining", "/me claim")
	k.ok(k.say("ana", "/me"))
	k.ok(k.press("ana", "That is me: ana"))
	k.ok(k.say("cap", "/club placeholders"))
	k.ok(k.press("cap", "No, ana 2 is not ana"))
	if got := k.lifter("ana"); got.Squat != 0 {
		t.Errorf("%+v", got)
	}
	k.ok(k.say("ana", "/me claim"))
	k.ok(k.press("ana", "That is me: ana"))
	k.ok(k.say("cap", "/club placeholders"))
	k.ok(k.press("cap", "Yes, ana 2 is ana"))
	if got := k.lifter("ana"); got.Squat != 120000 || got.Name != "ana" {
		t.Errorf("%+v", got)
	}
	k.ok(k.press("cap", "Take it back"))
	if got := k.lifter("ana"); got.Squat != 0 || got.Name != "ana 2" {
		t.Errorf("%+v", got)
	}
}
