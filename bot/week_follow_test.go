package bot

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
)

// A lifter who does exactly what is prescribed and never says how hard it was keeps
// the estimate within 1 % for 12 weeks, easy weeks included.
func TestWhoNeverRatesStaysPut(t *testing.T) {
	k := trained(t)
	first, last := map[planner.Lift]float64{}, map[planner.Lift]float64{}
	start := k.now
	for day := range 12 * 7 {
		k.now = start.AddDate(0, 0, day)
		d := k.week("ana", "/today")
		for _, x := range d.Days {
			for _, w := range x.Work {
				if w.Max > 0 && w.Variant == nil {
					if first[w.Lift] == 0 {
						first[w.Lift] = w.Max
					}
					last[w.Lift] = w.Max
				}
			}
		}
		if len(d.Days) > 0 {
			k.ok(k.say("ana", "done"))
		}
	}
	for lift, was := range first {
		if drift := 100 * (last[lift]/was - 1); math.Abs(drift) > 1 {
			t.Errorf("%s: the max to reckon from went from %.1f to %.1f kg, %+.2f %%", lift, was, last[lift], drift)
		}
	}
	if len(first) != 3 {
		t.Errorf("only %d lifts were planned", len(first))
	}
}

// The step rule of common practice: one repetition or more too easy is a step up, one
// too hard a step down, and within one nothing moves. The max that the next loads are
// reckoned from shows it; the loads themselves also keep to one step a week.
func TestTopSetMovesTheNextLoads(t *testing.T) {
	run := func(effort string) (next float64, told []render.Moved) {
		k := trained(t)
		for day := range 8 { // a first week as prescribed, so that the maxes rest on the log
			k.now = time.Date(2027, 1, 4+day, 17, 0, 0, 0, time.UTC)
			d := k.week("ana", "/today")
			if len(d.Days) == 0 {
				continue
			}
			if day < 7 {
				k.ok(k.say("ana", "done"))
				continue
			}
			top := work(t, d.Days[0], "squat")
			k.ok(k.say("ana", "squat "+planner.Kilograms(*top.Weight).Number(planner.KG)+"x6 "+effort))
		}
		k.now = k.now.AddDate(0, 0, 7)
		d := k.week("ana", "/week")
		return work(t, d.Days[0], "squat").Max, d.Moved
	}
	asPlanned, told := run("@7.5")
	if len(told) != 0 {
		t.Errorf("as planned: %+v", told)
	}
	easy, told := run("@5.5")
	if easy <= asPlanned || len(told) != 1 || !strings.Contains(told[0].Text, "Squat, Mon 11 January: easier than planned") {
		t.Errorf("easy: %g after %g as planned, %+v", easy, asPlanned, told)
	}
	hard, told := run("@9.5")
	if hard >= asPlanned || len(told) != 1 || !strings.Contains(told[0].Text, "arder than planned") {
		t.Errorf("hard: %g after %g as planned, %+v", hard, asPlanned, told)
	}
	if asPlanned-hard > 0.06*asPlanned || easy-asPlanned > 0.06*asPlanned {
		t.Errorf("one set moves the loads by more than two steps: %g, %g, %g", hard, asPlanned, easy)
	}
}

// Within the week the sessions behind the set move too.
func TestTopSetMovesTheSameWeek(t *testing.T) {
	k := trained(t)
	for day := range 9 {
		k.now = time.Date(2027, 1, 4+day, 17, 0, 0, 0, time.UTC)
		if d := k.week("ana", "/today"); len(d.Days) > 0 && day < 7 {
			k.ok(k.say("ana", "done"))
		}
	}
	k.now = time.Date(2027, 1, 11, 17, 0, 0, 0, time.UTC)
	before := k.week("ana", "/week")
	k.ok(k.say("ana", "squat 90x6 @9.5"))
	k.now = k.now.AddDate(0, 0, 1)
	after := k.week("ana", "/week")
	was, is := work(t, before.Days[2], "high-bar squat"), work(t, after.Days[2], "high-bar squat")
	if *is.Weight >= *was.Weight || *is.Percent != *was.Percent {
		t.Errorf("%+v became %+v", was, is)
	}
	if *after.Days[0].Work[0].Weight != *before.Days[0].Work[0].Weight {
		t.Error("what was asked for changed behind the lifter's back")
	}
	if w := work(t, after.Days[1], "bench"); *w.Weight != *work(t, before.Days[1], "bench").Weight {
		t.Error("a squat moved the bench")
	}
	// Dropping the set takes its effect back.
	k.ok(k.say("ana", "/log drop 1"))
	if back := work(t, k.week("ana", "/week").Days[2], "high-bar squat"); *back.Weight != *was.Weight {
		t.Errorf("without the set: %+v", back)
	}
}

