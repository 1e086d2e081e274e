package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// logOf is a lifter's log, one line a set.
func (k *talk) logOf(handle string) string {
	k.t.Helper()
	out := ""
	err := k.store.View(k.t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(handle)
		if err != nil {
			return err
		}
		sets, err := tx.Sets(l.ID, 1, planner.NewDate(2030, 1, 1))
		out = setLines(sets, planner.KG)
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return out
}

// A lift carries over to a lifter whose own comes later, and a question says whose sets
// it is about, and which.
func TestTeamQuestionsNameTheirSets(t *testing.T) {
	for _, c := range []struct{ text, ben, says string }{
		{"@ana squat 100x5, @ben 160x5, bench 100x3", "squat 160 kg x 5, bench 100 kg x 3", ""},
		{"@ben 160x5, bench 100x3", "bench 100 kg x 3", "For ben: Which lift was that: 5 repetitions at 160 kg?"},
		{"@ben bench 100x3, squat 20x8", "bench 100 kg x 3, squat 20 kg x 8", "For ben: 20 kg is far below your best squat"},
		{"~~@ana squat 100x5~~, @ben squat 110x5", "squat 110 kg x 5", ""},
	} {
		k := team(t)
		r := k.ok(k.say("cap", c.text))
		if got := k.logOf("ben"); !strings.Contains(got, c.ben) || !strings.Contains(r.Message.Text, c.says) {
			t.Errorf("%q: ben has %q, it says %q", c.text, got, r.Message.Text)
		}
	}
}

func team(t *testing.T) *talk {
	k := newTalk(t, "2027-01-04T18:00:00Z")
	for _, who := range []string{"cap", "ana", "ben", "223456789012345678"} {
		k.ok(k.say(who, "/me set squat:200 bench:120 deadlift:220"))
	}
	k.ok(k.say("223456789012345678", "/me set name:Cleo"))
	return k
}

func TestCoachLogsForSeveral(t *testing.T) {
	k := team(t)
	r := k.ok(k.say("cap", "@ana squat 140x5, @ben 160x5\n<@223456789012345678> bench 3x5 80"))
	if r.Message.Private || r.Kind != chat.Answer {
		t.Errorf("answered %+v", r)
	}
	if lines := strings.Split(r.Message.Text, "\n"); len(lines) != 1 || !strings.Contains(lines[0], "ana: ") || !strings.Contains(lines[0], "ben: ") || !strings.Contains(lines[0], "Cleo: ") {
		t.Errorf("it says %q", r.Message.Text)
	}
	for who, want := range map[string]string{"ana": "squat 140", "ben": "squat 160", "223456789012345678": "bench", "cap": ""} {
		if got := k.logOf(who); !strings.Contains(got, want) || want == "" && got != "" {
			t.Errorf("%s has %q, want %q", who, got, want)
		}
	}
	if n := k.notesTo("ana"); len(n) != 1 || !strings.Contains(n[0].What, "140") || n[0].Undo != "log.drop" {
		t.Errorf("ana is told %+v", n)
	}
	trail := k.ok(k.say("cap", "/club history about:ana")).Message
	if !strings.Contains(trail.Text+strings.Join(fieldTexts(trail), " "), "logged sets") {
		t.Errorf("the trail says %+v", trail)
	}
}

// A coach's message never ends up in the coach's own log, however the names stand in it.
func TestHowCoachesNamePeople(t *testing.T) {
	for _, c := range []struct{ text, ana, ben string }{
		{"squat: @ana 140x5 @8, @ben 160x2 @9", "squat 140 kg x 5, 2 left", "squat 160 kg x 2, 1 left"},
		{"squats today: @ana 140x5 @ben 160x2", "squat 140 kg x 5", "squat 160 kg x 2"},
		{"Bench\n@ana 80x5\n@ben 90x2", "bench 80 kg x 5", "bench 90 kg x 2"},
		{"@ana and @ben: squat 140x5", "squat 140 kg x 5", "squat 140 kg x 5"},
		{"@ana squat 140x5 and @ben 160x5", "squat 140 kg x 5", "squat 160 kg x 5"},
		{"what a day, squats: @ana 140x5 @ben 160x2", "", ""}, // asked about
	} {
		k := team(t)
		r := k.ok(k.say("cap", c.text))
		if ana, ben, own := k.logOf("ana"), k.logOf("ben"), k.logOf("cap"); ana != c.ana || ben != c.ben || own != "" {
			t.Errorf("%q: ana has %q, ben %q, the captain %q: %s", c.text, ana, ben, own, r.Message.Text)
		}
	}
}

func fieldTexts(m chat.Message) (all []string) {
	for _, f := range m.Fields {
		all = append(all, f.Name, f.Value)
	}
	return all
}

// notesTo lists what was done for a lifter.
func (k *talk) notesTo(handle string) (all []store.Note) {
	k.t.Helper()
	err := k.store.View(k.t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(handle)
		if err != nil {
			return err
		}
		all, err = tx.NotesSince(l.ID, k.at("2027-01-01T00:00:00Z"))
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return all
}

// undoNote takes the newest thing back that was done for a lifter.
func (k *talk) undoNote(who string) chat.Reply {
	k.t.Helper()
	all := k.notesTo(who)
	token := ""
	err := k.store.Update(k.t.Context(), func(tx *store.Tx) error {
		tn, err := k.bot.newTurn(tx, k.event(who))
		if err != nil {
			return err
		}
		b, err := tn.button("Take back", "note.undo", noteArgs{all[len(all)-1].ID}, tn.speaker)
		token = b.Token
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return k.pressToken(who, token)
}

func TestLifterTakesBackWhatWasLogged(t *testing.T) {
	k := team(t)
	k.ok(k.say("cap", "@ana squat 140x5, @ben 160x5"))
	k.ok(k.undoNote("ana"))
	if got := k.logOf("ana"); got != "" {
		t.Errorf("still there: %q", got)
	}
	if got := k.logOf("ben"); got == "" {
		t.Error("the other's sets went too")
	}
}

func TestMembersDoNotLogForOthers(t *testing.T) {
	k := team(t)
	k.refused(k.say("ana", "@ben squat 160x5"), "captain")
	k.refused(k.say("ana", "@ana squat 100x5, @ben 160x5"), "captain")
	k.refused(k.say("ana", "@nobody squat 100x5, @ben 160x5"), "captain")
	for _, who := range []string{"ana", "ben"} {
		if got := k.logOf(who); got != "" {
			t.Errorf("%s has %q", who, got)
		}
	}
	if r := k.say("ana", "@ben well done yesterday!"); r.Kind != chat.Silent {
		t.Errorf("talk was answered: %+v", r)
	}
	k.ok(k.say("cap", "/club assign lifter:ben coach:ana"))
	k.ok(k.say("ana", "@ben squat 160x5"))
	if got := k.logOf("ben"); !strings.Contains(got, "160") {
		t.Errorf("ben has %q", got)
	}
}

func TestUnknownNameIsAskedAbout(t *testing.T) {
	k := team(t)
	r := k.ok(k.say("cap", "@anna squat 140x5, @ben 160x5"))
	if k.logOf("ana") != "" || !strings.Contains(k.logOf("ben"), "160") || !strings.Contains(r.Message.Text, `Who is "anna"`) {
		t.Errorf("it says %q", r.Message.Text)
	}
	k.ok(k.press("cap", "ana"))
	if got := k.logOf("ana"); !strings.Contains(got, "140") {
		t.Errorf("ana has %q", got)
	}
	r = k.ok(k.say("cap", "@zzzz squat 140x5, @ben bench 100x5"))
	if !strings.Contains(r.Message.Text, `"zzzz"`) || len(r.Message.Buttons) != 0 {
		t.Errorf("it says %q", r.Message.Text)
	}
}

func TestShortNameOfSeveralIsAskedAbout(t *testing.T) {
	k := team(t)
	k.ok(k.say("u7", "/me set name:Bente"))
	k.ok(k.say("u8", "/me set name:Bernd"))
	r := k.ok(k.say("cap", "@Bernd squat 100x5, @Be 100x5"))
	if !strings.Contains(r.Message.Text, `Who is "Be"`) || len(r.Message.Buttons) != 3 {
		t.Errorf("it says %q with %d buttons", r.Message.Text, len(r.Message.Buttons))
	}
	k.ok(k.press("cap", "Bente"))
	if got := k.logOf("u7"); !strings.Contains(got, "squat 100") {
		t.Errorf("Bente has %q", got)
	}
	if r := k.press("cap", "Bernd"); r.Kind != chat.Failure {
		t.Errorf("a second answer counts: %+v", r.Message)
	}
}

func TestEditedTeamLogReplacesEverybodysSets(t *testing.T) {
	k := team(t)
	e := k.event("cap")
	e.Text = "@ana squat 140x5, @ben 160x5"
	k.ok(k.handle(e))
	e2 := k.event("cap")
	e2.Kind, e2.Message, e2.Text = chat.Edited, e.Message, "@ana squat 145x5"
	k.ok(k.handle(e2))
	if a, b := k.logOf("ana"), k.logOf("ben"); !strings.Contains(a, "145") || strings.Contains(a, "140") || b != "" {
		t.Errorf("ana %q, ben %q", a, b)
	}
	e3 := k.event("cap")
	e3.Kind, e3.Message = chat.Deleted, e.Message
	k.handle(e3)
	if a := k.logOf("ana"); a != "" {
		t.Errorf("ana still has %q", a)
	}
}

// A member whom nobody may be told of is not named aloud.
func TestTeamLogOfAPrivateLifterIsPrivate(t *testing.T) {
	k := team(t)
	k.ok(k.say("ana", "/me set public:no"))
	if r := k.ok(k.say("cap", "@ana squat 140x5, @ben 160x5")); !r.Message.Private {
		t.Error("said aloud")
	}
}
