package nudge

import (
	"strings"
	"testing"

	"blockbell/planner"
)

// Who was away for months is not told that the work is done.
func TestEveOfAMeetAfterATimeAway(t *testing.T) {
	today := planner.NewDate(2027, 6, 11)
	for name, c := range map[string]struct {
		from, to planner.Date
		gone     bool
	}{
		"not back yet":     {today.AddDays(-90), 0, true},
		"back last week":   {today.AddDays(-90), today.AddDays(-7), true},
		"away for a week":  {today.AddDays(-14), today.AddDays(-7), false},
		"back long ago":    {today.AddDays(-120), today.AddDays(-60), false},
		"leaves afterward": {today.AddDays(3), today.AddDays(90), false},
	} {
		n := &Nudge{Member: &Member{Aways: []Away{{From: c.from, To: c.to}}}, Meet: planner.Meet{Name: "River Open", Date: today.AddDays(1)}}
		said := strings.Join(n.toldMeet(today), "\n")
		if done := strings.Contains(said, "The work is done"); done == c.gone {
			t.Errorf("%s: %q", name, said)
		}
	}
}
