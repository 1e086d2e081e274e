package bot

import (
	"strings"
	"testing"
)

// What a coach logs for a lifter moves loads as the lifter's own line does; the coach's
// answer says so, to nobody else, and the lifter is told with what was logged.
func TestTeamLogSaysWhatItMoves(t *testing.T) {
	k := loading(t)
	r := k.ok(k.say("cap", "@ana squat 90x6 @10"))
	const says = "Squat was harder than planned, so Fri 15 January goes down: high-bar squat "
	if !strings.Contains(r.Message.Text, says) || !r.Message.Private {
		t.Errorf("the coach reads %q, private %t", r.Message.Text, r.Message.Private)
	}
	if n := k.notesTo("ana"); len(n) != 1 || !strings.Contains(n[0].What, says) {
		t.Errorf("the lifter is told %+v", n)
	}
	k = trained(t)
	k.week("ana", "/today")
	r = k.ok(k.say("cap", "@ana squat 82.5x8 @10"))
	if !strings.Contains(r.Message.Text, "The first logged squat counts for more than the max that was told, so Fri 8 January goes down") {
		t.Errorf("a first log: %q", r.Message.Text)
	}
}
