package nudge_test

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// asked lists the days on which silence is asked about in the year.
func asked(m nudge.Member) []planner.Date {
	var days []planner.Date
	for _, n := range nudge.Due(club(m), yearFrom, yearTo) {
		if n.Kind == nudge.Silence {
			days = append(days, n.Day)
		}
	}
	return days
}

// Ten days without a set are asked about once; what explains them puts it off or
// makes it needless. The numbers are common practice.
func TestSilenceIsAskedAfterTenDaysOnce(t *testing.T) {
	logged := day(time.January, 20)
	for name, c := range map[string]struct {
		change func(*nudge.Member)
		want   planner.Date // zero: not at all
	}{
		"ten days":             {func(*nudge.Member) {}, day(time.January, 30)},
		"never logged":         {func(m *nudge.Member) { m.LastLogged = 0 }, 0},
		"no plan":              {func(m *nudge.Member) { m.Plan = 0 }, 0},
		"said to have trained": {func(m *nudge.Member) { m.Trained = day(time.January, 28) }, day(time.February, 7)},
		"quiet":                {func(m *nudge.Member) { m.Quiet = day(time.February, 3) }, day(time.February, 4)},
		"away, back": {func(m *nudge.Member) {
			m.Aways = []nudge.Away{{From: day(time.January, 25), To: day(time.January, 29)}}
		}, day(time.February, 8)},
		"away, not back": {func(m *nudge.Member) { m.Aways = []nudge.Away{{From: day(time.January, 25)}} }, 0},
		"away soon": {func(m *nudge.Member) {
			m.Aways = []nudge.Away{{From: day(time.February, 1), To: day(time.February, 5)}}
		}, day(time.February, 22)}, // the 15th lies in an easy week
		"away long ago": {func(m *nudge.Member) { m.Aways = []nudge.Away{{From: day(time.January, 5), To: day(time.January, 8)}} }, day(time.January, 30)},
		"ten days before a meet": {func(m *nudge.Member) {
			m.Meets = append(m.Meets, planner.Meet{ID: 30, Name: "Cup", Date: day(time.February, 9), Kind: planner.TuneUp})
		}, 0 /* set below */},
	} {
		m := ana()
		m.LastLogged = logged
		c.change(&m)
		if name == "ten days before a meet" {
			c.want = day(time.February, 9).AddDays(15) // a fortnight after it
			if last := logged.AddDays(10 + 28); c.want > last {
				c.want = 0
			}
		}
		got := asked(m)
		switch {
		case c.want.IsZero() && len(got) > 0:
			t.Errorf("%s: asked on %s", name, got)
		case !c.want.IsZero() && (len(got) != 1 || got[0] != c.want):
			t.Errorf("%s: asked on %s, want %s", name, got, c.want)
		}
	}
}

// An easy week, recovery and the days around a meet explain silence.
func TestSilenceInAnEasyWeekIsLeftAlone(t *testing.T) {
	m := ana()
	for _, b := range m.Season.Blocks {
		if b.Kind == planner.Peaking || b.Weeks < 4 {
			continue
		}
		m.LastLogged = b.End.AddDays(-10 - 3) // the tenth day lies in the block's last week
		for _, d := range asked(m) {
			if b.Contains(d) && b.DaysLeft(d) < 7 {
				t.Errorf("asked on %s, in the last week of the block that ends on %s", d, b.End)
			}
		}
	}
}

func TestWhatWasDoneIsToldAtTheNextHour(t *testing.T) {
	m := ana()
	m.Done = []nudge.Done{
		{ID: 1, What: "A meet was added.", By: "Noor", At: time.Date(2027, 2, 1, 7, 59, 0, 0, time.UTC)},
		{ID: 2, What: "A pin was set.", By: "", At: time.Date(2027, 2, 1, 8, 0, 0, 0, time.UTC)},
	}
	m.Asked = []nudge.Asked{{Plan: 9, Lifter: "Ben", At: time.Date(2027, 2, 1, 20, 0, 0, 0, time.UTC)}}
	var got []string
	for _, n := range nudge.Due(club(m), yearFrom, yearTo) {
		if n.Kind == nudge.DoneForYou || n.Kind == nudge.Approval {
			got = append(got, n.Key)
		}
	}
	want := "ana/done-for-you/n1/2027-02-01/done ana/approval/p9/2027-02-02/+0d ana/done-for-you/n2/2027-02-02/done ana/approval/p9/2027-02-02/+3d"
	if strings.Join(got, " ") != want {
		t.Errorf("due %s\nwant %s", strings.Join(got, " "), want)
	}
}
