package bot

import (
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/store"
)

// runs tells the kind of block that somebody is in.
func (k *talk) runs(who string) string {
	k.t.Helper()
	return data[struct {
		Block struct {
			Kind string `json:"kind"`
		} `json:"block"`
	}](k.t, k.ok(k.say(who, "/block"))).Block.Kind
}

func TestCaptainMovesWhereTheCoachDecides(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("cap", "/club decide who:coach"))
	k.clock("2027-02-01T09:00:00Z")
	if got := k.runs("ana"); got != "hypertrophy" {
		t.Fatalf("ana is in %s", got)
	}
	k.refused(k.say("ana", "/club move lifter:ana block:strength"), "captain")
	k.refused(k.say("cap", "/club move block:strength"), "lifter:")
	k.refused(k.say("cap", "/club move lifter:ana block:hypertrophy"), "already")
	k.refused(k.say("cap", `/club move lifter:ana block:strength reason:"her knee hurts, my knee hurts"`), "health")
	k.ok(k.say("cap", `/club move lifter:ana block:strength reason:"less time than it looks"`))
	if got := k.runs("ana"); got != "hypertrophy" {
		t.Errorf("moved before anybody agreed: %s", got)
	}
	if pins, notes := k.pins("ana"), k.notesTo("ana"); len(pins) != 0 || len(notes) != 0 {
		t.Errorf("before anybody agreed: fixed %+v, told %+v", pins, notes)
	}
	k.ok(k.press("cap", "Accept plan"))
	if got := k.runs("ana"); got != "strength" {
		t.Errorf("ana is in %s after the move", got)
	}
	if pins := k.pins("ana"); len(pins) != 1 || pins[0].Kind != planner.Strength {
		t.Errorf("fixed after the move: %+v", pins)
	}
	all := k.notesTo("ana")
	words := ""
	for _, n := range all {
		words += n.What + "\n"
	}
	if !strings.Contains(words, "less time than it looks") {
		t.Errorf("ana is told %q", words)
	}
	k.ok(k.undoNote("ana"))
	if got := k.runs("ana"); got != "hypertrophy" {
		t.Errorf("ana is in %s after taking it back", got)
	}
	if pins := k.pins("ana"); len(pins) != 0 {
		t.Errorf("still fixed after taking it back: %+v", pins)
	}
	if trail := strings.Join(fieldTexts(k.ok(k.say("cap", "/club history about:ana")).Message), " ") + k.ok(k.say("cap", "/club history about:ana")).Message.Text; !strings.Contains(trail, "moved to a strength block") || strings.Contains(trail, "less time") {
		t.Errorf("the trail says %q", trail)
	}
}

func TestMoveIsAProposalWhereTheLifterDecides(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.clock("2027-02-01T09:00:00Z")
	r := k.ok(k.say("cap", "/club move lifter:ana block:strength"))
	if len(r.Message.Buttons) != 0 || !strings.Contains(r.Message.Text, "decides") {
		t.Errorf("the captain is shown %+v", r.Message)
	}
	if got := k.runs("ana"); got != "hypertrophy" {
		t.Errorf("ana is in %s", got)
	}
	k.ok(k.say("ana", "/season accept"))
	if got := k.runs("ana"); got != "strength" {
		t.Errorf("ana is in %s after her yes", got)
	}
}

// A move that leaves no plan changes nothing.
func TestImpossibleMoveIsRefused(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.clock("2027-02-01T09:00:00Z")
	k.refused(k.say("cap", "/club move lifter:ana block:peaking"), "Peaking")
	if pins := k.pins("ana"); len(pins) != 0 {
		t.Errorf("left fixed: %+v", pins)
	}
}

// pins lists what is fixed in somebody's plan.
func (k *talk) pins(who string) (all []store.Pin) {
	k.t.Helper()
	err := k.store.View(k.t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(who)
		if err != nil {
			return err
		}
		all, err = tx.Pins(l.ID, planner.DateOf(k.now))
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return all
}

// A move that the captain drops leaves nothing fixed and tells nobody; a plan that is
// built meanwhile knows nothing of it.
func TestMoveThatIsDroppedLeavesNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("cap", "/club decide who:coach"))
	k.clock("2027-02-01T09:00:00Z")
	k.ok(k.say("cap", "/club move lifter:ana block:strength"))
	k.ok(k.press("cap", "Keep my plan"))
	if pins, notes := k.pins("ana"), k.notesTo("ana"); len(pins) != 0 || len(notes) != 0 {
		t.Errorf("fixed %+v, told %+v", pins, notes)
	}
	if text := k.ok(k.say("ana", "/season build")).Message.Title; !strings.Contains(text, "stays") {
		t.Errorf("her plan no longer stays: %q", text)
	}
}

