package bot

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
)

// trained is an intermediate lifter on Mondays, Wednesdays and Fridays with told
// maxes and a plan, on the first Monday of a muscle block.
func trained(t *testing.T) *talk {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate category:women bodyweight:62.5 squat:120 bench:70 deadlift:145 days:3 competed:yes"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-05-29 kind:main`))
	k.ok(k.say("ana", "/season build"))
	k.ok(k.press("ana", "Accept plan"))
	return k
}

func (k *talk) week(who, ask string) render.WeekData {
	k.t.Helper()
	return data[render.WeekData](k.t, k.ok(k.say(who, ask)))
}

// work finds the first line of a movement in a session.
func work(t *testing.T, d render.DayData, name string) render.WorkData {
	t.Helper()
	for _, w := range d.Work {
		if w.Name == name {
			return w
		}
	}
	t.Fatalf("no %s in %+v", name, d)
	return render.WorkData{}
}

func TestTodayIsOnlyToday(t *testing.T) {
	k := trained(t)
	r := k.ok(k.say("ana", "/today"))
	d := data[render.WeekData](t, r)
	if len(d.Days) != 1 || d.Days[0].Date.String() != "2027-01-04" || !r.Message.Private || *d.Block != planner.Hypertrophy || *d.Week != 1 {
		t.Errorf("%+v", d)
	}
	squat := work(t, d.Days[0], "squat")
	if squat.Variant != nil || math.Abs(*squat.Weight-0.01**squat.Percent*squat.Max) > 1.25+1e-9 {
		t.Errorf("the load is further from its percent than the discs explain: %+v", squat)
	}
	side := 0.0
	for _, disc := range squat.PerSide {
		side += disc
	}
	if got := 25 + 2*side; math.Abs(got-*squat.Weight) > 1e-9 {
		t.Errorf("bar, collars and discs weigh %g, the load is %g", got, *squat.Weight)
	}
	for _, word := range []string{"Warm up: bar x 8", "each side", "left", "Rest"} {
		if !strings.Contains(r.Message.Fields[0].Value, word) {
			t.Errorf("%q is not in %q", word, r.Message.Fields[0].Value)
		}
	}
	for _, f := range r.Message.Fields {
		if strings.Contains(f.Value, "RIR") || strings.Contains(f.Value, "RPE") {
			t.Errorf("jargon: %q", f.Value)
		}
	}
}

func TestWeekKeepsItsShapeForPrograms(t *testing.T) {
	k := trained(t)
	d := k.week("ana", "/week")
	if len(d.Days) != 3 || d.Deload || d.Taper {
		t.Fatalf("%+v", d)
	}
	roles := map[load.Role]bool{load.Top: true, load.BackOff: true, load.Accessory: true}
	for _, day := range d.Days {
		for _, w := range day.Work {
			known := w.Weight != nil && w.Percent != nil
			if !roles[w.Role] || known == (w.Role == load.Accessory) || w.Sets < 1 || w.Reps < 1 {
				t.Errorf("%s: %+v", day.Date, w)
			}
		}
	}
	if next := k.week("ana", "/week next"); next.Start.String() != "2027-01-11" || !next.Preview {
		t.Errorf("%+v", next)
	}
	if again := k.week("ana", "/week 2027-01-06"); again.Start != d.Start {
		t.Errorf("a day names its week, got %s", again.Start)
	}
	k.refused(k.say("ana", "/week yesterweek"), "yesterweek")
}

func TestTodayWhereThereIsNoWork(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	says := func(who, why string, words ...string) {
		t.Helper()
		r := k.ok(k.say(who, "/today"))
		d := data[render.WeekData](t, r)
		if d.Why != why || len(d.Days) != 0 || d.Block != nil && why != "rest day" {
			t.Errorf("%s: %+v", why, d)
		}
		for _, w := range words {
			if !strings.Contains(r.Message.Text, w) {
				t.Errorf("%s: %q is not in %q", why, w, r.Message.Text)
			}
		}
	}
	says("bo", "no plan", "/season build")
	k.ok(k.say("bo", "/me set level:new"))
	says("bo", "new", "learning the lifts")
	k = trained(t)
	k.clock("2027-01-05T17:00:00Z")
	says("ana", "rest day", "Wed 6 January")
	k.ok(k.say("ana", "/season away from:2027-01-05 to:2027-01-08"))
	says("ana", "away", "/season back")
	k.clock("2027-01-09T17:00:00Z")
	k.ok(k.say("ana", "/week weeks:own"))
	says("ana", "own weeks", "I prescribe nothing")
	k.ok(k.say("ana", "/week weeks:usual"))
	k.clock("2027-05-29T08:00:00Z")
	says("ana", "meet day", "Meet day")
	k.clock("2027-05-31T08:00:00Z")
	says("ana", "no block", "easy weeks come first")
}

