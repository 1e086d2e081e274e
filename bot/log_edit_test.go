package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// What becomes of a lifter's sets when their message is changed or removed, after what
// happened to them meanwhile.
func TestEditsAndDeletionsMeetWhatHappenedMeanwhile(t *testing.T) {
	const text = "squat 140x5"
	meanwhile := map[string]func(k *talk){
		"nothing":   func(*talk) {},
		"corrected": func(k *talk) { k.ok(k.say("ana", "no 4 reps")) },
		"fixed":     func(k *talk) { k.ok(k.say("ana", "/log fix 1 weight:150")) },
		"undone":    func(k *talk) { k.ok(k.say("ana", "undo")) },
		"dropped":   func(k *talk) { k.ok(k.say("ana", "/log drop 1")) },
		"put back":  func(k *talk) { k.ok(k.say("ana", "undo")); k.ok(k.press("ana", "Put it back")) },
		"corrected and put back": func(k *talk) {
			k.ok(k.say("ana", "no 4 reps"))
			k.ok(k.press("ana", "Put it back"))
		},
	}
	stays := map[string]string{"nothing": "squat 140 kg x 5", "corrected": "squat 140 kg x 4", "fixed": "squat 150 kg x 5", "put back": "squat 140 kg x 5",
		"corrected and put back": "squat 140 kg x 5"}
	then := []struct {
		what string
		do   func(k *talk, m string)
		want func(state string) string
	}{
		{"other words", func(k *talk, m string) { k.edits("ana", m, text+", felt good") }, func(s string) string { return stays[s] }},
		{"other words twice", func(k *talk, m string) { k.edits("ana", m, text+" lol"); k.edits("ana", m, text) }, func(s string) string { return stays[s] }},
		{"another set", func(k *talk, m string) { k.edits("ana", m, "squat 145x5") }, func(string) string { return "squat 145 kg x 5" }},
		{"another set and back", func(k *talk, m string) { k.edits("ana", m, "squat 145x5"); k.edits("ana", m, text) },
			func(string) string { return "squat 140 kg x 5" }},
		{"talk", func(k *talk, m string) { k.edits("ana", m, "hello") }, func(string) string { return "" }},
		{"talk and back", func(k *talk, m string) { k.edits("ana", m, "hello"); k.edits("ana", m, text) },
			func(string) string { return "squat 140 kg x 5" }},
		{"removed", func(k *talk, m string) { k.deletes("ana", m) }, func(string) string { return "" }},
	}
	for state, happens := range meanwhile {
		for _, c := range then {
			k := newTalk(t, "2027-01-04T19:00:00Z")
			m, _ := k.writes("ana", text)
			happens(k)
			c.do(k, m)
			if got, want := k.logOf("ana"), c.want(state); got != want {
				t.Errorf("%s, then %s: %q, want %q", state, c.what, got, want)
			}
		}
	}
}

// The same for a message that logs for several: of whom it says the same as before
// nothing changes.
func TestEditedTeamLogMeetsWhatHappenedMeanwhile(t *testing.T) {
	const text = "@ana squat 140x5, @ben 160x5"
	meanwhile := map[string]func(k *talk){
		"nothing":    func(*talk) {},
		"corrected":  func(k *talk) { k.ok(k.say("ana", "no 4 reps")) },
		"fixed":      func(k *talk) { k.ok(k.say("cap", "/log fix 1 weight:150 lifter:ana")) },
		"taken back": func(k *talk) { k.ok(k.undoNote("ana")) },
	}
	stays := map[string]string{"nothing": "squat 140 kg x 5", "corrected": "squat 140 kg x 4", "fixed": "squat 150 kg x 5"}
	for state, happens := range meanwhile {
		for _, c := range []struct{ edit, ana, ben string }{
			{text + " good work", stays[state], "squat 160 kg x 5"},
			{"@ana squat 140x5, @ben 162.5x5", stays[state], "squat 162.5 kg x 5"},
			{"@ana squat 142.5x5, @ben 160x5", "squat 142.5 kg x 5", "squat 160 kg x 5"},
			{"@ana squat 140x5", stays[state], ""},
			{"@ben squat 160x5", "", "squat 160 kg x 5"},
			{"well done all", "", ""},
			{"", "", ""}, // removed
		} {
			k := team(t)
			m, _ := k.writes("cap", text)
			happens(k)
			if c.edit == "" {
				k.deletes("cap", m)
			} else if r := k.edits("cap", m, c.edit); r.Kind == chat.Failure {
				t.Errorf("%s, edited to %q: %s", state, c.edit, r.Message.Text)
			}
			if a, b := k.logOf("ana"), k.logOf("ben"); a != c.ana || b != c.ben {
				t.Errorf("%s, edited to %q: ana %q, want %q; ben %q, want %q", state, c.edit, a, c.ana, b, c.ben)
			}
		}
	}
}

