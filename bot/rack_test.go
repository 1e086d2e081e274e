package bot

import (
	"fmt"
	"strings"
	"testing"
)

func TestRackSheetOfTheDay(t *testing.T) {
	k := newTalk(t, "2027-01-04T07:00:00Z") // a Monday
	for _, who := range []string{"ana", "ben"} {
		k.planned(who, "2027-06-12")
		k.ok(k.say(who, "/me set squat:180 bench:110 deadlift:220 days:3"))
		k.ok(k.say(who, `/week days:"mon wed fri"`))
	}
	k.ok(k.say("cleo", "/me"))
	k.refused(k.say("ana", "/club today"), "captain")
	r := k.ok(k.say("cap", "/club today"))
	got := data[struct {
		Count   int `json:"count"`
		Lifters []struct {
			Lifter string `json:"lifter"`
			Work   []struct {
				Lift   string    `json:"lift"`
				Sets   int       `json:"sets"`
				Weight float64   `json:"weight_kg"`
				Side   []float64 `json:"each_side"`
			} `json:"work"`
		} `json:"lifters"`
	}](t, r)
	if got.Count != 2 || len(got.Lifters) != 2 || len(r.Message.Fields) != 2 || !r.Message.Private {
		t.Fatalf("%+v", got)
	}
	loaded := 0
	for _, w := range got.Lifters[0].Work {
		sum := 25.0 // a 20 kg bar and a pair of collars of 2.5 kg each, as in competition
		for _, d := range w.Side {
			sum += 2 * d
		}
		if w.Weight > 0 && sum != w.Weight && sum-5 != w.Weight {
			t.Errorf("%s: %v each side is not %g kg", w.Lift, w.Side, w.Weight)
		}
		if w.Weight > 0 {
			loaded++
		}
	}
	if loaded == 0 || !strings.Contains(r.Message.Fields[0].Value, " + collar 2.5") {
		t.Errorf("nothing is on the bar: %+v", r.Message.Fields[0])
	}
	if len(r.Message.Files) != 1 {
		t.Fatal("no picture")
	}
	if raw := r.Message.Files[0].Bytes; len(raw) < 1000 || string(raw[1:4]) != "PNG" {
		t.Errorf("the picture has %d bytes", len(raw))
	}
	// What hangs on the wall is what the lifter sees.
	mine := k.ok(k.say("ana", "/today")).Message
	if !strings.Contains(strings.Join(fieldTexts(mine), " "), strings.TrimSpace(strings.Split(strings.Split(r.Message.Fields[0].Value, ": ")[1], "\n")[0])) {
		t.Errorf("/today shows %+v", mine.Fields)
	}
	k.clock("2027-01-05T07:00:00Z")
	if r := k.ok(k.say("cap", "/club today")); !strings.Contains(r.Message.Text, "Nobody") {
		t.Errorf("a rest day shows %+v", r.Message)
	}
	k.refused(k.say("cap", "/club today nowhere"), "nowhere")
}

func TestRackSheetTurnsPages(t *testing.T) {
	k := newTalk(t, "2027-01-04T07:00:00Z")
	for i := range rackPage + 3 {
		who := string(rune('a'+i)) + "x"
		k.planned(who, "2027-06-12")
		k.ok(k.say(who, `/week days:"mon thu"`))
		k.ok(k.say("cap", "/club assign lifter:"+who+" group:monday"))
	}
	r := k.ok(k.say("cap", "/club today group:Monday"))
	if len(r.Message.Fields) != rackPage {
		t.Errorf("%d on the first page", len(r.Message.Fields))
	}
	if r = k.ok(k.press("cap", "Next page")); len(r.Message.Fields) != 3 {
		t.Errorf("%d on the second page", len(r.Message.Fields))
	}
	g := k.ok(k.say("cap", "/club groups")).Message
	if all := strings.Join(fieldTexts(g), " "); !strings.Contains(all, "monday") || !strings.Contains(all, fmt.Sprint(rackPage+3, " lifters")) {
		t.Errorf("groups: %s", all)
	}
}
