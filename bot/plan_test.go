package bot

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

type seasonAnswer struct {
	Blocks      []planner.Block      `json:"blocks"`
	Meets       []planner.SeasonMeet `json:"meets"`
	GainPercent *float64             `json:"gain_percent"`
	Tolerance   *float64             `json:"tolerance_percent"`
	Boundaries  []struct {
		Date    planner.Date `json:"date"`
		Earlier *float64     `json:"earlier_cost_percent"`
		Later   *float64     `json:"later_cost_percent"`
	} `json:"boundaries"`
	Model     map[string]any `json:"model"`
	Objective float64        `json:"objective"`
}

func TestProposalTellsEverythingAboutItself(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate category:women bodyweight:62.5 class:63 squat:120 bench:70 deadlift:145 competed:yes"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-04-24`))
	r := k.ok(k.say("ana", "/season build"))
	got := data[seasonAnswer](t, r)
	if len(got.Blocks) < 3 || got.Tolerance == nil || *got.Tolerance != 0 || got.GainPercent == nil || len(got.Boundaries) != len(got.Blocks)-1 {
		t.Fatalf("incomplete: %+v", got)
	}
	for i, b := range got.Boundaries {
		if b.Date != got.Blocks[i+1].Start {
			t.Errorf("boundary %d is on %s, the block begins on %s", i, b.Date, got.Blocks[i+1].Start)
		}
		for _, cost := range []*float64{b.Earlier, b.Later} {
			if cost != nil && *cost < 0 {
				t.Errorf("moving the boundary of %s gains %g %%", b.Date, -*cost)
			}
		}
	}
	for _, key := range []string{"level", "rm", "rc", "tauOn", "tauAcc", "tauG", "tauH", "tauP", "dm", "dS", "grace", "eT", "eTau", "lambda", "kappa", "L0", "limit", "start"} {
		if _, ok := got.Model[key]; !ok {
			t.Errorf("the published model has no %s", key)
		}
	}
	start, _ := got.Model["start"].(map[string]any)
	for _, key := range []string{"m", "c", "s", "e", "block", "week"} {
		if _, ok := start[key]; !ok {
			t.Errorf("the published start has no %s", key)
		}
	}
	if len(r.Message.Buttons) != 2 || r.Message.Buttons[0].Label != "Accept plan" {
		t.Errorf("buttons %+v", r.Message.Buttons)
	}
}

func TestWhatIfKeepsNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:novice"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	r := k.ok(k.say("ana", "/season build level:advanced"))
	if len(r.Message.Buttons) != 0 {
		t.Errorf("a try has buttons: %+v", r.Message.Buttons)
	}
	if got := data[seasonAnswer](t, r); got.Model["level"] != "advanced" {
		t.Errorf("tried with %v", got.Model["level"])
	}
	k.refused(k.say("ana", "/season"), "no plan yet")
	k.refused(k.say("ana", "/season accept"), "no proposed plan")
	if got := data[struct{ Profile struct{ Level string } }](t, k.ok(k.say("ana", "/me"))); got.Profile.Level != "novice" {
		t.Errorf("the profile became %s", got.Profile.Level)
	}
}