// Where the lifter decides, the move can be taken back before the yes and after it.
// What had to give way to it is fixed again.
func TestLifterTakesAMoveBack(t *testing.T) {
	for _, yes := range []bool{false, true} {
		k := newTalk(t, "2027-01-04T09:00:00Z")
		k.planned("ana", "2027-06-12")
		k.clock("2027-02-01T09:00:00Z")
		k.ok(k.say("ana", "/season pin kind:strength start:2027-03-15"))
		k.ok(k.say("ana", "/season accept"))
		before := k.pins("ana")
		k.ok(k.say("cap", "/club move lifter:ana block:strength"))
		if yes {
			shown := k.ok(k.say("ana", "/season"))
			if shown = k.ok(k.press("ana", "Show the new plan")); !strings.Contains(shown.Message.Text, "Another block is proposed. From Mon 1 February: strength block.") {
				t.Errorf("she is shown %q", shown.Message.Text)
			}
			k.ok(k.press("ana", "Accept plan"))
			if got := k.runs("ana"); got != "strength" {
				t.Errorf("ana is in %s after her yes", got)
			}
		}
		if r := k.ok(k.undoNote("ana")); !strings.Contains(r.Message.Text, "Taken back") {
			t.Errorf("it says %q", r.Message.Text)
		}
		if got := k.runs("ana"); got != "hypertrophy" {
			t.Errorf("ana is in %s after taking it back", got)
		}
		after := k.pins("ana")
		if len(before) != 1 || len(after) != 1 || after[0].Start != before[0].Start {
			t.Errorf("yes %v: fixed before %+v, after %+v", yes, before, after)
		}
		k.refused(k.say("ana", "/season accept"), "no proposed plan")
		if text := k.ok(k.undoNote("ana")).Message.Text; !strings.Contains(text, "Already") {
			t.Errorf("taken back twice: %q", text)
		}
	}
}

// Who proposed the move may be erased before the lifter answers.
func TestMoveOutlivesItsCaptain(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("bea", "/me"))
	k.ok(k.say("cap", "/club captain member:bea appoint:yes"))
	k.clock("2027-02-01T09:00:00Z")
	k.ok(k.say("bea", "/club move lifter:ana block:strength"))
	k.ok(k.say("bea", "/mydata erase"))
	k.ok(k.press("bea", "Erase everything"))
	k.ok(k.say("ana", "/season accept"))
	if got := k.runs("ana"); got != "strength" {
		t.Errorf("ana is in %s after her yes", got)
	}
}

// In the middle of a week the other block begins with the next training week, and the
// words, what is fixed and the plan agree on that day. A block that began only today
// can be swapped for another at once; peaking is never longer than anybody knows.
func TestMoveSaysTheDayOnWhichItBegins(t *testing.T) {
	for at, begins := range map[string]string{
		"2027-01-04": "2027-01-04", "2027-01-05": "2027-01-11", "2027-01-08": "2027-01-11", "2027-01-12": "2027-01-18", "2027-02-01": "2027-02-01",
	} {
		k := newTalk(t, "2027-01-04T09:00:00Z")
		k.planned("ana", "2027-06-12")
		k.clock(at + "T10:00:00Z")
		k.refused(k.say("cap", "/club move lifter:ana block:peaking"), "Peaking cannot begin now: it leaves no legal plan")
		k.refused(k.say("cap", "/club move lifter:ana block:recovery"), "Recovery cannot begin now: it leaves no legal plan", "after a main meet")
		was := k.runs("ana")
		to := "strength"
		if was == "strength" {
			to = "hypertrophy"
		}
		k.ok(k.say("cap", "/club move lifter:ana block:"+to))
		day := k.at(begins + "T10:00:00Z")
		if words := k.notesTo("ana")[0].What; !strings.Contains(words, "From "+planner.DateOf(day).Short()) {
			t.Errorf("moved on %s she is told %q", at, words)
		}
		k.ok(k.say("ana", "/season accept"))
		if pins := k.pins("ana"); len(pins) != 1 || pins[0].Start != planner.DateOf(day) {
			t.Errorf("moved on %s it fixes %+v", at, pins)
		}
		if begins > at {
			if got := k.runs("ana"); got != was {
				t.Errorf("moved on %s she is in %s at once", at, got)
			}
		}
		k.now = day
		if got := k.runs("ana"); got != to {
			t.Errorf("moved on %s she is in %s on %s", at, got, begins)
		}
		if title := k.ok(k.say("ana", "/season build")).Message.Title; !strings.Contains(title, "stays") {
			t.Errorf("moved on %s the plan does not stay: %q", at, title)
		}
	}
}