func TestWhoseSetsWereTakenOutIsTold(t *testing.T) {
	k := team(t)
	m, _ := k.writes("cap", "@ana squat 140x5, @ben 160x5")
	k.deletes("cap", m)
	if n := k.notesTo("ben"); len(n) != 2 || !strings.Contains(n[1].What, "Taken out of your log") || n[1].Undo != "" {
		t.Errorf("told: %+v", n)
	}
}

// An answer to a question belongs to its message: an edit of other words leaves it.
func TestAnswersOutliveOtherWords(t *testing.T) {
	for _, c := range []struct{ text, press, want string }{
		{"140x5", "squat", "squat 140 kg x 5"},
		{"squat 440x5", "440 lb", "squat 199.58 kg x 5"},
		{"bench 90x5x3", "No: 5 sets of 3", "bench 5 sets of 3 at 90 kg"},
		{"squat 600x5", "No", ""},
		{"squat 3x5 140 missed", "Yes", "squat 2 sets of 5 at 140 kg, squat 140 kg x 4, missed"},
	} {
		k := newTalk(t, "2027-01-04T19:00:00Z")
		k.ok(k.say("ana", "/me set squat:180 bench:120"))
		m, _ := k.writes("ana", c.text)
		k.ok(k.press("ana", c.press))
		if got := k.logOf("ana"); got != c.want {
			t.Errorf("%q, %q: %s", c.text, c.press, got)
		}
		k.edits("ana", m, c.text+" lol")
		if got := k.logOf("ana"); got != c.want {
			t.Errorf("%q, %q, other words: %s", c.text, c.press, got)
		}
		k.deletes("ana", m)
		if got := k.logOf("ana"); got != "" {
			t.Errorf("%q, %q, removed: %s", c.text, c.press, got)
		}
	}
}

// An order that was changed does its work once, and on no other set than its own. That
// an order is removed takes nothing back.
func TestEditedOrders(t *testing.T) {
	k := newTalk(t, "2027-01-04T19:00:00Z")
	k.say("ana", "squat 130x5")
	k.say("ana", "squat 140x5")
	undo, _ := k.writes("ana", "undo")
	k.edits("ana", undo, "undo please")
	k.edits("ana", undo, "undo that")
	if got := k.logOf("ana"); got != "squat 130 kg x 5" {
		t.Errorf("undone again: %s", got)
	}
	k.refused(k.edits("ana", undo, "no 3 reps"), "another set")
	right, _ := k.writes("ana", "no 4 reps")
	k.ok(k.edits("ana", right, "no 3 reps"))
	if got := k.logOf("ana"); got != "squat 130 kg x 3" {
		t.Errorf("corrected anew: %s", got)
	}
	k.deletes("ana", right)
	k.deletes("ana", undo)
	k.say("ana", "bench 80x5")
	k.refused(k.edits("ana", right, "no 2 reps"), "another set")
	if got := k.logOf("ana"); got != "squat 130 kg x 3, bench 80 kg x 5" {
		t.Errorf("in the end: %s", got)
	}
}

// A bodyweight follows its message as sets do, unless another was told since.
func TestBodyweightFollowsItsMessage(t *testing.T) {
	for _, c := range []struct {
		what string
		do   func(k *talk, m string)
		want string
	}{
		{"changed the day after", func(k *talk, m string) { k.clock("2027-01-05T19:00:00Z"); k.edits("ana", m, "bw 83.4") }, "2027-01-03 81.5, 2027-01-04 83.4; 83.4"},
		{"other words", func(k *talk, m string) { k.edits("ana", m, "bw 82.4 after breakfast") }, "2027-01-03 81.5, 2027-01-04 82.4; 82.4"},
		{"to talk", func(k *talk, m string) { k.edits("ana", m, "hello") }, "2027-01-03 81.5; 81.5"},
		{"removed", func(k *talk, m string) { k.deletes("ana", m) }, "2027-01-03 81.5; 81.5"},
		{"told again, then removed", func(k *talk, m string) {
			k.clock("2027-01-04T20:00:00Z")
			k.say("ana", "bw 82.6")
			k.deletes("ana", m)
		}, "2027-01-03 81.5, 2027-01-04 82.6; 82.6"},
	} {
		k := newTalk(t, "2027-01-03T19:00:00Z")
		k.say("ana", "bw 81.5")
		k.clock("2027-01-04T19:00:00Z")
		m, _ := k.writes("ana", "bw 82.4")
		c.do(k, m)
		if got := k.weighings("ana"); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// weighings are a lifter's bodyweights, and what the profile says.
func (k *talk) weighings(handle string) string {
	k.t.Helper()
	var all []string
	profile := ""
	k.read(func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(handle)
		if err != nil {
			return err
		}
		list, err := tx.Bodyweights(l.ID, 1, planner.NewDate(2030, 1, 1))
		for _, b := range list {
			all = append(all, b.Day.String()+" "+b.Mass.Number(planner.KG))
		}
		profile = l.Bodyweight.Number(planner.KG)
		return err
	})
	return strings.Join(all, ", ") + "; " + profile
}
