package bot

import (
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/load"
)

// weekAnswer is what /log week gives to programs.
type weekAnswer struct {
	Start, End planner.Date
	Block      string
	Lifts      []struct {
		Lift     string
		HardSets int     `json:"hard_sets"`
		Tonnage  float64 `json:"tonnage_kg"`
		Top      float64 `json:"top_kg"`
	}
	Muscles []struct {
		Muscle load.Muscle
		Sets   float64
		Keeps  *float64
	}
	Fit struct {
		HardSets int `json:"hard_sets"`
		Inside   int
		Mixing   bool
	}
	Done struct {
		Sessions     int
		SessionsDone int `json:"sessions_done"`
		Sets         int
		SetsDone     int `json:"sets_done"`
	}
	Overload []struct {
		Lift    string
		Percent float64 `json:"percent_per_week"`
	}
}

// fieldsOf are the texts under the headings of an answer.
func fieldsOf(k *talk, text string) map[string]string {
	k.t.Helper()
	out := map[string]string{}
	for _, f := range k.ok(k.say("ana", text)).Message.Fields {
		out[f.Name] = f.Value
	}
	return out
}

// A week by hand: indirect sets count half, so 4 sets of squats are 2 for the hips, 3
// of bench press 1.5 for triceps; warm-ups are no hard sets.
func TestLogWeekAddsUp(t *testing.T) {
	k := newTalk(t, "2027-01-05T09:00:00Z") // a Tuesday
	k.strong("ana", "2027-06-12")
	for _, line := range []string{"squat 60x5, 100x3", "squat 130x8 @8", "squat 3x8 120 @8", "bench 3x10 80 @8", "row 4x10 60 @8"} {
		k.ok(k.say("ana", line))
	}
	r := k.ok(k.say("ana", "/log week"))
	if !r.Message.Private {
		t.Error("answered in public")
	}
	a := data[weekAnswer](t, r)
	if a.Block != "hypertrophy" || a.Start != planner.NewDate(2027, 1, 5) || a.End != planner.NewDate(2027, 1, 10) {
		t.Errorf("the week runs from %s to %s in %q", a.Start, a.End, a.Block)
	}
	if len(a.Lifts) != 2 || a.Lifts[0].HardSets != 4 || a.Lifts[0].Tonnage != 8*130+24*120 || a.Lifts[0].Top != 130 || a.Lifts[1].HardSets != 3 {
		t.Errorf("lifts %+v", a.Lifts)
	}
	want := map[load.Muscle]float64{load.Quads: 4, load.Hips: 2, load.Chest: 3, load.Triceps: 1.5, load.Shoulders: 1.5, load.Back: 4}
	for _, m := range a.Muscles {
		if m.Sets != want[m.Muscle] || m.Keeps != nil {
			t.Errorf("%s: %g sets, want %g (kept by %v)", m.Muscle, m.Sets, want[m.Muscle], m.Keeps)
		}
	}
	if a.Fit.HardSets != 7 || a.Fit.Inside != 7 || a.Fit.Mixing {
		t.Errorf("fit %+v", a.Fit)
	}
}

// In a strength block the muscle groups are held against a third of a muscle block's
// sets (Bickel et al. 2011): of the lifter's own, where three weeks of it are in the log.
func TestLogWeekSaysWhatKeepsMuscle(t *testing.T) {
	k := newTalk(t, "2027-01-05T09:00:00Z")
	k.strong("ana", "2027-06-12")
	blocks := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	strength := blocks[1].Start
	two := 2.0
	squats := func(day planner.Date, sets int) planner.Set {
		return planner.Set{Day: day, Lift: planner.Squat, Weight: 120 * planner.Kilogram, Reps: 5, Sets: sets, Reserve: &two}
	}
	k.clock(strength.AddDays(9).String() + "T09:00:00Z")
	k.keepLog("ana", []planner.Set{squats(strength.AddDays(7), 3)})
	text := fieldsOf(k, "/log week")["By muscle (sets that help only a bit count half)"]
	// 16 sets are the most for an intermediate lifter: a third is 5.3.
	if !strings.Contains(text, "Still to come this week, to keep the muscle you have (a third of what a muscle block usually holds): front of thigh 3 of about 5, hips and hamstrings 1.5 of about 5") {
		t.Errorf("before a log of the muscle block: %s", text)
	}
	for w := range 3 {
		k.keepLog("ana", []planner.Set{squats(blocks[0].Start.AddDays(7*w), 6)})
	}
	text = fieldsOf(k, "/log week")["By muscle (sets that help only a bit count half)"]
	if !strings.Contains(text, "Enough everywhere to keep the muscle you have (a third of your last muscle block).") {
		t.Errorf("with one of 6 sets a week: %s", text)
	}
}

// What was shown as planned is compared with what was done; the load at equal
// repetitions and effort with six weeks before.
func TestLogWeekSaysWhatWasDoneAndGotHeavier(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.ok(k.say("ana", "/today"))
	k.ok(k.say("ana", "done"))
	r := k.ok(k.say("ana", "/log week"))
	a := data[weekAnswer](t, r)
	if a.Done.Sessions != 1 || a.Done.SessionsDone != 1 || a.Done.Sets == 0 || a.Done.SetsDone != a.Done.Sets {
		t.Errorf("done %+v", a.Done)
	}
	k.ok(k.say("ana", "bench 80x6 @8"))
	k.clock("2027-01-25T09:00:00Z")
	k.ok(k.say("ana", "bench 82.5x6 @8"))
	f := fieldsOf(k, "/log week")
	// 100 * ln(82.5 / 80) over three weeks is 1.03 % a week.
	if got := f["Heavier at the same effort"]; !strings.Contains(got, "bench, sets of 6 with 2 left: 80 kg on Mon 4 January, 82.5 kg on Mon 25 January (+1.0 % a week)") {
		t.Errorf("overload: %q", got)
	}
	if f := fieldsOf(k, "/log week 2027-01-05"); f["Hard sets (work, no warm-ups)"] == "" {
		t.Errorf("the week of 5 January: %v", f)
	}
	k.says(k.say("ana", "/log week last"), "Nothing logged in that week.")
	k.refused(k.say("ana", "/log week 2027-03-01"), "still to come")
	k.refused(k.say("ana", "/log week soon"), "week:")
	k.ok(k.say("ana", "/week weeks:own"))
	if _, told := fieldsOf(k, "/log week 2027-01-05")["Done of the plan"]; told {
		t.Error("who trains by own weeks is held to the bot's")
	}
	k.ok(k.say("ben", "/log week"))
}

// The notes of a reading stand under the level, and what was done of the lift beside
// it.
func TestLiftSaysWhatItRestsOn(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.says(k.say("ana", "/lift squat"), "No set in the log tells the max of this lift yet; the figure comes from the best you told.")
	k.ok(k.say("ana", "/me set bench_style:paused"))
	k.ok(k.say("ana", "touch and go bench 80x8"))
	k.says(k.say("ana", "/lift bench"), "All of it was touch and go: the figure is 4 % lower", "No set says how hard it was", "Add the effort to a set")
	k.clock("2027-01-12T09:00:00Z")
	k.ok(k.say("ana", "squat 8x8 120 @8"))
	if got := fieldsOf(k, "/lift squat")["Your work on it"]; got != "About 6 hard sets a week since Mon 4 January (8 to 12 are usual in your muscle block); 8 of 8 have the 4 to 12 repetitions that it is for." {
		t.Errorf("the work on it: %q", got)
	}
}
