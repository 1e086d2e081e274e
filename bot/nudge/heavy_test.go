package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// ofKind lists what of one kind is due in 2027.
func ofKind(f nudge.Facts, k nudge.Kind) []nudge.Nudge {
	return slices.DeleteFunc(nudge.Due(f, yearFrom, yearTo), func(n nudge.Nudge) bool { return n.Kind != k })
}

// The muscle block of seven weeks ends with its easy week, and the strength block of
// eleven has one inside and one as its last: after at most five weeks of work for an
// intermediate lifter (common practice).
func TestDeloadWeeksAreTold(t *testing.T) {
	var days []string
	for _, n := range ofKind(club(ana()), nudge.DeloadWeek) {
		days = append(days, n.Day.String())
		if n.Day.Weekday() != time.Monday || n.Place != nudge.Directly {
			t.Errorf("%s, %s", n.Day.Short(), n.Place)
		}
	}
	if !slices.Contains(days, "2027-02-15") || len(days) < 2 {
		t.Errorf("told on %q", days)
	}
	last := planner.Date(day(time.January, 4))
	for _, d := range days {
		at, _ := planner.ParseDate(d)
		if gap := last.DaysUntil(at); gap < 14 || gap > 7*8 {
			t.Errorf("%d days between easy weeks, the later from %s", gap, d)
		}
		last = at
	}
}

// Days before the meet of the last heavy squat, bench press and deadlift: 7-10, 4-7
// and 7-14 (common practice, as in the taper surveys of Pritchard et al. 2016 and
// Travis et al. 2020 for experienced lifters).
func TestLastHeavyDays(t *testing.T) {
	windows := map[planner.Lift][2]int{planner.Squat: {7, 10}, planner.Bench: {4, 7}, planner.Deadlift: {7, 14}}
	for _, weekdays := range [][]planner.Weekday{nil, {time.Monday, time.Wednesday, time.Friday}, {time.Monday, time.Tuesday, time.Thursday, time.Saturday}} {
		m := ana()
		m.Making.Training.Weekdays = weekdays
		meet, seen := m.Meets[0].Date, map[planner.Lift]bool{}
		told := ofKind(club(m), nudge.LastHeavy)
		if len(told) != 1 {
			t.Fatalf("%v: told %d times", weekdays, len(told))
		}
		for _, h := range told[0].Heavy {
			for _, l := range h.Lifts {
				out := h.Day.DaysUntil(meet)
				if w := windows[l]; out < w[0] || out > w[1] || seen[l] || h.Day < told[0].Day {
					t.Errorf("%v: last heavy %s is %d days before, again: %t", weekdays, l, out, seen[l])
				}
				seen[l] = true
			}
		}
		if len(seen) != 3 {
			t.Errorf("%v: told of %v", weekdays, seen)
		}
	}
}

func TestWeeksOfOneSOwnAreNotTold(t *testing.T) {
	own, away, tables := ana(), ana(), ana()
	own.Making.Own = true
	away.Aways = []nudge.Away{{From: day(time.February, 10), To: day(time.February, 20)}}
	tables.Making.Tables = map[planner.BlockKind]bool{planner.Hypertrophy: true, planner.Peaking: true}
	for _, n := range nudge.Due(club(own), yearFrom, yearTo) {
		if n.Kind == nudge.DeloadWeek || n.Kind == nudge.LastHeavy {
			t.Errorf("%s is told to who trains by own weeks", n.Key)
		}
	}
	for _, n := range ofKind(club(away), nudge.DeloadWeek) {
		if n.Day == day(time.February, 15) {
			t.Errorf("%s is told to who is away", n.Key)
		}
	}
	if got := ofKind(club(tables), nudge.LastHeavy); len(got) != 0 {
		t.Errorf("%d heavy days of the club's own weeks are told", len(got))
	}
	for _, n := range ofKind(club(tables), nudge.DeloadWeek) {
		if n.Day < day(time.February, 22) {
			t.Errorf("%s is told of the club's own weeks", n.Key)
		}
	}
}

func TestWordsOfWeeks(t *testing.T) {
	m := ana()
	post := told(t, club(m), day(time.February, 15), "direct/ana/2027-02-15")
	if !strings.HasPrefix(post.Message.Text, "Your easy week (deload) starts today.") {
		t.Errorf("%q", post.Message.Text)
	}
	n := ofKind(club(m), nudge.LastHeavy)[0]
	post = told(t, club(m), n.Day, "direct/ana/"+n.Day.String())
	if !strings.Contains(post.Message.Text, "Last heavy days before River Open, Sat 12 June: "+string(n.Heavy[0].Lifts[0])+" today, ") {
		t.Errorf("%q", post.Message.Text)
	}
}

// A change of whose weeks count is seen at once.
func TestChangedWeeksAreLookedAtAgain(t *testing.T) {
	h := newHouse(t, club(ana()))
	eve := day(time.February, 14).At(time.UTC, 9, 0)
	h.run(eve)
	h.update(func(tx *store.Tx) error { return tx.SaveTraining(1, store.Training{Weeks: store.OwnWeeks}) })
	h.walk(eve, eve.AddDate(0, 0, 2))
	for _, p := range h.board.posts {
		if strings.Contains(p.Message.Text, "deload") {
			t.Errorf("told all the same: %q", p.Message.Text)
		}
	}
}

// An easy week is not told in a week in which something else was: the end of the
// block, three days later, has something to decide.
func TestEasyWeekLeavesRoomForTheBlocksEnd(t *testing.T) {
	m := ana()
	meet := planner.Meet{ID: 40, Name: "Spring Cup", Date: day(time.March, 25), Kind: planner.Main}
	m.Meets = append(m.Meets, meet)
	h := newHouse(t, club(m))
	h.walk(day(time.February, 10).At(time.UTC, 9, 0), day(time.February, 19).At(time.UTC, 9, 0))
	all := strings.Join(h.board.keys(), " ")
	texts := ""
	for _, p := range h.board.posts {
		texts += p.Message.Text + "\n"
	}
	if strings.Contains(texts, "deload") || !strings.Contains(texts, "Spring Cup in 6 weeks") || !strings.Contains(texts, "ends Sun 21 February") {
		t.Errorf("posts %s say %q", all, texts)
	}
}
