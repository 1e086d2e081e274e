package nudge_test

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
	"blockbell/store"
)

const told21 = "Since about Mon 1 February 2.1 % less has come than your plan expects, more than chance explains."

// stall is a squat that was read as standing still on a day, and last on another.
func stall(first, read planner.Date) nudge.Stall {
	return nudge.Stall{Lift: planner.Squat, Verdict: strength.Holding, Reason: told21, First: first, Read: read}
}

// daysOf joins the days on which a kind is due in the year.
func daysOf(m nudge.Member, k nudge.Kind) string {
	var days []string
	for _, n := range ofKind(club(m), k) {
		days = append(days, n.Day.String()[5:])
	}
	return strings.Join(days, " ")
}

// The day after it was read, once for each lift and block, and not while there is a
// reason to keep quiet: an easy week, the taper, three weeks before a meet and two
// after, away, the lift off the plan. The strength block of Ana runs from 22 February
// to 9 May, with easy weeks from 22 March and from 3 May; her meet is on 12 June.
func TestPlateauIsToldOnceWhenItMayBe(t *testing.T) {
	in := func(first, read planner.Date, change ...func(*nudge.Member)) nudge.Member {
		m := ana()
		m.Stalls = []nudge.Stall{stall(first, read)}
		for _, c := range change {
			c(&m)
		}
		return m
	}
	mar := func(d int) planner.Date { return day(time.March, d) }
	for name, c := range map[string]struct {
		m    nudge.Member
		want string
	}{
		"the day after":               {in(mar(1), mar(1)), "03-02"},
		"in the muscle block":         {in(day(time.February, 9), day(time.February, 9)), "02-10"},
		"easy week, not read again":   {in(day(time.February, 15), day(time.February, 18)), ""},
		"easy week, then a new block": {in(day(time.February, 15), mar(24)), "03-29"},
		"in two blocks":               {in(day(time.January, 20), mar(24)), "01-21 03-29"},
		"away": {in(mar(1), mar(1), func(m *nudge.Member) {
			m.Aways = []nudge.Away{{From: mar(2), To: mar(10)}}
		}), "03-11"},
		"away, not back": {in(mar(1), mar(1), func(m *nudge.Member) { m.Aways = []nudge.Away{{From: mar(2)}} }), ""},
		"lift off the plan": {in(mar(1), mar(1), func(m *nudge.Member) {
			m.LiftsOff = []nudge.LiftOff{{Lift: planner.Squat, From: mar(1), Until: mar(8)}}
		}), "03-08"},
		"another lift off the plan": {in(mar(1), mar(1), func(m *nudge.Member) {
			m.LiftsOff = []nudge.LiftOff{{Lift: planner.Bench, From: mar(1), Until: mar(8)}}
		}), "03-02"},
		"after a practice meet": {in(mar(8), mar(8), func(m *nudge.Member) {
			m.Meets = append(m.Meets, planner.Meet{ID: 30, Name: "Cup", Date: mar(6), Kind: planner.TuneUp})
		}), "03-21"},
		"three weeks before the meet": {in(day(time.May, 22), day(time.May, 22)), ""},
		"before those three weeks":    {in(day(time.May, 19), day(time.May, 19)), "05-20"},
		"no plan":                     {in(mar(1), mar(1), func(m *nudge.Member) { m.Plan, m.Season = 0, planner.Season{} }), ""},
	} {
		if got := daysOf(c.m, nudge.Plateau); got != c.want {
			t.Errorf("%s: told on %q, want %q", name, got, c.want)
		}
	}
	n := ofKind(club(in(mar(1), mar(1))), nudge.Plateau)[0]
	if n.Key != "ana/plateau/b20270222/2027-02-22/squat" {
		t.Errorf("the key is %s", n.Key)
	}
	far := in(mar(1), mar(1))
	far.Zone = place(t, "Pacific/Auckland") // thirteen hours ahead of UTC in March
	if n := ofKind(club(far), nudge.Plateau)[0]; !n.Due.Equal(time.Date(2027, 3, 1, 19, 0, 0, 0, time.UTC)) {
		t.Errorf("in Auckland it is due at %s", n.Due)
	}
}

// keepStall lets the database hold what a member's facts say.
func keepStall(h house, st nudge.Stall) {
	h.update(func(tx *store.Tx) error {
		return tx.KeepReading(1, store.Reading{Lift: st.Lift, Day: st.Read, Kg: 120, Observations: 40, Verdict: st.Verdict, Reason: st.Reason, Stalled: st.First})
	})
}

