package bot

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// moveButtons are the buttons of /season why that move a boundary.
func moveButtons(r chat.Reply) (out []chat.Button) {
	for _, b := range r.Message.Buttons {
		if strings.HasPrefix(b.Label, "One week") {
			out = append(out, b)
		}
	}
	return out
}

// Each boundary can be moved by its buttons, by the lifter, the lifter's coach and a
// captain; it becomes a proposal that has the boundary where it was asked for, and the
// plan that runs goes on until somebody accepts.
func TestBoundaryIsMovedByButton(t *testing.T) {
	for _, who := range []string{"ana", "dan", "cap"} {
		k := newTalk(t, "2027-01-04T09:00:00Z")
		k.ok(k.say("cap", "/me"))
		k.ok(k.say("dan", "/me"))
		k.strong("ana", "2027-06-12")
		k.ok(k.say("cap", "/club assign lifter:ana coach:dan"))
		agreed := k.agreedBlocks("ana")
		about := " lifter:ana"
		if who == "ana" {
			about = ""
		}
		all := moveButtons(k.ok(k.say(who, "/season why"+about)))
		if len(all) < 2 {
			t.Fatalf("%s: buttons %v", who, all)
		}
		for i := range all {
			b := moveButtons(k.ok(k.say(who, "/season why"+about)))[i]
			r := k.ok(k.pressToken(who, b.Token))
			got := data[seasonAnswer](t, r)
			var from planner.Date
			for j, block := range agreed[1:] {
				if strings.HasSuffix(b.Label, " from "+block.Start.Short()) {
					from = agreed[j+1].Start
				}
			}
			want := from.AddDays(7)
			if strings.HasPrefix(b.Label, "One week earlier") {
				want = from.AddDays(-7)
			}
			if j := planner.At(got.Blocks, want); from.IsZero() || j < 0 || got.Blocks[j].Start != want {
				t.Errorf("%s pressed %q: %v", who, b.Label, got.Blocks)
			}
			if !sameBlocks(k.agreedBlocks("ana"), agreed) {
				t.Fatalf("%s pressed %q: the agreed plan changed before a yes", who, b.Label)
			}
			// Let go of it: the next button finds the plan as it was.
			k.ok(k.say(who, "/season unpin all"+about))
		}
		b := moveButtons(k.ok(k.say(who, "/season why"+about)))[0]
		k.ok(k.pressToken(who, b.Token))
		k.ok(k.press(who, "Accept plan"))
		if sameBlocks(k.agreedBlocks("ana"), agreed) {
			t.Errorf("%s: accepted, and nothing moved", who)
		}
		if who == "ana" {
			continue
		}
		// Somebody else did it: the lifter is told and takes it back.
		if got := toldTo(k.sleep(1), "ana"); !strings.Contains(got, "A plan was agreed for you") {
			t.Errorf("%s: ana was told %q", who, got)
		}
		r := k.ok(k.press("ana", "Look"))
		for i, f := range r.Message.Fields {
			if strings.Contains(f.Value, "A plan was agreed for you") {
				k.says(k.press("ana", fmt.Sprintf("Take back %d", i+1)), "Your plan from before runs again")
			}
		}
		if !sameBlocks(k.agreedBlocks("ana"), agreed) {
			t.Errorf("%s: taken back, and the plan is %v", who, k.agreedBlocks("ana"))
		}
	}
}

// Strangers neither see the buttons nor may press those of others; who no longer speaks
// for a lifter can press theirs no more.
func TestBoundariesAreNotForStrangers(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.ok(k.say("dan", "/me"))
	k.ok(k.say("eve", "/me"))
	k.strong("ana", "2027-06-12")
	k.ok(k.say("cap", "/club assign lifter:ana coach:dan"))
	k.refused(k.say("eve", "/season why lifter:ana"))
	own := moveButtons(k.ok(k.say("ana", "/season why")))
	coach := moveButtons(k.ok(k.say("dan", "/season why lifter:ana")))
	k.refused(k.pressToken("eve", own[0].Token), "somebody else")
	k.refused(k.pressToken("cap", coach[0].Token), "somebody else")
	k.ok(k.say("cap", "/club assign lifter:ana coach:cap"))
	k.refused(k.pressToken("dan", coach[0].Token), "no longer speak")
	if n := k.versions("ana"); n != 1 {
		t.Errorf("%d versions after presses that were refused", n)
	}
	k.refused(k.say("ana", "/season unpin all"), "Nothing is fixed")
}

