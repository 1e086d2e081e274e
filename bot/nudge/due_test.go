package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

func TestDueTellsASeasonInOrder(t *testing.T) {
	want := []string{
		"ana/block-end/b20270104/2027-02-21/-3d",
		"ana/block-begin/b20270222/2027-02-22/+0d",
		"ana/meet/m12/2027-06-12/-8w",
		"ana/block-end/b20270222/2027-05-09/-3d",
		"ana/block-begin/b20270510/2027-05-10/+0d",
		"ana/meet/m12/2027-06-12/-4w",
		"ana/meet/m12/2027-06-12/-2w",
		"ana/taper/b20270510/2027-05-31/taper",
		"ana/meet/m12/2027-06-12/-1w",
		"ana/block-end/b20270510/2027-06-11/-3d",
		"ana/meet/m12/2027-06-12/-1d",
		"ana/block-begin/b20270613/2027-06-13/+0d",
		"ana/block-end/b20270613/2027-06-20/-3d",
	}
	if got := due(club(ana())); !slices.Equal(got, want) {
		t.Errorf("due in 2027:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Keys must not change when a new version of the plan leaves a block alone, and
// must change when the block's end moves.
func TestKeysFollowTheBlockNotTheVersionOfThePlan(t *testing.T) {
	again := ana()
	again.Plan++
	again.Agreed = again.Agreed.AddDate(0, 0, 20)
	again.Season.Blocks[1].End = day(time.May, 16)
	again.Season.Blocks[2].Start = day(time.May, 17)
	before, after := due(club(ana())), due(club(again))
	if before[0] != after[0] {
		t.Errorf("the block that did not change is now %s, was %s", after[0], before[0])
	}
	if want := "ana/block-end/b20270222/2027-05-16/-3d"; !slices.Contains(after, want) || slices.Contains(before, want) {
		t.Errorf("the block whose end moved should be due as %s; got %q", want, after)
	}
}

func TestNothingOfAPlanIsDueBeforeItWasAgreed(t *testing.T) {
	f := club(ana())
	at := day(time.February, 18).At(time.UTC, 8, 0)
	for _, tt := range []struct {
		agreed time.Time
		want   int
	}{{at.Add(-time.Second), 1}, {at, 0}, {at.Add(time.Second), 0}} {
		f.Members[0].Agreed = tt.agreed
		if got := len(training(nudge.Due(f, at.Add(-time.Minute), at))); got != tt.want {
			t.Errorf("agreed %s: %d due at %s, want %d", tt.agreed, got, at, tt.want)
		}
	}
}

func TestWhereANudgeBelongs(t *testing.T) {
	minor := planner.NewDate(2010, time.January, 1)
	tests := []struct {
		name                string
		change              func(*nudge.Member)
		news, end, countdwn nudge.Place
	}{
		{"chose direct", func(*nudge.Member) {}, nudge.Named, nudge.Directly, nudge.Named},
		{"chose nothing", func(m *nudge.Member) { m.Lifter.Nudges = "" }, nudge.Named, nudge.Counted, nudge.Named},
		{"chose channel", func(m *nudge.Member) { m.Lifter.Nudges = planner.Channel }, nudge.Named, nudge.Counted, nudge.Named},
		{"only when asking", func(m *nudge.Member) { m.Lifter.Nudges = planner.Ask }, nudge.Named, nudge.Nowhere, nudge.Named},
		{"not named, direct", func(m *nudge.Member) { m.Public = false }, nudge.Directly, nudge.Directly, nudge.Directly},
		{"not named, channel", func(m *nudge.Member) { m.Public, m.Lifter.Nudges = false, planner.Channel }, nudge.Counted, nudge.Counted, nudge.Counted},
		{"not named, ask", func(m *nudge.Member) { m.Public, m.Lifter.Nudges = false, planner.Ask }, nudge.Nowhere, nudge.Nowhere, nudge.Nowhere},
		{"under 18, direct", func(m *nudge.Member) { m.Lifter.Born = minor }, nudge.Directly, nudge.Directly, nudge.Named},
		{"under 18, channel", func(m *nudge.Member) { m.Lifter.Born, m.Lifter.Nudges = minor, planner.Channel }, nudge.Counted, nudge.Counted, nudge.Named},
		{"age not told", func(m *nudge.Member) { m.Lifter.Born = 0 }, nudge.Named, nudge.Directly, nudge.Named},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := ana()
			tt.change(&m)
			want := map[nudge.Kind]nudge.Place{nudge.BlockBegin: tt.news, nudge.TaperStart: tt.news, nudge.BlockEnd: tt.end, nudge.MeetNear: tt.countdwn}
			for _, n := range training(nudge.Due(club(m), yearFrom, yearTo)) {
				if n.Place != want[n.Kind] {
					t.Errorf("%s belongs %s, want %s", n.Key, n.Place, want[n.Kind])
				}
			}
		})
	}
}

// A person is under 18 until the eighteenth birthday.
func TestEighteenthBirthdayOpensTheNews(t *testing.T) {
	m := ana()
	for _, tt := range []struct {
		born planner.Date
		want nudge.Place
	}{{planner.NewDate(2009, time.February, 22), nudge.Named}, {planner.NewDate(2009, time.February, 23), nudge.Directly}} {
		m.Lifter.Born = tt.born
		for _, n := range training(nudge.Due(club(m), yearFrom, yearTo)) {
			if n.Kind == nudge.BlockBegin && n.Day == day(time.February, 22) && n.Place != tt.want {
				t.Errorf("born %s: the block of 22 February is told %s, want %s", tt.born, n.Place, tt.want)
			}
		}
	}
}

func TestWhereTheClubAsksBlocksWait(t *testing.T) {
	f := club(ana())
	f.Ask = true
	f.Members[0].Season.Begun[2] = day(time.May, 10) // the second block was never begun
	var waits, begins []string
	for _, n := range training(nudge.Due(f, yearFrom, yearTo)) {
		switch n.Kind {
		case nudge.BlockWaits:
			waits = append(waits, n.Day.String()+" "+string(n.Place))
		case nudge.BlockBegin:
			begins = append(begins, n.Key)
		}
	}
	if want := []string{"2027-02-22 directly", "2027-02-24 directly", "2027-02-27 directly"}; !slices.Equal(waits, want) {
		t.Errorf("reminded on %q, want %q", waits, want)
	}
	if want := []string{"ana/block-begin/b20270613/2027-06-13/+0d"}; !slices.Equal(begins, want) {
		t.Errorf("begins told: %q, want only the recovery after the meet", begins)
	}
	f.Members[0].Season.Begun[1] = day(time.February, 23)
	if got := training(nudge.Due(f, day(time.February, 22).Midnight(time.UTC), day(time.March, 5).Midnight(time.UTC))); len(got) != 0 {
		t.Errorf("the block was begun and still waits: %v", got)
	}
}

// Limits by common practice: an intermediate lifter peaks for at most 6 weeks, so
// a block begun on Mon 10 May is past it on Mon 21 June.
func TestLongPeakingIsToldAfterTheLimitAndThenWeekly(t *testing.T) {
	m := ana()
	m.Meets[0].Date = day(time.July, 24)
	want := []string{
		"ana/peaking-long/b20270510/2027-06-21/over", "ana/peaking-long/b20270510/2027-06-28/over",
		"ana/peaking-long/b20270510/2027-07-05/over", "ana/peaking-long/b20270510/2027-07-12/over",
		"ana/peaking-long/b20270510/2027-07-19/over",
	}
	if got := only(due(club(m)), nudge.PeakingLong); !slices.Equal(got, want) {
		t.Errorf("told %q, want %q", got, want)
	}
}

func only(keys []string, k nudge.Kind) []string {
	return slices.DeleteFunc(keys, func(key string) bool { return strings.Split(key, "/")[1] != string(k) })
}

// A plan that says a longer peak itself, here 8 weeks against a limit of 6, is not
// alarmed about before its planned end.
func TestPlannedLongPeakIsNotAlarmedBeforeItsEnd(t *testing.T) {
	m := ana()
	m.Season.Blocks[1].End = day(time.April, 18)
	m.Season.Blocks[2].Start, m.Season.Blocks[2].Weeks = day(time.April, 19), 8
	if got := only(due(club(m)), nudge.PeakingLong); len(got) != 0 {
		t.Errorf("a peak that runs as planned is alarmed about: %q", got)
	}
	m.Meets[0].Date = day(time.June, 20)
	if got, want := only(due(club(m)), nudge.PeakingLong), []string{"ana/peaking-long/b20270419/2027-06-12/over", "ana/peaking-long/b20270419/2027-06-19/over"}; !slices.Equal(got, want) {
		t.Errorf("with the meet moved a week: %q, want %q", got, want)
	}
}

func TestMovedMeetSilencesTaperAndBegin(t *testing.T) {
	m := ana()
	m.Meets[0].Date = day(time.June, 26)
	for _, key := range due(club(m)) {
		if strings.Contains(key, "/taper/") || strings.Contains(key, "b20270613") {
			t.Errorf("told although the meet moved: %s", key)
		}
	}
}

func TestMeetsAreToldWithoutAPlan(t *testing.T) {
	m := ana()
	m.Plan, m.Agreed, m.Season = 0, time.Time{}, planner.Season{}
	if got := due(club(m)); len(got) != 5 {
		t.Errorf("%d told, want the five steps to the meet: %q", len(got), got)
	}
}
