package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

type weightData struct {
	Kg     *float64 `json:"bodyweight_kg"`
	Weekly *float64 `json:"weekly_kg"`
	Room   *float64 `json:"room_kg"`
	AtMeet *float64 `json:"at_meet_kg"`
	Class  *string
}

func (k *talk) weighs(who string, days int, kg, daily float64) {
	k.t.Helper()
	for d := 0; d <= days; d += 3 {
		k.ok(k.say(who, fmt.Sprintf("/bodyweight %.1f", kg+daily*float64(d))))
		k.now = k.now.Add(72 * time.Hour)
	}
	k.now = k.now.Add(-72 * time.Hour)
}

func TestBodyweightShowsLevelRoomAndWhatIsSafe(t *testing.T) {
	k := newTalk(t, "2027-04-01T18:00:00Z")
	k.ok(k.say("ana", "/me set competed:yes class:63 born:1996-02-29"))
	if text := k.ok(k.say("ana", "/bodyweight")).Message.Text; !strings.Contains(text, "optional") {
		t.Errorf("without a weighing: %q", text)
	}
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	k.weighs("ana", 36, 62, 0.01)
	r := k.ok(k.say("ana", "/bodyweight"))
	d := data[weightData](t, r)
	if d.Kg == nil || *d.Kg < 62.2 || *d.Kg > 62.5 || d.Room == nil || *d.Room < 0.5 || *d.Room > 0.8 || d.AtMeet == nil {
		t.Errorf("%+v", d)
	}
	if strings.Contains(r.Message.Text, "make weight") || len(r.Message.Files) != 1 || !r.Message.Private {
		t.Errorf("below the class: %q, %d pictures", r.Message.Text, len(r.Message.Files))
	}
	k.weighs("ana", 12, 66, 0)
	text := k.ok(k.say("ana", "/bodyweight")).Message.Text
	if next := strings.Index(text, "next class"); next < 0 || strings.Index(text, "Nobody should make weight") < next {
		t.Errorf("above the class: %q", text)
	}
	k.refused(k.say("ana", "/bodyweight 900"), "900")
	k.refused(k.say("ana", "/bodyweight weight:62 date:2028-01-01"), "still to come")
}

func TestWeighingIsForgottenOnWish(t *testing.T) {
	k := newTalk(t, "2027-04-01T18:00:00Z")
	k.ok(k.say("ana", "/bodyweight 62"))
	k.clock("2027-04-02T18:00:00Z")
	k.ok(k.say("ana", "/bodyweight 99"))
	k.ok(k.say("ana", "/bodyweight drop:yes"))
	if got := k.lifter("ana").Bodyweight; got != 62000 {
		t.Errorf("the bodyweight is %s, want the one before", got.Text("kg"))
	}
	k.refused(k.say("ana", "/bodyweight drop:yes"), "no weighing")
}

// A lifter's own coach sees it unless the lifter says otherwise; another captain
// does not.
func TestWhoSeesWhatIsAboutTheBody(t *testing.T) {
	k := newTalk(t, "2027-04-01T18:00:00Z")
	k.ok(k.say("ana", "/bodyweight 62"))
	k.ok(k.say("ben", "/block"))
	k.ok(k.say("cap", "/bodyweight lifter:ana")) // captain and, as none is set, coach
	k.ok(k.say("cap", "/club assign lifter:ana coach:ben"))
	k.ok(k.say("ben", "/bodyweight lifter:ana"))
	k.ok(k.say("ben", "/checkin lifter:ana"))
	k.refused(k.say("cap", "/bodyweight lifter:ana"), "their own coach")
	k.refused(k.say("cap", "/checkin lifter:ana"), "their own coach")
	text := k.ok(k.say("cap", "/me lifter:ana")).Message
	text.Buttons = nil // their tokens are random and may hold the digits
	if strings.Contains(fmt.Sprint(text), "62") {
		t.Errorf("the captain reads it in the profile: %v", text)
	}
	k.refused(k.say("ben", "/bodyweight lifter:ana seen_by:captains"), "for that lifter to say")
	k.ok(k.say("ana", "/bodyweight seen_by:captains"))
	k.ok(k.say("cap", "/bodyweight lifter:ana"))
	k.ok(k.say("ana", "/bodyweight seen_by:nobody"))
	k.refused(k.say("ben", "/bodyweight lifter:ana"), "nobody else")
	k.ok(k.say("ana", "/bodyweight"))
}

