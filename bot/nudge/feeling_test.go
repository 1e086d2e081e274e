package nudge_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// said is a member with answers on Sundays from a day on: "t" very tired, "s" stale,
// "b" both, "." neither, a blank for none.
func said(m nudge.Member, from planner.Date, answers string) nudge.Member {
	for w, a := range answers {
		in := nudge.CheckIn{Day: from.AddDays(7 * w)}
		switch a {
		case 't':
			in.Tired = 2
		case 's':
			in.Stale = 2
		case 'b':
			in.Tired, in.Stale = 2, 2
		case ' ':
			continue
		}
		m.CheckIns = append(m.CheckIns, in)
	}
	return m
}

// The day after the second such answer running, once for a run. Sundays from 7 March
// on; the strength block has easy weeks from 22 March and from 3 May.
func TestVeryTiredTwiceIsAnswered(t *testing.T) {
	march := day(time.March, 7)
	for answers, want := range map[string]string{
		"t.t": "", ".tt": "" /* an easy week begins */, "tttt": "03-15", "tt.tt": "03-15 04-05", "t  t": "03-29", "t   t": "", "..": "", "ss": "",
	} {
		if got := daysOf(said(ana(), march, answers), nudge.VeryTired); got != want {
			t.Errorf("%q: told on %q, want %q", answers, got, want)
		}
	}
	if got := daysOf(said(ana(), day(time.April, 18), "tt"), nudge.VeryTired); got != "04-26" {
		t.Errorf("a week before the easy week: told on %q", got)
	}
	if got := daysOf(said(ana(), day(time.April, 25), "tt"), nudge.VeryTired); got != "" {
		t.Errorf("the easy week begins on that day: told on %q", got)
	}
	away := said(ana(), march, "tt")
	away.Aways = []nudge.Away{{From: day(time.March, 18), To: day(time.March, 25)}}
	if got := daysOf(away, nudge.VeryTired); got != "" {
		t.Errorf("away within the week: told on %q", got)
	}
	alone := said(ana(), march, "tt")
	alone.Plan, alone.Season = 0, planner.Season{}
	if got := daysOf(alone, nudge.VeryTired); got != "03-15" {
		t.Errorf("without a plan: told on %q", got)
	}
	alone.Zone = place(t, "America/Los_Angeles") // eight hours behind in winter, seven from 14 March
	if n := ofKind(club(alone), nudge.VeryTired)[0]; !n.Due.Equal(time.Date(2027, 3, 15, 15, 0, 0, 0, time.UTC)) {
		t.Errorf("in Los Angeles it is due at %s", n.Due)
	}
}

// longMuscle is Ana with a muscle block of twelve weeks, to 28 March, and an easy
// week here and there.
func longMuscle() nudge.Member {
	m := ana()
	b := m.Season.Blocks
	b[0].End, b[0].Weeks = day(time.March, 28), 12
	b[1].Start, b[1].Weeks = day(time.March, 29), 6
	return m
}

// From the eighth week of a muscle block on, the usual length (common practice), the
// sixth for novices.
func TestStaleInALongMuscleBlock(t *testing.T) {
	feb := day(time.February, 7) // the end of week 5
	if got := daysOf(said(longMuscle(), feb, "ss"), nudge.Stale); got != "" {
		t.Errorf("in week 7: told on %q", got)
	}
	if got := daysOf(said(longMuscle(), feb, "..ss"), nudge.Stale); got != "03-01" {
		t.Errorf("in week 9: told on %q", got)
	}
	if got := daysOf(said(longMuscle(), feb, "..ssss"), nudge.Stale); got != "03-01" {
		t.Errorf("for long: told on %q", got)
	}
	if got := daysOf(said(longMuscle(), feb, "sssssss"), nudge.Stale); got != "02-22" {
		t.Errorf("since before week 8: told on %q", got)
	}
	if got := daysOf(said(longMuscle(), feb, ".....ss"), nudge.Stale); got != "" {
		t.Errorf("in the last week: told on %q", got)
	}
	if got := daysOf(said(ana(), day(time.March, 14), "ss"), nudge.Stale); got != "" {
		t.Errorf("in a strength block: told on %q", got)
	}
	novice := said(longMuscle(), feb, "ss")
	novice.Lifter.Level = planner.Novice
	if got := daysOf(novice, nudge.Stale); got != "02-15" {
		t.Errorf("a novice in week 7: told on %q", got)
	}
}

func TestWordsOfTiredAndStale(t *testing.T) {
	m := said(longMuscle(), day(time.February, 21), "bb")
	m.Detail = json.RawMessage(`{"boundaries":[{"date":"2027-03-29","earlier_cost_percent":0.12,"later_cost_percent":null}]}`)
	texts := map[nudge.Kind]string{
		nudge.VeryTired: "You said 'very tired' twice running, Sun 21 February and Sun 28 February.\n" +
			"Training works as far as you recover from it: sleep and food first, then a week with one set less of everything and nothing very heavy.\n" +
			"'Take it easier' keeps the heaviest work out of your weeks until you want it back. If it stays like this, talk to your coach or a doctor.",
		nudge.Stale: "Week 9 of your muscle block (hypertrophy), and you said 'stale' twice running. 8 weeks are usual, yours is planned to Sun 28 March.\n" +
			"A change of work is a good answer to that: strength block could begin next week. By the planner's measure a week earlier costs 0.1 %: no real difference.\n" +
			"'Change sooner' shows you that plan; nothing changes before you accept it.",
	}
	buttons := map[nudge.Kind]string{nudge.VeryTired: "Take it easier, All right, Fewer of these", nudge.Stale: "Change sooner, All right, Fewer of these"}
	for k, want := range texts {
		n := ofKind(club(m), k)
		if len(n) != 1 {
			t.Fatalf("%s is due %d times", k, len(n))
		}
		h := newHouse(t, club(m))
		h.update(func(tx *store.Tx) error {
			two := 2
			for _, c := range m.CheckIns {
				in := store.CheckIn{Day: c.Day, Tired: &two, Stale: &two}
				if k == nudge.VeryTired {
					in.Stale = nil
				} else {
					in.Tired = nil
				}
				if err := tx.AddCheckIn(1, in, eight); err != nil {
					return err
				}
			}
			return nil
		})
		h.run(n[0].Due)
		text, shown := "", ""
		for _, p := range h.board.posts {
			if p.To.Person == "ana" {
				text, shown = p.Message.Text, strings.Join(labels(p.Message), ", ")
			}
		}
		if k == nudge.Stale { // the plan of the test's database does not say what it costs
			want = strings.Replace(want, " By the planner's measure a week earlier costs 0.1 %: no real difference.", "", 1)
		}
		if text != want || shown != buttons[k] {
			t.Errorf("%s: told\n%s\nwant\n%s\nbuttons %s", k, text, want, shown)
		}
	}
}
