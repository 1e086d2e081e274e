package bot

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"blockbell/bot/chat"
)

type logAnswer struct {
	Sets []struct {
		Lift    string   `json:"lift"`
		Variant *string  `json:"variant"`
		Weight  float64  `json:"weight_kg"`
		Reps    int      `json:"reps"`
		Sets    int      `json:"sets"`
		RIR     *float64 `json:"rir"`
		Missed  bool     `json:"missed"`
		Date    string   `json:"date"`
		E1RM    *float64 `json:"e1rm_kg"`
		Pending bool     `json:"pending"`
	} `json:"sets"`
	Bodyweight *float64 `json:"bodyweight_kg"`
	Problems   []struct {
		Column int    `json:"column"`
		Text   string `json:"text"`
	} `json:"problems"`
}

func TestLogLineGetsAMarkAndAnEstimate(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.say("ana", "squat 140x5 @8")
	if r.Kind != chat.React || r.Reaction == "" {
		t.Fatalf("answered with %q %s", r.Kind, r.Message.Text)
	}
	got := data[logAnswer](t, r)
	// 140 kg for 5 with 2 left is 7 to failure: 36 x 140 / (37 - 7) = 168
	// (Brzycki 1993 in its 36/(37 - r) form).
	if s := got.Sets[0]; s.Lift != "squat" || s.Variant != nil || s.E1RM == nil || math.Abs(*s.E1RM-168) > 1e-6 || s.Date != "2027-01-04" {
		t.Errorf("%+v", s)
	}
}

func TestChatterAndOtherChannelsAreLeftAlone(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	for _, text := range []string{"good session today!", "see you tomorrow", "gonna hit 200", "```\nsquat 140x5\n```"} {
		if r := k.say("ana", text); r.Kind != chat.Silent {
			t.Errorf("%q was answered: %q %s", text, r.Kind, r.Message.Text)
		}
	}
	e := k.event("ana")
	e.Channel, e.Text = "#general", "squat 140x5"
	if r := k.handle(e); r.Kind != chat.Silent {
		t.Errorf("read in another channel: %q", r.Kind)
	}
}

func TestBadWeightsAreNamedAndTheRestIsKept(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	for _, text := range []string{"bench -5x5", "bench 5000x5"} {
		r := k.say("ana", text)
		if got := data[logAnswer](t, r); len(got.Sets) != 0 || len(got.Problems) == 0 {
			t.Errorf("%q: %+v", text, got)
		}
	}
	r := k.say("ana", "squat 140x5\nbench 5000x5")
	got := data[logAnswer](t, r)
	if len(got.Sets) != 1 || len(got.Problems) != 1 || got.Problems[0].Column < 1 {
		t.Errorf("%+v", got)
	}
	long := k.say("ana", strings.Repeat("squat 140x5 ", 834)) // 10,008 characters
	if got := data[logAnswer](t, long); len(got.Sets) != 0 || len(got.Problems) != 1 || len(long.Message.Text) > 300 {
		t.Errorf("a long message: %d sets, answer of %d characters", len(got.Sets), len(long.Message.Text))
	}
}

func TestAbsurdLoadsAskBeforeTheyCount(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/me set squat:140"))
	r := k.say("ana", "squat 240x5")
	got := data[logAnswer](t, r)
	if r.Kind != chat.Answer || len(got.Sets) != 1 || !got.Sets[0].Pending || len(r.Message.Buttons) < 2 {
		t.Fatalf("%q %+v %+v", r.Kind, got, r.Message.Buttons)
	}
	keep := r.Message.Buttons[0]
	k.ok(k.pressToken("ana", keep.Token))
	recent := data[logAnswer](t, k.ok(k.say("ana", "/log")))
	if len(recent.Sets) != 1 || recent.Sets[0].Pending {
		t.Errorf("after %q: %+v", keep.Label, recent.Sets)
	}
}