func TestDoneLogsWhatIsMissing(t *testing.T) {
	k := trained(t)
	d := k.week("ana", "/today").Days[0]
	squat := work(t, d, "squat")
	k.ok(k.say("ana", "squat 82.5x8 @7"))
	r := k.ok(k.press("ana", "Done"))
	logged := data[struct {
		Sets []struct {
			Lift   planner.Lift
			Sets   int
			Weight float64  `json:"weight_kg"`
			RIR    *float64 `json:"rir"`
		}
	}](t, r)
	if len(logged.Sets) != 2 || logged.Sets[0].Sets != squat.Sets-1 || logged.Sets[0].Weight != *squat.Weight || logged.Sets[0].RIR != nil {
		t.Errorf("one of %d sets was logged before: %+v", squat.Sets, logged.Sets)
	}
	if r := k.ok(k.say("ana", "done")); !strings.Contains(r.Message.Text, "already") {
		t.Errorf("said twice: %q", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "undo")); !strings.Contains(r.Message.Text, "Taken back") {
		t.Errorf("undo: %q", r.Message.Text)
	}
	if r := k.ok(k.say("ana", "did it all")); r.Kind != chat.React || len(data[map[string]any](t, r)["sets"].([]any)) != 2 {
		t.Errorf("after the undo: %s %q", r.Kind, r.Message.Text)
	}
	gone := k.event("ana")
	gone.Kind, gone.Message = chat.Deleted, fmt.Sprint("m", k.n-1) // the message that said so
	k.ok(k.handle(gone))
	recent := data[struct{ Sets []any }](t, k.ok(k.say("ana", "/log recent")))
	if len(recent.Sets) != 1 {
		t.Errorf("only the set that was written stays: %+v", recent)
	}
}

// Who chooses the weight of an accessory is reminded of the last one.
func TestLastWeightOfAnAccessory(t *testing.T) {
	k := trained(t)
	k.ok(k.say("ana", "row 40x10"))
	k.clock("2027-01-11T17:00:00Z")
	r := k.ok(k.say("ana", "/today"))
	w := work(t, data[render.WeekData](t, r).Days[0], "row")
	if w.Last == nil || w.Last.Weight != 40 || w.Last.Reps != 10 {
		t.Errorf("%+v", w)
	}
	if all := fmt.Sprint(r.Message.Fields); !strings.Contains(all, "last time 40 kg x 10") {
		t.Errorf("%s", all)
	}
}

func TestDoneUnseenAsksFirst(t *testing.T) {
	k := trained(t)
	r := k.ok(k.say("ana", "done"))
	if !strings.Contains(r.Message.Text, "Is this what you did?") {
		t.Errorf("%q", r.Message.Text)
	}
	if r := k.ok(k.press("ana", "Done")); !strings.HasPrefix(r.Message.Text, "Kept") {
		t.Errorf("%q", r.Message.Text)
	}
}

func TestButtonsOfASession(t *testing.T) {
	k := trained(t)
	before := k.week("ana", "/today").Days[0]
	k.ok(k.press("ana", "Short on time"))
	short := data[render.WeekData](t, k.ok(k.press("ana", "30 minutes"))).Days[0]
	if short.Minutes > 30 || short.Minutes >= before.Minutes {
		t.Errorf("%d minutes", short.Minutes)
	}
	if again := k.week("ana", "/today").Days[0]; again.Minutes != short.Minutes {
		t.Errorf("forgotten: %d minutes", again.Minutes)
	}
	if whole := data[render.WeekData](t, k.ok(k.press("ana", "As planned"))).Days[0]; whole.Minutes != before.Minutes {
		t.Errorf("not as planned: %d minutes", whole.Minutes)
	}
	k.ok(k.press("ana", "Swap"))
	k.ok(k.press("ana", "Squat"))
	front := data[render.WeekData](t, k.ok(k.press("ana", "Front squat"))).Days[0]
	if w := work(t, front, "front squat"); *w.Weight >= *work(t, before, "squat").Weight {
		t.Errorf("a front squat is lighter than a squat: %+v", w)
	}
	k.ok(k.press("ana", "Move to tomorrow"))
	if d := k.week("ana", "/week").Days[0]; d.Date.String() != "2027-01-05" || d.Work[0].Name != "front squat" {
		t.Errorf("%+v", d)
	}
	if d := k.week("ana", "/today"); d.Why != "rest day" {
		t.Errorf("%+v", d)
	}
	var token string
	for _, b := range k.last["ana"] {
		if b.Label == "Why" {
			token = b.Token
		}
	}
	k.refused(k.pressToken("bo", token), "somebody else")
	k.bot = New(Config{Store: k.store, Captains: []string{"cap"}}) // after a restart
	k.clock("2027-01-05T17:00:00Z")
	k.ok(k.say("ana", "/today"))
	k.ok(k.press("ana", "Why"))
}

func TestAssistanceSwapStays(t *testing.T) {
	k := trained(t)
	name := ""
	for _, w := range k.week("ana", "/today").Days[0].Work {
		if w.Role == load.Accessory {
			name = w.Name
		}
	}
	k.ok(k.press("ana", "Swap"))
	k.ok(k.press("ana", strings.ToUpper(name[:1])+name[1:]))
	other := k.last["ana"][0]
	k.ok(k.pressToken("ana", other.Token))
	for _, ask := range []string{"/week", "/week next"} {
		found := false
		for _, d := range k.week("ana", ask).Days {
			for _, w := range d.Work {
				found = found || strings.EqualFold(w.Name, other.Label)
				if w.Name == name {
					t.Errorf("%s still has %s", ask, name)
				}
			}
		}
		if !found {
			t.Errorf("%s has no %s", ask, other.Label)
		}
	}
	k.ok(k.say("ana", "/week override remove:1"))
}
