package blocks

import (
	"math"
	"strings"
	"testing"

	"blockbell/planner"
)

// TestTimesAwayByHand: what a time away does to the order and the dates of a plan, by the
// rules of return (common practice); single weeks are the optimum that enumeration finds.
func TestTimesAwayByHand(t *testing.T) {
	day := func(n int) planner.Date { return monday.AddDays(n) }
	tests := []struct {
		name    string
		weeks   int
		running *Running
		away    []Away
		blocks  string
		dates   string // first day of the second block
		note    string
	}{
		{"six days change nothing", 20, nil, []Away{{day(35), day(40)}}, "H9 S7 P4", "", ""},
		{"two that follow each other are one", 20, nil, []Away{{day(35), day(38)}, {day(39), day(45)}}, "H8 S7 P3", "2027-03-15", "do not count"},
		{"eleven days are two weeks of the block", 20, nil, []Away{{day(35), day(45)}}, "H8 S7 P3", "2027-03-15", "do not count"},
		{"five weeks end the block on the eve", 20, nil, []Away{{day(37), day(71)}}, "H5 S5 P4", "2027-03-17", "a new one begins on Wed 17 March"},
		{"eight weeks over: four weeks of base first", 6, nil, []Away{{day(-60), day(-2)}}, "S4 P2", "2027-02-01", ""},
		{"the meet is under five weeks off", 5, nil, []Away{{day(-60), day(-2)}}, "P5", "", "80-85 %"},
		{"two weeks over: no peaking in the first two back", 6, nil, []Away{{day(-16), day(-2)}}, "S3 P3", "2027-01-25", ""},
		{"four weeks over end what ran", 12, &Running{planner.Strength, day(-42)}, []Away{{day(-30), day(-1)}}, "H4 S5 P3", "2027-02-01", "The running strength block ended"},
		{"what was trained since is a new block", 12, &Running{planner.Strength, day(-70)}, []Away{{day(-50), day(-15)}}, "S10 P4", "2027-03-01", "The running strength block ended"},
		{"peaking before four weeks away ends now", 20, &Running{planner.Peaking, day(-14)}, []Away{{day(21), day(55)}}, "S3 H5 S3 P4", "2027-03-01", "there is no meet before the time away"},
		{"away over the meet", 12, nil, []Away{{day(49), day(150)}}, "S7", "", "nothing can be planned for it"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, c.weeks)
			r.Running, r.Away = c.running, c.away
			p := mustBuild(t, r)
			got := lengths(p.Blocks)
			if got != c.blocks || c.dates != "" && p.Blocks[1].Start != mustDate(t, c.dates) {
				t.Errorf("%s %v, want %s, the second from %s", got, p.Blocks, c.blocks, c.dates)
			}
			if notes := strings.Join(p.Notes, " "); !strings.Contains(notes, c.note) {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
			if len(p.Relaxed) > 0 {
				t.Errorf("relaxed %q", p.Relaxed)
			}
		})
	}
}

func mustDate(t *testing.T, text string) planner.Date { return day(t, text) }

// TestPastAwayJoinsTheHistory: six weeks of strength with two weeks away in them, then
// nothing since, replayed by hand.
func TestPastAwayJoinsTheHistory(t *testing.T) {
	r := fresh(planner.Intermediate, 16)
	r.History = []Past{{planner.Hypertrophy, 8}}
	r.Running = &Running{planner.Strength, monday.AddDays(-7 * 8)}
	r.Away = []Away{{monday.AddDays(-28), monday.AddDays(-15)}}
	got := mustBuild(t, r).Model
	m := NewModel(r.Lifter, r.Today, r.Rules)
	x := m.Start.State
	for w := range 8 {
		x = m.Week(x, planner.Hypertrophy, w)
	}
	for w := range 4 {
		x = m.Week(x, planner.Strength, w)
	}
	for w := range 2 {
		x = m.Week(x, Layoff, w)
	}
	for w := 4; w < 6; w++ {
		x = m.Week(x, planner.Strength, w)
	}
	want := State{M: x.M, C: x.C - x.S, E: x.E} // two weeks take no muscle that could come back
	if d := got.Start.State; math.Abs(d.M-want.M) > exact || math.Abs(d.C-want.C) > exact || math.Abs(d.E-want.E) > exact || got.Start.Week != 6 || !got.Start.Hypertrophy {
		t.Errorf("start %+v, want %+v in week 6", got.Start, want)
	}
	// Ten weeks away before the running block: hypertrophy of before is of another
	// run-up, and what ran begins anew.
	r.Away = []Away{{monday.AddDays(-70), monday.AddDays(-22)}}
	if got = mustBuild(t, r).Model; got.Start.Hypertrophy || got.Start.Week != 3 {
		t.Errorf("after seven weeks away: %+v", got.Start)
	}
}