func TestSecondThoughts(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 140x5")
	k.ok(k.say("ana", "I meant 150"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 1 || got.Sets[0].Weight != 150 {
		t.Errorf("corrected: %+v", got.Sets)
	}
	k.ok(k.say("ana", "undo"))
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 0 {
		t.Errorf("undone: %+v", got.Sets)
	}
	k.refused(k.say("ana", "undo"), "no set")
}

func TestEditsAndDeletionsFollowThrough(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	e := k.event("ana")
	e.Text = "squat 140x5"
	k.handle(e)
	edit := k.event("ana")
	edit.Kind, edit.Message, edit.Text = chat.Edited, e.Message, "squat 145x5"
	k.clock("2027-01-06T19:00:00Z")
	edit.At = k.now
	k.handle(edit)
	got := data[logAnswer](t, k.ok(k.say("ana", "/log")))
	if len(got.Sets) != 1 || got.Sets[0].Weight != 145 || got.Sets[0].Date != "2027-01-04" {
		t.Errorf("edited: %+v", got.Sets)
	}
	gone := k.event("ana")
	gone.Kind, gone.Message = chat.Deleted, e.Message
	k.handle(gone)
	if got := data[logAnswer](t, k.ok(k.say("ana", "/log"))); len(got.Sets) != 0 {
		t.Errorf("deleted: %+v", got.Sets)
	}
}

func TestStructuredLogIsCheckedAndCorrected(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/log set lift:bench weight:225lb reps:5 effort:9"))
	got := data[logAnswer](t, k.ok(k.say("ana", "/log")))
	if s := got.Sets[0]; math.Abs(s.Weight-102.058) > 1e-3 || s.RIR == nil || *s.RIR != 1 {
		t.Errorf("%+v", s)
	}
	k.ok(k.say("ana", "/log fix 1 weight:100"))
	k.ok(k.say("ana", "/log drop 1"))
	k.refused(k.say("ana", "/log drop 1"), "no logged set")
	k.refused(k.say("ana", "/log set lift:bennch weight:100 reps:5"), "Did you mean bench")
	k.refused(k.say("ana", "/log set lift:bench weight:100 reps:five"), "reps", "five")
	k.refused(k.say("ana", "/log set lift:bench weight:100 reps:5 date:2027-02-01"), "still to come")
}

func TestAlarmWordsGetTheCautionAndAreNotKept(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	r := k.say("ana", "squat 140x5, then chest pain and I nearly fainted")
	if r.Kind != chat.Answer || !strings.Contains(r.Message.Text, "doctor") {
		t.Fatalf("%q %s", r.Kind, r.Message.Text)
	}
	if strings.Contains(r.Message.Text, "chest") || strings.Contains(r.Message.Text, "faint") {
		t.Errorf("the words are repeated: %s", r.Message.Text)
	}
	var b strings.Builder
	if err := k.store.Export(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "faint") || strings.Contains(b.String(), "chest") {
		t.Error("the words are in the database")
	}
}

func TestOwnFormOfALiftIsNoVariant(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.ok(k.say("ana", "/me set bench_style:touch and go deadlift_style:sumo"))
	k.say("ana", "tng bench 90x3\nsumo deadlift 150x3\nconventional deadlift 150x3")
	k.ok(k.say("ana", "/log set lift:\"sumo deadlift\" weight:155 reps:1"))
	var got []string
	for _, s := range data[logAnswer](t, k.ok(k.say("ana", "/log"))).Sets {
		v := "-"
		if s.Variant != nil {
			v = *s.Variant
		}
		got = append(got, s.Lift+" "+v)
	}
	if want := "deadlift -, deadlift conventional, deadlift -, bench -"; strings.Join(got, ", ") != want {
		t.Errorf("kept as %s, want %s", strings.Join(got, ", "), want)
	}
	k.ok(k.say("ben", "/me"))
	k.ok(k.press("ben", "My deadlift: sumo"))
	if r := k.ok(k.say("ben", "/me")); len(r.Message.Buttons) != 3 || !strings.Contains(k.profile("ben"), `"deadlift_style":"sumo"`) {
		t.Errorf("asked again: %+v %s", r.Message.Buttons, k.profile("ben"))
	}
	k.refused(k.say("ana", "/me set bench_style:bouncy"), "paused", "touch and go")
}

func (k *talk) profile(who string) string {
	raw, err := json.Marshal(k.ok(k.say(who, "/me")).Message.Data)
	if err != nil {
		k.t.Fatal(err)
	}
	return string(raw)
}

// The hand that says stop comes once a day; the sentence for what should stop a
// session comes every time.
func TestHandIsShownOnceADay(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	for i, c := range []struct {
		text string
		kind chat.ReplyKind
		mark string
	}{
		{"my knee hurts", chat.React, markStop}, {"my elbow hurts too", chat.Silent, ""}, {"squat 100x5, my knee hurts", chat.React, markKept},
		{"chest pain", chat.Answer, ""}, {"chest pain again", chat.Answer, ""},
	} {
		if r := k.say("ana", c.text); r.Kind != c.kind || r.Reaction != c.mark || c.kind == chat.Answer && !strings.Contains(r.Message.Text, "doctor") {
			t.Errorf("message %d: %q %q %s", i, r.Kind, r.Reaction, r.Message.Text)
		}
	}
	if r := k.say("ben", "my knee hurts"); r.Reaction != markStop {
		t.Errorf("somebody else: %q", r.Reaction)
	}
	k.clock("2027-01-05T19:00:00Z")
	if r := k.say("ana", "my knee hurts"); r.Reaction != markStop {
		t.Errorf("the next day: %q", r.Reaction)
	}
}
