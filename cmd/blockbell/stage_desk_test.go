package main

import (
	"fmt"
	"strings"
	"testing"
)

// deskClub is a club of fourteen, most of them with an agreed plan, as a script.
func deskClub() string {
	var s strings.Builder
	line := func(format string, a ...any) { fmt.Fprintf(&s, format+"\n", a...) }
	line("clock 2027-01-04T09:00:00Z")
	line("@cap /club settings zone:Europe/Lisbon hour:08:00")
	line("@cap /nudges where direct")
	levels := []string{"novice", "intermediate", "intermediate", "advanced", "elite"}
	meets := [][2]string{{"Bridge Novice Open", "2027-03-20"}, {"Spring Cup", "2027-05-08"}, {"River Open", "2027-06-12"}, {"Autumn Classic", "2027-09-18"}}
	for i, who := range strings.Fields("ana ben cleo dora emil finn greta hugo iris jan kira leo mira noel") {
		line("@%s /me set level:%s category:%s bodyweight:%g class:%d squat:%d bench:%d deadlift:%d born:%d-03-04 nudges:%s", who, levels[i%5],
			[]string{"women", "men"}[i%2], []float64{62.4, 82.5}[i%2], []int{63, 83}[i%2], 100+5*i, 60+3*i, 130+5*i, 1985+i, []string{"direct", "channel", "ask"}[i%3])
		line(`@%s /meet add name:"%s" date:%s kind:main`, who, meets[i%4][0], meets[i%4][1])
		line("@%s /season build", who)
		if i%7 != 3 {
			line(`press @%s "Accept plan"`, who)
		}
		if i < 6 {
			line("@cap /club assign lifter:%s group:%s", who, []string{"monday", "juniors"}[i%2])
		}
	}
	return s.String()
}

// deskWork is what a captain does with it in a fortnight: the board, approvals, groups,
// the hall, announcements, time away, a move, somebody who leaves, and the club handed
// over; with presses twice, by strangers, and of what is gone.
const deskWork = `@cap /club board
press @cap "Sort by meet"
@ana /club board
@cap /club approve
press @cap "Approve all 2 unchanged"
press @cap "Approve ana"
@cap /club groups
@cap /club decide who:both group:juniors
@cap /club digest
@cap /club today group:monday
@cap /club announce
press @cap "Post it"
@cap /club announce text:"Gym closed **Friday** @everyone" at:"2027-01-06 18:00"
press @cap "Schedule it"
press @cap "Schedule it"
@cap /club announce text:"Bring chalk" at:"2027-01-07 18:00"
press @cap "Schedule it"
@cap /club announced
press @cap "Take back 1"
press @cap "Take back 1"
@cap @ana squat 90x5 @8, @ben bench 60x3, @nobody squat 90x5
@cap /club gym collars:5 smallest:1.25
@cap /club away from:2027-02-01 to:2027-02-07 group:monday
press @cap "Lay out plans for 3 lifters"
@cap /club left lifter:noel
@cap /club board sort:name
clock 2027-01-05T09:00:00Z
press @ana "Look"
press @ana "Take back 1"
press @ana "Take back 1"
clock 2027-01-08T09:00:00Z
@cap /club move lifter:jan block:strength reason:"less time than it looks"
@jan /season
press @jan "Show the new plan"
press @jan "Accept plan"
@cap /club captain member:ben
@ben /club history
@cap /club captain member:ben appoint:no
@ben /club board
@noel squat 100x5
@cap /club board sort:days
@cap /club settings
@cap /club desk
`

// TestDeskIsTheSameOnBothStages plays the captain's desk at the terminal and through the
// real program against the emulated platform.
func TestDeskIsTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	compareStages(t, deskClub()+deskWork, 100)
}