func TestCheckInIsTwoTaps(t *testing.T) {
	k := newTalk(t, "2027-04-01T18:00:00Z")
	r := k.ok(k.say("ana", "/checkin"))
	if len(r.Message.Buttons) != 3 || !r.Message.Private {
		t.Fatalf("%d buttons", len(r.Message.Buttons))
	}
	r = k.ok(k.press("ana", "A bit tired"))
	if r.Kind != chat.Update || !strings.Contains(r.Message.Text, "want to train") || len(r.Message.Buttons) != 3 {
		t.Errorf("after the first tap: %s %q", r.Kind, r.Message.Text)
	}
	r = k.ok(k.press("ana", "Keen"))
	if !strings.Contains(r.Message.Text, "Thank you") || len(r.Message.Buttons) != 0 {
		t.Errorf("after the second: %q", r.Message.Text)
	}
	rows := data[struct {
		CheckIns []struct{ Date, Tired, Fresh string } `json:"checkins"`
	}](t, k.ok(k.say("ana", "/checkin"))).CheckIns
	if len(rows) != 1 || rows[0].Tired != "a bit tired" || rows[0].Fresh != "keen" {
		t.Errorf("kept %+v", rows)
	}
	k.ok(k.say("ana", `/checkin tired:"very tired" fresh:stale`))
	k.refused(k.say("cap", `/checkin lifter:ana tired:rested`), "only they can say")
}

// The club is asked in one post a week; whoever presses answers in private.
func TestClubIsAskedOnceAWeek(t *testing.T) {
	k := newTalk(t, "2027-04-01T18:00:00Z")
	k.ok(k.say("ana", "/block"))
	k.ok(k.say("cap", "/club desk checkin:sunday"))
	var posts []chat.Post
	r := nudge.Runner{Store: k.store, Poster: posterFunc(func(p chat.Post) { posts = append(posts, p) }), Weekly: k.bot.Weekly}
	for _, day := range []string{"2027-04-04", "2027-04-05", "2027-04-11"} {
		if err := r.Run(context.Background(), k.at(day+"T08:00:00Z")); err != nil {
			t.Fatal(err)
		}
	}
	if len(posts) != 2 || posts[0].To.Channel != "#announcements" || len(posts[0].Message.Buttons) != 1 {
		t.Fatalf("%d posts: %+v", len(posts), posts)
	}
	k.clock("2027-04-11T09:00:00Z")
	token := posts[1].Message.Buttons[0].Token
	for _, who := range []string{"ana", "ben"} {
		if a := k.ok(k.pressToken(who, token)); !a.Message.Private || len(a.Message.Buttons) != 3 {
			t.Errorf("%s is asked: %+v", who, a.Message)
		}
	}
	k.ok(k.press("ana", "Rested"))
	err := k.store.View(context.Background(), func(tx *store.Tx) error {
		ben, err := tx.CheckIns(k.lifter("ben").ID, 0)
		if len(ben) != 0 {
			t.Errorf("Ana's answer went to Ben: %+v", ben)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// What a plan says of the class names the bodyweight, so whoever may not see the one
// does not read the other: not in the words, not in the data, not in an export.
func TestPlanDoesNotTellAHiddenBodyweight(t *testing.T) {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate category:women competed:yes bodyweight:66.7 class:63"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	k.ok(k.say("ana", "/season build"))
	k.ok(k.press("ana", "Accept plan"))
	own := fmt.Sprint(k.ok(k.say("ana", "/season")).Message)
	if !strings.Contains(own, "You weigh 66.7 kg") {
		t.Fatalf("the plan says nothing of the class, so nothing is proved: %s", own)
	}
	asks := []string{"/season lifter:ana", "/season build lifter:ana", "/season build lifter:ana days:3", "/season why lifter:ana", "/season compare lifter:ana", "/me set lifter:ana class:57", "/mydata export lifter:ana"}
	tells := func(text string) bool {
		m := k.ok(k.say("cap", text)).Message
		raw, err := json.Marshal(m.Data)
		if err != nil {
			t.Fatal(err)
		}
		all := m.Text + fmt.Sprint(m.Fields) + string(raw)
		for _, f := range m.Files {
			all += f.Alt
			if strings.HasSuffix(f.Name, ".json") {
				all += string(f.Bytes)
			}
		}
		return strings.Contains(all, "You weigh") || strings.Contains(all, "66.7") || strings.Contains(all, "66700") || strings.Contains(all, "9.7 kg")
	}
	for _, text := range asks[:5] {
		if !tells(text) {
			t.Errorf("%s does not tell the coach what the lifter allows", text)
		}
	}
	k.ok(k.say("ana", "/bodyweight seen_by:nobody"))
	for _, text := range asks {
		if tells(text) {
			t.Errorf("%s tells the bodyweight", text)
		}
	}
}
