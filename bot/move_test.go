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
	k.ok(k.press("cap", "Accept plan"))
	if got := k.runs("ana"); got != "strength" {
		t.Errorf("ana is in %s after the move", got)
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
	err := k.store.View(t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle("ana")
		if err != nil {
			return err
		}
		pins, err := tx.Pins(l.ID, planner.NewDate(2027, 2, 1))
		if len(pins) != 0 {
			t.Errorf("left fixed: %+v", pins)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
