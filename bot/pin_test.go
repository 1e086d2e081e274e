package bot

import (
	"strings"
	"testing"

	"blockbell/planner"
)

func kindsOf(bs []planner.Block) string {
	var out []string
	for _, b := range bs {
		out = append(out, string(b.Kind[:1]))
	}
	return strings.Join(out, "")
}

func TestPinnedLengthIsProposedAndKept(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	r := k.say("ana", "/season pin kind:peaking weeks:5")
	k.says(r, "Fixed: peaking of 5 weeks.", "until you accept this one", "what is fixed by hand")
	k.ok(k.press("ana", "Accept plan"))
	got := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	if last := got[len(got)-1]; last.Kind != planner.Peaking || last.Weeks != 5 {
		t.Fatalf("last block %+v", last)
	}
	k.sleep(30)
	k.says(k.say("ana", "/season build"), "stays as it is")
	k.says(k.say("ana", "/season pin"), "1: peaking of 5 weeks")
	k.says(k.say("ana", "/season unpin 1"), "No longer fixed: peaking of 5 weeks.")
	k.says(k.say("ana", "/season pin"), "Nothing is fixed")
	k.refused(k.say("ana", "/season unpin 1"), "Nothing is fixed")
}

// A pin that leaves no plan is refused with what it quarrels with, and not kept.
func TestImpossiblePinIsNotKept(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	k.ok(k.say("ana", "/season pin kind:hypertrophy weeks:8"))
	n := k.versions("ana")
	k.refused(k.say("ana", "/season pin kind:strength weeks:12"), "hypertrophy 8 weeks", "strength 12 weeks")
	k.refused(k.say("ana", "/season cap kind:hypertrophy weeks:4"), "at most 4 weeks")
	k.says(k.say("ana", "/season pin"), "1: muscle block of 8 weeks")
	if r := k.say("ana", "/season pin"); strings.Contains(r.Message.Text, "2:") || strings.Contains(r.Message.Text, "at most") {
		t.Errorf("kept: %s", r.Message.Text)
	}
	if k.versions("ana") != n {
		t.Errorf("%d proposals became %d", n, k.versions("ana"))
	}
	for text, want := range map[string]string{
		"/season pin block:0 weeks:4":              "block: ",
		"/season pin kind:taper weeks:4":           "cannot be",
		"/season pin kind:peaking":                 "from when (start:) or how long (weeks:)",
		"/season pin kind:peaking weeks:40":        "weeks: ",
		"/season pin kind:strength start:2026-1-1": "past",
		"/season cap kind:peaking weeks:2":         "no peaking is shorter than 3 weeks",
		"/season cap kind:peaking weeks:any":       "no bound on peaking",
	} {
		k.refused(k.say("ana", text), want)
	}
}

func TestLaterPinOfTheSameBlockReplaces(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	k.ok(k.say("ana", "/season pin block:1 weeks:6"))
	k.ok(k.say("ana", "/season pin block:1 weeks:7"))
	r := k.say("ana", "/season pin")
	k.says(r, "1: block 1 of 7 weeks")
	if strings.Contains(r.Message.Text, "6 weeks") {
		t.Errorf("both stand: %s", r.Message.Text)
	}
	k.ok(k.press("ana", "Accept plan"))
	k.sleep(70)
	// Its block is over, so the pin binds nothing any more.
	k.says(k.say("ana", "/season build"), "stays as it is")
	k.refused(k.say("ana", "/season pin block:1 weeks:9"), "block 1 is over", "block:2")
}

