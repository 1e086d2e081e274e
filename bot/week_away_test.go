package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// What a lifter told about being away counts in every answer alike: the week of the
// block, the easy weeks, and why there is less.
func TestEveryAnswerCountsTheSameWeekAfterTimeAway(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-07-10")
	k.sleep(14)
	k.ok(k.say("ana", "/season away from:today to:2027-02-07")) // three weeks
	k.sleep(20)
	easyWeeks := 0
	for week := range 12 {
		told := easyTold(k.sleep(1))
		block := data[struct{ Block struct{ Week, Weeks int } }](t, k.ok(k.say("ana", "/block"))).Block
		this, today := k.week("ana", "/week"), k.week("ana", "/today")
		if block.Week != *this.Week || block.Weeks != this.Weeks || block.Week != *today.Week || block.Weeks != today.Weeks {
			t.Errorf("on %s week %d of %d by /block, %d of %d by /week, %d of %d by /today", k.now, block.Week, block.Weeks, *this.Week, this.Weeks, *today.Week, today.Weeks)
		}
		if why := strings.Join(this.Changed, "\n"); week == 0 && (block.Week != 3 || !strings.Contains(why, "because you were away")) {
			t.Errorf("back after three weeks away in week %d, want 3: %s", block.Week, why)
		}
		if told != this.Deload {
			t.Errorf("on %s an easy week told %t, planned %t", k.now, told, this.Deload)
		}
		if told {
			easyWeeks++
		}
		k.sleep(6)
	}
	if easyWeeks == 0 {
		t.Error("no easy week in twelve")
	}
}

// easyTold tells whether one of the posts says that an easy week begins.
func easyTold(posts []chat.Post) bool {
	for _, p := range posts {
		if strings.Contains(p.Message.Text, "Your easy week (deload)") {
			return true
		}
	}
	return false
}