func TestProposalFollowsTheCalendar(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12`))
	old := k.ok(k.say("ana", "/season build")).Message.Buttons[0].Token
	r := k.say("ana", `/meet add name:"Spring Cup" date:2027-03-27`)
	k.says(r, "On the calendar: Spring Cup", "Spring Cup, main meet: Sat 27 March")
	if labels(r) != "Accept plan, Not now" {
		t.Errorf("buttons %s", labels(r))
	}
	k.says(k.pressToken("ana", old), "Something changed since", "here is the new one", "Spring Cup")
	k.says(k.press("ana", "Accept plan"), "Plan agreed")
	if got := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))); len(got.Meets) != 2 {
		t.Errorf("meets %+v", got.Meets)
	}
}

func TestBuildingTheSamePlanAgainProposesNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.clock("2027-01-20T09:00:00Z")
	r := k.ok(k.say("ana", "/season build"))
	if !strings.Contains(r.Message.Title, "stays") || len(r.Message.Buttons) != 0 {
		t.Errorf("%s, buttons %+v", r.Message.Title, r.Message.Buttons)
	}
}

// A plan made in the middle of a season keeps what is over and goes on from the
// block that runs.
func TestNewPlanStandsBehindWhatIsDone(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	second := before.Blocks[1]
	k.now = second.Start.AddDays(10).At(time.UTC, 9, 0)
	r := k.ok(k.say("ana", `/meet move name:"River Open" date:2027-07-10`))
	k.ok(k.press("ana", "Accept plan"))
	after := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	if after.Blocks[0] != before.Blocks[0] {
		t.Errorf("the finished block changed: %+v", after.Blocks[0])
	}
	if after.Blocks[1].Kind != second.Kind || after.Blocks[1].Start != second.Start {
		t.Errorf("the running block became %+v", after.Blocks[1])
	}
	for i := 1; i < len(after.Blocks); i++ {
		if after.Blocks[i].Start != after.Blocks[i-1].End.AddDays(1) {
			t.Errorf("a hole before %s", after.Blocks[i].Start)
		}
	}
	if last := after.Blocks[len(after.Blocks)-1]; last.End != planner.NewDate(2027, 7, 9) {
		t.Errorf("the last block ends on %s", last.End)
	}
	if !strings.Contains(r.Message.Text, "agreed so far") || !strings.Contains(r.Message.Text, "new: ") {
		t.Errorf("old and new are not shown side by side: %s", r.Message.Text)
	}
}

// A block that a new plan ends at once stays in the season as far as it got, in
// the middle of a week too.
func TestBlockEndedAtOnceLeavesNoHole(t *testing.T) {
	for _, today := range []string{"2027-04-26T08:00:00Z", "2027-04-28T08:00:00Z", "2027-04-30T08:00:00Z"} {
		k := newTalk(t, "2027-01-04T08:00:00Z")
		k.ok(k.say("ana", "/me set category:men level:advanced competed:yes"))
		k.ok(k.say("ana", "/meet add name:A date:2027-05-13"))
		k.ok(k.say("ana", "/season build"))
		k.ok(k.press("ana", "Accept plan"))
		k.clock(today)
		k.ok(k.say("ana", "/meet move name:A date:2027-07-09"))
		k.ok(k.press("ana", "Accept plan"))
		got := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
		for i := 1; i < len(got); i++ {
			if got[i].Start != got[i-1].End.AddDays(1) {
				t.Errorf("on %s: a hole between %s and %s", today, got[i-1].End, got[i].Start)
			}
		}
		if got[2].Kind != planner.Peaking || got[2].Start != planner.NewDate(2027, 4, 12) {
			t.Errorf("on %s: the peaking that was done became %+v", today, got[2])
		}
	}
}

func TestPastMeetIsOfferedAsAResult(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.refused(k.say("ana", `/meet add name:"Autumn Cup" date:2026-10-10`), "is past", "result")
	k.ok(k.press("ana", "Keep it as a result"))
	k.ok(k.say("ana", `/meet result name:"autumn cup" total:332,5`))
	got := data[struct {
		Meets []struct {
			Name   string   `json:"name"`
			Result *float64 `json:"result_kg"`
		}
	}](t, k.ok(k.say("ana", "/meet")))
	if len(got.Meets) != 1 || got.Meets[0].Result == nil || math.Abs(*got.Meets[0].Result-332.5) > 1e-9 {
		t.Errorf("%+v", got.Meets)
	}
}

func TestImpossibleDatesAndMeetsLoseNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.refused(k.say("ana", `/meet move name:"River Open" date:2027-02-30`), "30 February 2027")
	k.refused(k.say("ana", `/meet move name:"River Open" date:2026-12-01`), "past")
	k.refused(k.say("ana", `/meet move name:"Rivr Open" date:2027-07-01`), "Did you mean River Open")
	k.refused(k.say("ana", `/meet add name:"River Open" date:2027-06-12`), "already")
	k.refused(k.say("ana", `/meet add name:"Far" date:2099-06-12`), "ten years")
	k.refused(k.say("ana", "/me set bodyweight:-5"), "bodyweight", "-5")
	k.refused(k.say("ana", "/me set squat:5000"), "squat", "5000")
	k.refused(k.say("ana", "/me set level:novice born:2020-01-01"), "born")
	if got := data[struct{ Profile struct{ Level string } }](t, k.ok(k.say("ana", "/me"))); got.Profile.Level != "intermediate" {
		t.Error("half of a refused /me set was kept")
	}
	if got := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))); len(got.Blocks) == 0 {
		t.Error("the plan is gone")
	}
}

func TestOneMoreWeekLaysOutTheRestAnew(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	k.now = before.Blocks[0].End.AddDays(-3).At(time.UTC, 9, 0)
	token := k.nudgeButton("ana", "block.extend", 0)
	r := k.ok(k.pressToken("ana", token))
	after := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	if got, want := after.Blocks[0].End, before.Blocks[0].End.AddDays(7); got != want || after.Blocks[0].Weeks != before.Blocks[0].Weeks+1 {
		t.Errorf("the block ends on %s, want %s (%s)", got, want, r.Message.Text)
	}
	if last := after.Blocks[len(after.Blocks)-1]; last.End != before.Blocks[len(before.Blocks)-1].End {
		t.Errorf("the plan now ends on %s", last.End)
	}
	k.refused(k.pressToken("ana", k.nudgeButtonOf("ana", "block.extend", 0, 1)), "changed")
}

func TestClubThatAsksWaitsForAYes(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club settings advance:ask"))
	k.planned("ana", "2027-06-12")
	season := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	k.now = season.Blocks[1].Start.AddDays(2).At(time.UTC, 9, 0)
	r := k.ok(k.say("ana", "/block"))
	if got := data[blockAnswer](t, r); got.Block == nil || got.Block.Kind != season.Blocks[0].Kind || got.Block.Overdue != 3 {
		t.Fatalf("waiting: %+v", got.Block)
	}
	if !strings.Contains(r.Message.Text, "by plan this is") {
		t.Errorf("it does not say what the plan says: %s", r.Message.Text)
	}
	board := k.ok(k.say("cap", "/club board"))
	if !slices.ContainsFunc(board.Message.Fields, func(f chat.Field) bool { return f.Name == "ana" && strings.Contains(f.Value, "over for 3 days") }) {
		t.Errorf("the board says %+v", board.Message.Fields)
	}
	if len(r.Message.Buttons) != 2 || r.Message.Buttons[0].Label != "Begin it" {
		t.Errorf("buttons %+v", r.Message.Buttons)
	}
	k.ok(k.press("cap", "Begin all that wait"))
	if got := data[blockAnswer](t, k.ok(k.say("ana", "/block"))); got.Block == nil || got.Block.Kind != season.Blocks[1].Kind {
		t.Errorf("begun: %+v", got.Block)
	}
}

// nudgeButton makes a button as it stands under a nudge about the agreed plan.
func (k *talk) nudgeButton(who, action string, index int) string {
	k.t.Helper()
	var id int64
	k.read(func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(who)
		if err != nil {
			return err
		}
		p, _, err := tx.AgreedPlan(l.ID)
		id = int64(p.ID)
		return err
	})
	return k.nudgeButtonOf(who, action, index, id)
}

func (k *talk) nudgeButtonOf(who, action string, index int, plan int64) string {
	k.t.Helper()
	var b chat.Button
	err := k.store.Update(k.t.Context(), func(tx *store.Tx) error {
		t, err := k.bot.newTurn(tx, k.event(who))
		if err != nil {
			return err
		}
		b, err = t.button("press", action, map[string]any{"plan": plan, "index": index}, t.speaker)
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return b.Token
}

func (k *talk) read(f func(*store.Tx) error) {
	k.t.Helper()
	if err := k.store.View(k.t.Context(), f); err != nil {
		k.t.Fatal(err)
	}
}