func TestBoundsOfLifterAndClub(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/me"))
	k.strong("ana", "2027-05-08")
	k.says(k.say("ana", "/season cap kind:hypertrophy weeks:0"), "No muscle block.", "until you accept")
	k.ok(k.press("ana", "Accept plan"))
	if got := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; strings.Contains(kindsOf(got), "h") {
		t.Errorf("blocks %s", kindsOf(got))
	}
	k.refused(k.say("ana", "/club cap kind:strength weeks:6"), "for the captain")
	k.says(k.say("cap", "/club cap kind:strength weeks:6"), "Kept for the club. Strength block at most 6 weeks. Agreed plans stay as they are")
	k.says(k.say("cap", "/club cap"), "Strength block at most 6 weeks.")
	k.says(k.say("ana", "/season cap"), "Strength block at most 6 weeks (the club).", "No muscle block (this lifter).")
	k.refused(k.say("cap", "/club cap kind:strength"), "needs kind: and weeks:")
	k.ok(k.say("cap", "/club cap kind:strength weeks:any"))
	k.says(k.say("cap", "/club cap"), "None.")
	k.says(k.say("ana", "/season cap kind:hypertrophy weeks:any"), "No bound on muscle block any more")
	k.strong("bo", "2027-05-08")
	k.ok(k.say("cap", "/club cap kind:hypertrophy weeks:5"))
	k.ok(k.say("bo", "/season build"))
	for _, b := range data[seasonAnswer](t, k.ok(k.say("bo", "/season build"))).Blocks {
		if b.Kind == planner.Hypertrophy && b.Weeks > 5 {
			t.Errorf("against the club's rule: %+v", b)
		}
	}
}

func TestCompareShowsOwnSplitBesideTheBest(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	r := k.ok(k.say("ana", `/season compare blocks:"H6 S8 P4; S12 P6"`))
	got := data[struct {
		Blocks  []planner.Block `json:"blocks"`
		Options []struct {
			Name, Split string
			Blocks      []planner.Block `json:"blocks"`
			Gain        *float64        `json:"gain_percent"`
			Low         *float64        `json:"gain_low"`
			High        *float64        `json:"gain_high"`
			Cost        float64         `json:"cost_percent"`
			Share       float64         `json:"beats_share"`
			Risks       []string        `json:"risks"`
		} `json:"options"`
	}](t, r)
	if len(got.Options) < 4 || got.Options[0].Name != "Best" || !sameBlocks(got.Options[0].Blocks, got.Blocks) {
		t.Fatalf("%+v", got.Options)
	}
	for _, o := range got.Options {
		if o.Gain == nil || o.Low == nil || o.High == nil || *o.Low > *o.High || o.Share < 0 || o.Share > 1 || o.Risks == nil || len(o.Blocks) == 0 {
			t.Errorf("option %+v", o)
		}
		if o.Name != "Yours" && o.Cost < -1e-9 {
			t.Errorf("%s costs %g %%", o.Split, o.Cost)
		}
	}
	n := k.versions("ana")
	k.says(k.press("ana", "Propose S12 P6"), "Fixed: S12 P6.", "until you accept this one")
	if k.versions("ana") != n+1 {
		t.Errorf("%d proposals", k.versions("ana"))
	}
	k.ok(k.press("ana", "Accept plan"))
	if now := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; kindsOf(now) != "sp" || now[0].Weeks != 12 {
		t.Errorf("agreed %+v", now)
	}
	k.refused(k.say("ana", `/season compare blocks:"H6 S8"`), "4 are missing", "add up")
	k.refused(k.say("ana", `/season compare blocks:"squat"`), "is not a kind of block")
}

func TestBoundaryMovesByAWeekAndBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	r := k.ok(k.say("ana", "/season why"))
	if len(r.Message.Fields) != len(before) || !strings.Contains(labels(r), "One week earlier: strength block from Mon 1 March, One week later: strength block from Mon 1 March") {
		t.Fatalf("%+v, buttons %s", r.Message.Fields, labels(r))
	}
	for _, f := range r.Message.Fields[1:] {
		if !strings.Contains(f.Value, "would cost about") {
			t.Errorf("%s does not say what moving costs: %s", f.Name, f.Value)
		}
	}
	k.says(k.press("ana", "One week later: strength block from Mon 1 March"), "from the week of Mon 8 March", "Muscle block: Sun 28 February, new: Sun 7 March (7 days later)")
	k.ok(k.press("ana", "Accept plan"))
	if now := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; now[0].Weeks != before[0].Weeks+1 {
		t.Errorf("agreed %+v", now)
	}
	k.ok(k.say("ana", "/season why"))
	k.ok(k.press("ana", "One week earlier: strength block from Mon 8 March"))
	k.ok(k.press("ana", "Accept plan"))
	if now := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; !sameBlocks(now, before) {
		t.Errorf("agreed %+v", now)
	}
	if r := k.ok(k.say("ana", "/season pin")); strings.Contains(r.Message.Text, "2:") {
		t.Errorf("both pins stand: %s", r.Message.Text)
	}
	k.refused(k.say("ben", "/season why"), "no plan yet")
}