// squats logs so many hard sets of squats on each of four days a week apart.
func squats(h house, from planner.Date, sets int) {
	h.update(func(tx *store.Tx) error {
		two := 2.0
		for w := range 4 {
			s := planner.Set{Day: from.AddDays(7 * w), Lift: planner.Squat, Weight: 100 * planner.Kilogram, Reps: 5, Sets: sets, Reserve: &two}
			if _, err := tx.AddSets(1, "", []planner.Set{s}, s.Day.At(time.UTC, 18, 0)); err != nil {
				return err
			}
		}
		return nil
	})
}

// The ways out fit the lifter: what is left undone of the plan comes first, then rest,
// then the amount of work. Sets of a strength block: 7 to 10 (common practice).
func TestWaysOutOfAPlateau(t *testing.T) {
	st := stall(day(time.April, 6), day(time.April, 6))
	two := 2
	for name, c := range map[string]struct {
		sets  int
		extra func(*store.Tx) error
		want  string
	}{
		"few sets":  {1, nil, "What usually helps: more of it (about 1 hard set a week in your log, 7 to 10 are usual in this block)."},
		"usual":     {8, nil, "What usually helps: one more hard set of it a week (about 8 now, 7 to 10 are usual in this block; your coach can set it)."},
		"many sets": {12, nil, `What usually helps: a close variant in its place for four weeks, such as paused squat (/week override lift:squat instead:"paused squat").`},
		"not done": {2, func(tx *store.Tx) error {
			d := load.Day{Date: day(time.March, 29), Work: []load.Work{{Lift: planner.Squat, Sets: 12, Reps: 5, Weight: 100 * planner.Kilogram}, {Lift: planner.Bench, Sets: 20}}}
			return tx.Prescribe(1, d, day(time.March, 29).At(time.UTC, 8, 0))
		}, "What usually helps: first the plan as it stands (8 of 12 planned sets of it are in the log of the last four weeks)."},
		"tired": {8, func(tx *store.Tx) error {
			for _, d := range []planner.Date{day(time.March, 21), day(time.March, 28)} {
				if err := tx.AddCheckIn(1, store.CheckIn{Day: d, Tired: &two}, d.At(time.UTC, 8, 0)); err != nil {
					return err
				}
			}
			return nil
		}, "What usually helps: rest before more work, since you said 'very tired' twice."},
	} {
		h := newHouse(t, club(ana()))
		squats(h, day(time.March, 11), c.sets)
		if c.extra != nil {
			h.update(c.extra)
		}
		keepStall(h, st)
		h.run(day(time.April, 7).At(time.UTC, 8, 0))
		var text string
		for _, p := range h.board.posts {
			if p.Key == "direct/ana/2027-04-07" {
				text = p.Message.Text
				if got := strings.Join(labels(p.Message), ", "); !strings.HasPrefix(got, "Show the lift, All right, ") {
					t.Errorf("%s: buttons %s", name, got)
				}
			}
		}
		want := "Your squat stands still for now. " + told21 + "\n" + c.want + "\nThis happens to everybody who trains for long, and nothing changes unless you want it."
		if !strings.Contains(text, want) {
			t.Errorf("%s: told\n%s\nwant\n%s\n(posts %q)", name, text, want, h.board.keys())
		}
	}
}

// A stall is nobody else's affair: in the channel it is a count, and the words come
// when the lifter presses 'Mine'.
func TestPlateauIsNeverToldByName(t *testing.T) {
	m := friend(1, "ana", "Ana")
	h := newHouse(t, club(m))
	keepStall(h, stall(day(time.March, 1), day(time.March, 1)))
	now := day(time.March, 2).At(time.UTC, 8, 0)
	h.run(now)
	for _, p := range h.board.posts {
		if strings.Contains(p.Message.Text, "squat") || strings.Contains(p.Message.Text, "Ana") {
			t.Errorf("the channel reads %q", p.Message.Text)
		}
	}
	h.update(func(tx *store.Tx) error {
		m, err := nudge.Mine(tx, 1, now)
		if err == nil && !strings.Contains(m.Text, "Your squat stands still for now.") {
			t.Errorf("Mine reads %q", m.Text)
		}
		return err
	})
}

// Erased, or gone from the club, nobody hears of it.
func TestPlateauOfWhoLeftIsNotTold(t *testing.T) {
	for name, leave := range map[string]func(*store.Tx) error{
		"erased": func(tx *store.Tx) error { return tx.EraseLifter(1) },
		"left":   func(tx *store.Tx) error { return tx.MarkLeft(1, 0, eight) },
	} {
		h := newHouse(t, club(ana()))
		keepStall(h, stall(day(time.March, 1), day(time.March, 1)))
		h.update(leave)
		h.run(day(time.March, 2).At(time.UTC, 8, 0))
		if len(h.board.posts) > 0 {
			t.Errorf("%s: %q", name, h.board.keys())
		}
	}
}