// Approval by the lifter's own coach, by a captain, and by nobody else.
func TestApprovalIsForThoseWhoDecide(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"cap", "dan", "eve"} {
		k.ok(k.say(who, "/me set nudges:direct"))
	}
	for _, who := range []string{"ana", "ben", "cleo"} {
		k.novice(who)
	}
	for _, who := range []string{"ana", "ben"} {
		k.ok(k.say("cap", "/club assign lifter:"+who+" coach:dan"))
	}
	for _, who := range []string{"ana", "ben", "cleo"} {
		k.says(k.press(who, "Accept plan"), "Waits for your coach")
	}
	k.refused(k.say("eve", "/club approve"), "for the captain and for coaches")
	r := k.ok(k.say("dan", "/club approve"))
	if got := labels(r); strings.Contains(got, "cleo") || !strings.Contains(got, "Approve ana") || !strings.Contains(got, "Approve ben") {
		t.Errorf("dan sees %s", got)
	}
	k.refused(k.pressToken("eve", r.Message.Buttons[0].Token), "somebody else")
	k.refused(k.pressToken("ana", r.Message.Buttons[0].Token), "somebody else")
	k.says(k.press("dan", "Approve ana"), "Agreed for ana")
	k.says(k.press("dan", "Decline ben"), "What shall I say?")
	k.says(k.press("dan", "Too much too soon"), "Declined for ben")
	k.ok(k.say("cap", "/club approve"))
	k.says(k.press("cap", "Approve cleo"), "Agreed for cleo")
	for who, want := range map[string]bool{"ana": true, "ben": false, "cleo": true} {
		if got := k.agreedBlocks(who) != nil; got != want {
			t.Errorf("%s: agreed %v, want %v", who, got, want)
		}
	}
	posts := k.sleep(1)
	for who, word := range map[string]string{"ana": "Your coach says yes to your plan", "ben": "Too much too soon", "cleo": "Your coach says yes to your plan"} {
		if got := toldTo(posts, who); !strings.Contains(got, word) {
			t.Errorf("%s was told %q", who, got)
		}
	}
	// A declined plan does not come back by its old button.
	k.refused(k.say("ben", "/season accept"), "no proposed plan")
	// A coach who was replaced approves no more.
	k.ok(k.say("ben", "/season build"))
	k.ok(k.press("ben", "Accept plan"))
	k.ok(k.say("dan", "/club approve"))
	k.ok(k.say("cap", "/club assign lifter:ben coach:cap"))
	k.says(k.press("dan", "Approve ben"), "Not for ben")
	if k.agreedBlocks("ben") != nil {
		t.Error("a plan was approved by somebody who no longer coaches")
	}
}

// A team of twelve waits: unchanged plans are all agreed with one tap or more, those that
// changed are not.
func TestTwelvePlansUnchanged(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	var team []string
	for i := range 12 {
		who := fmt.Sprintf("l%02d", i)
		team = append(team, who)
		k.novice(who)
		k.ok(k.press(who, "Accept plan"))
	}
	r := k.ok(k.say("cap", "/club approve"))
	all := ""
	for _, b := range r.Message.Buttons {
		if strings.HasPrefix(b.Label, "Approve all ") {
			all = b.Label
		}
	}
	k.ok(k.say("l03", "/season away from:2027-02-01 to:2027-02-28"))
	k.says(k.press("cap", all), "Agreed for l00", "Not for l03")
	for n := 0; n < 3; n++ { // what did not fit into the first answer
		r := k.ok(k.say("cap", "/club approve"))
		for _, b := range r.Message.Buttons {
			if strings.HasPrefix(b.Label, "Approve") {
				k.ok(k.pressToken("cap", b.Token))
				break
			}
		}
	}
	for _, who := range team {
		if got := k.agreedBlocks(who) != nil; got != (who != "l03") {
			t.Errorf("%s: agreed %v", who, got)
		}
	}
	k.says(k.say("l03", "/season"), "Proposed plan, not agreed yet")
}