func TestMissedSessionIsFittedIn(t *testing.T) {
	k := trained(t)
	week := k.week("ana", "/week")
	k.now = k.now.AddDate(0, 0, 1)
	if d := k.week("ana", "/today"); len(d.Open) != 1 || d.Open[0].String() != "2027-01-04" {
		t.Errorf("%+v", d)
	}
	r := k.ok(k.press("ana", "Fit it in"))
	d := data[render.WeekData](t, r)
	if len(d.Days) == 0 || len(d.Days) >= len(week.Days) || d.Days[0].Date < planner.NewDate(2027, 1, 5) {
		t.Errorf("%+v", d.Days)
	}
	if !strings.Contains(r.Message.Text, "left out") {
		t.Errorf("%q", r.Message.Text)
	}
}

// The answer to the line that moved a load says what moves, to what and why; that it
// goes down is for the lifter alone, and no second line says it again.
func TestLogLineSaysWhatItMoves(t *testing.T) {
	moving := func(lines ...string) (*talk, []chat.Reply) {
		k := loading(t)
		var all []chat.Reply
		for _, line := range lines {
			k.now = k.now.Add(10 * time.Minute)
			all = append(all, k.ok(k.say("ana", line)))
		}
		return k, all
	}
	k, r := moving("squat 90x6 @9.5", "squat 82.5x10")
	was := r[0].Message.Text
	after := work(t, k.week("ana", "/week").Days[2], "high-bar squat")
	want := "Squat was harder than planned, so Fri 15 January goes down: high-bar squat " + planner.Kilograms(*after.Weight).Text(planner.KG) + " instead of "
	if !strings.Contains(was, want) || !r[0].Message.Private {
		t.Errorf("says %q, private %t, want %q", was, r[0].Message.Private, want)
	}
	if strings.Contains(r[1].Message.Text, "than planned") {
		t.Errorf("the back-off says it again: %q", r[1].Message.Text)
	}
	_, r = moving("squat 90x6 @5")
	if !strings.Contains(r[0].Message.Text, "Squat was easier than planned, so Fri 15 January goes up") || r[0].Message.Private {
		t.Errorf("says %q, private %t", r[0].Message.Text, r[0].Message.Private)
	}
	_, r = moving("squat 90x6 @7.5")
	if r[0].Kind != chat.React {
		t.Errorf("as planned: %q", r[0].Message.Text)
	}
	// The main deadlift is on the last day of the week: what moves is the next one.
	k, _ = moving()
	k.now = time.Date(2027, 1, 15, 17, 0, 0, 0, time.UTC)
	top := work(t, k.week("ana", "/today").Days[0], "deadlift")
	said := k.ok(k.say("ana", "deadlift "+planner.Kilograms(*top.Weight).Number(planner.KG)+"x"+fmt.Sprint(top.Reps)+" @5"))
	if !strings.Contains(said.Message.Text, "Deadlift was easier than planned, so next week goes up: ") {
		t.Errorf("says %q", said.Message.Text)
	}
	// Who was shown no work is told nothing of loads.
	k = newTalk(t, "2027-01-04T17:00:00Z")
	k.strong("ben", "2027-05-29")
	if r := k.ok(k.say("ben", "squat 100x5 @10")); strings.Contains(r.Message.Text, "than planned") {
		t.Errorf("nothing was planned: %q", r.Message.Text)
	}
}
