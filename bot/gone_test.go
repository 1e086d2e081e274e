package bot

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"blockbell/planner"
)

// Half a season away without a last day: nothing about blocks is said to the lifter or
// about them, nobody calls them late, and who comes back is asked.
func TestNobodyIsLateForBeingAway(t *testing.T) {
	for _, mode := range []string{"agreed", "ask"} {
		t.Run(mode, func(t *testing.T) {
			k := newTalk(t, "2027-01-04T09:00:00Z")
			k.ok(k.say("cap", "/club settings advance:"+mode+" nudge_channel:#club"))
			k.strong("ana", "2027-08-07")
			k.strong("ben", "2027-08-07") // the same plan, and there to train it
			k.ok(k.say("ana", "squat 150x5 @8"))
			k.sleep(2)
			k.ok(k.say("ana", "/season away"))
			posts := k.sleep(150)
			told := toldTo(posts, "ana")
			for _, word := range []string{"ends", "ended", "begins", "began", "easy week", "peaking", "No sets of yours", "Taper", "waits for you"} {
				if strings.Contains(told, word) {
					t.Errorf("ana, away, was told of %q: %s", word, told)
				}
			}
			if other := toldTo(posts, "ben"); !strings.Contains(other, "ends") {
				t.Errorf("ben was told %q", other)
			}
			for _, p := range posts {
				if raw, _ := json.Marshal(p.Message); p.To.Person == "" && strings.Contains(string(raw), "ana") {
					t.Errorf("the club read of ana: %s", raw)
				}
			}
			board := fmt.Sprint(k.ok(k.say("cap", "/club board")).Message.Fields)
			if ana := board[strings.Index(board, "ana"):strings.Index(board, "ben")]; strings.Contains(ana, "over for") || strings.Contains(ana, "limit") || !strings.Contains(ana, "away from") {
				t.Errorf("board of ana: %s", ana)
			}
			for _, ask := range []string{"/club digest", "/club announce"} {
				r := k.say("cap", ask)
				text := r.Message.Text
				for _, f := range r.Message.Fields {
					if f.Name != "Away" {
						text += "\n" + f.Value
					}
				}
				if strings.Contains(text, "ana") {
					t.Errorf("%s names ana: %s", ask, text)
				}
			}
			if mode == "ask" {
				k.ok(k.say("cap", "/club board"))
				if r := k.ok(k.press("cap", "Begin all that wait")); strings.Contains(r.Message.Text, "ana") {
					t.Errorf("begun for somebody away: %s", r.Message.Text)
				}
			}
			// Back without a word: the first set of the day asks, privately and once.
			r := k.ok(k.say("ana", "squat 100x5 @7"))
			if !strings.Contains(r.Message.Text, "You are marked as away. Back?") || !r.Message.Private {
				t.Errorf("private %v: %s", r.Message.Private, r.Message.Text)
			}
			if r := k.ok(k.say("ana", "squat 105x5 @7")); strings.Contains(r.Message.Text, "Back?") {
				t.Errorf("asked twice: %s", r.Message.Text)
			}
			r = k.ok(k.press("ana", "Back now"))
			k.says(r, "Good to have you back")
			if got := data[seasonAnswer](t, r); len(got.Blocks) == 0 {
				t.Errorf("nothing was proposed on the return: %s", r.Message.Text)
			}
			k.says(k.press("ana", "Accept plan"), "Plan agreed")
			if today := planner.DateOf(k.now); strings.Contains(toldTo(k.sleep(7), "ana"), "longer than usual") {
				t.Errorf("called late in the week after %s", today)
			}
		})
	}
}
