package nudge_test

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// worked is a member whose last logged day is the last of some training days, two days
// apart, with so many sets of so many repetitions each.
func worked(m nudge.Member, last planner.Date, days, sets int, reps ...int) nudge.Member {
	for d := range days {
		for i, r := range reps {
			two := 2.0
			m.Recent = append(m.Recent, planner.Set{Day: last.AddDays(-2 * (days - 1 - d)), Seq: i + 1, Lift: planner.Squat, Weight: 100 * planner.Kilogram, Reps: r, Sets: sets, Reserve: &two})
		}
	}
	m.LastLogged = last
	return m
}

// Two whole weeks of a strength block, which is for sets of 2 to 6: told on the Monday
// after, once for each block. Ana's strength block runs from Mon 22 February.
func TestWorkThatDoesNotFitIsToldOnAMonday(t *testing.T) {
	sat := day(time.March, 13)
	mar := func(d int) planner.Date { return day(time.March, d) }
	for name, c := range map[string]struct {
		m    nudge.Member
		want string
	}{
		"long sets":       {worked(ana(), sat, 7, 3, 10), "03-08"},
		"work as planned": {worked(ana(), sat, 7, 3, 5), ""},
		"far apart":       {worked(ana(), sat, 7, 3, 10, 3, 5), "03-08"},
		"six in ten fit":  {worked(ana(), sat, 7, 2, 5, 5, 5, 7, 7), ""},
		"little work":     {worked(ana(), sat, 2, 3, 10), ""},
		"own weeks":       {func() nudge.Member { m := worked(ana(), sat, 7, 3, 10); m.Making.Own = true; return m }(), ""},
		"club's own table": {func() nudge.Member {
			m := worked(ana(), sat, 7, 3, 10)
			m.Making.Tables = map[planner.BlockKind]bool{planner.Strength: true}
			return m
		}(), ""},
		"one week of the block": {worked(ana(), day(time.February, 27), 7, 3, 10), ""},
		"away then": {func() nudge.Member {
			m := worked(ana(), sat, 7, 3, 10)
			m.Aways = []nudge.Away{{From: mar(8), To: mar(16)}}
			return m
		}(), ""},
		"no plan": {func() nudge.Member {
			m := worked(ana(), sat, 7, 3, 10)
			m.Plan, m.Season = 0, planner.Season{}
			return m
		}(), ""},
		"told in the same block": {worked(ana(), mar(20), 10, 3, 10), "03-15"},
	} {
		if got := daysOf(c.m, nudge.WorkFit); got != c.want {
			t.Errorf("%s: told on %q, want %q", name, got, c.want)
		}
	}
}

func TestWordsOfWorkThatDoesNotFit(t *testing.T) {
	m := worked(ana(), day(time.March, 7), 4, 3, 10)
	h := newHouse(t, club(m))
	h.update(func(tx *store.Tx) error {
		_, err := tx.AddSets(1, "", m.Recent, day(time.March, 7).At(time.UTC, 18, 0))
		return err
	})
	h.run(day(time.March, 8).At(time.UTC, 8, 0))
	want := "0 of your 12 hard sets (no warm-ups) of the last two weeks have the 2 to 6 repetitions that your strength block is for.\n" +
		"Nothing of it is lost, but it builds something else than what comes next asks for. Your week as planned: /week.\n" +
		"If you train by a plan of your own, say so below, and I stop comparing."
	if len(h.board.posts) != 1 || h.board.posts[0].Message.Text != want {
		t.Fatalf("told %+v\nwant %q", h.board.posts, want)
	}
	if got := strings.Join(labels(h.board.posts[0].Message), ", "); got != "I train by my own plan, All right, Fewer of these" {
		t.Errorf("buttons %s", got)
	}
}