// TestAgreedAroundTimesAway: the rest of an agreed plan stays while the lifter is
// away, and one that a newly told time away runs through is no longer legal.
func TestAgreedAroundTimesAway(t *testing.T) {
	r := fresh(planner.Intermediate, 24)
	r.Away = []Away{{monday.AddDays(35), monday.AddDays(76)}}
	agreed := mustBuild(t, r).Blocks
	r.Today, r.History, r.Agreed = monday.AddDays(50), []Past{{agreed[0].Kind, agreed[0].Weeks}}, agreed[1:]
	if p := mustBuild(t, r); !p.Kept || lengths(p.Blocks) != lengths(agreed[1:]) {
		t.Errorf("while away: %s, %q", lengths(p.Blocks), p.KeepWhy)
	}
	r = fresh(planner.Intermediate, 24)
	r.Agreed = mustBuild(t, r).Blocks
	r.Away = []Away{{monday.AddDays(35), monday.AddDays(76)}}
	if p := mustBuild(t, r); p.Kept || p.KeepCostPercent != nil || !strings.Contains(p.KeepWhy, "runs through the muscle block") {
		t.Errorf("told since: kept %v, %q", p.Kept, p.KeepWhy)
	}
	r.Away = []Away{{monday.AddDays(35), monday.AddDays(46)}}
	if p := mustBuild(t, r); !p.Kept || p.Blocks[0].End != r.Agreed[0].End || p.Blocks[0].Weeks != r.Agreed[0].Weeks-2 {
		t.Errorf("twelve days told since: %v, %q", p.Blocks, p.KeepWhy)
	}
}

// TestNoPeakInTheFirstDaysBack: after 14 days away and more no peaking begins within
// 14 days of the first day back, after 56 within 28, counted in days on whatever
// weekday somebody returns (common practice).
func TestNoPeakInTheFirstDaysBack(t *testing.T) {
	for _, c := range []struct{ away, days int }{{14, 14}, {20, 14}, {27, 14}, {28, 14}, {55, 14}, {56, 28}, {70, 28}} {
		for to := 30; to < 37; to++ {
			for weeks := 7; weeks <= 14; weeks++ {
				back := monday.AddDays(to + 1)
				r := fresh(planner.Intermediate)
				r.Away = []Away{{back.AddDays(-c.away), back.AddDays(-1)}}
				r.Meets = []planner.Meet{{ID: 1, Name: "River Open", Kind: planner.Main, Date: back.AddDays(7 * weeks)}}
				for _, b := range mustBuild(t, r).Blocks {
					if since := back.DaysUntil(b.Start); b.Kind == planner.Peaking && b.End >= back && since < c.days {
						t.Errorf("%d days away, back on %s, meet in %d weeks: peaking begins %d days after the return", c.away, back.Short(), weeks, since)
					}
				}
			}
		}
	}
}

// TestLongAwayBeginsAnew: after 56 days away and more the first block is one of many,
// lighter sets wherever ten weeks are left (common practice); under that the words for
// strength say that it begins light. After less time away the usual order stands.
func TestLongAwayBeginsAnew(t *testing.T) {
	for _, level := range planner.Levels() {
		for weeks := 7; weeks <= 30; weeks++ {
			r := fresh(level, weeks)
			r.Away = []Away{{monday - 56, monday - 1}}
			first := mustBuild(t, r).Blocks[0]
			switch {
			case weeks >= 10 && (first.Kind != planner.Hypertrophy || first.Weeks < 4):
				t.Errorf("%s, %d weeks: %s of %d weeks first", level, weeks, first.Kind, first.Weeks)
			case weeks < 10 && (first.Kind != planner.Strength || !strings.Contains(first.Reason, "lighter sets in the first four weeks back")):
				t.Errorf("%s, %d weeks: %s", level, weeks, first.Reason)
			}
		}
	}
	r := fresh(planner.Advanced, 10)
	r.Away = []Away{{monday - 55, monday - 1}}
	if first := mustBuild(t, r).Blocks[0]; first.Kind != planner.Strength || strings.Contains(first.Reason, "lighter") {
		t.Errorf("55 days away: %s", first.Reason)
	}
	r.Away[0].From, r.Pins = monday-56, []Pin{{Ordinal: 1, Kind: planner.Strength}}
	p := mustBuild(t, r)
	if got := strings.Join(p.Relaxed, " "); p.Blocks[0].Kind != planner.Strength || !strings.Contains(got, "fixed by hand") {
		t.Errorf("pinned strength: %s, %q", lengths(p.Blocks), p.Relaxed)
	}
	r = fresh(planner.Intermediate)
	r.Away = []Away{{monday - 60, monday - 1}}
	if got := lengths(mustBuild(t, r).Blocks); got[0] != 'H' {
		t.Errorf("no meet: %s", got)
	}
}
