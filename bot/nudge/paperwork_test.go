package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// papers lists what is due of the kinds given, as day and fact.
func papers(f nudge.Facts, kinds ...nudge.Kind) (out []string) {
	for _, n := range nudge.Due(f, yearFrom, yearTo) {
		if slices.Contains(kinds, n.Kind) {
			out = append(out, n.Day.String()+" "+n.Key[strings.LastIndex(n.Key, "/")+1:])
		}
	}
	return out
}

func with(change func(*nudge.Member)) nudge.Facts {
	m := ana()
	m.Meets = slices.Clone(m.Meets)
	change(&m)
	return club(m)
}

// The days are common practice; the meet is on Sat 12 June 2027.
func TestPaperworkOfAMeet(t *testing.T) {
	for _, c := range []struct {
		name  string
		kinds []nudge.Kind
		club  nudge.Facts
		want  []string
	}{
		{"checklist", []nudge.Kind{nudge.Checklist}, club(ana()), []string{"2027-05-01 -6w-kit", "2027-05-15 -4w-commands", "2027-06-05 -1w-kit"}},
		{"first meet", []nudge.Kind{nudge.Checklist}, with(func(m *nudge.Member) { m.Lifter.HasCompeted = false }),
			[]string{"2027-05-01 -6w-kit", "2027-05-15 -4w-commands", "2027-05-22 -3w-mock", "2027-06-05 -1w-kit"}},
		{"openers", []nudge.Kind{nudge.Openers}, club(ana()), []string{"2027-05-29 -2w", "2027-06-10 -2d"}},
		{"weigh-in", []nudge.Kind{nudge.WeighIn}, club(ana()), []string{"2027-06-11 -1d"}},
		{"above the class", []nudge.Kind{nudge.WeighIn}, with(func(m *nudge.Member) { m.Lifter.Class = planner.Class{Limit: 69 * planner.Kilogram} }),
			[]string{"2027-05-15 -4w", "2027-05-29 -2w", "2027-06-11 -1d"}},
		{"in the class of the entry", []nudge.Kind{nudge.WeighIn}, with(func(m *nudge.Member) {
			m.Lifter.Class, m.Meets[0].Class = planner.Class{Limit: 69 * planner.Kilogram}, planner.Class{Limit: 76 * planner.Kilogram}
		}), []string{"2027-06-11 -1d"}},
		{"no upper limit", []nudge.Kind{nudge.WeighIn}, with(func(m *nudge.Member) { m.Lifter.Class = planner.Class{Limit: 69 * planner.Kilogram, Plus: true} }), []string{"2027-06-11 -1d"}},
		{"entry", []nudge.Kind{nudge.EntryCloses}, with(func(m *nudge.Member) { m.Meets[0].EntryCloses = day(time.May, 20) }),
			[]string{"2027-04-29 -21d", "2027-05-13 -7d", "2027-05-18 -2d"}},
		{"entered", []nudge.Kind{nudge.EntryCloses}, with(func(m *nudge.Member) { m.Meets[0].EntryCloses, m.Meets[0].Entered = day(time.May, 20), true }), nil},
		{"after", []nudge.Kind{nudge.AfterMeet}, club(ana()), []string{"2027-06-13 +1d-result", "2027-06-19 +1w-review"}},
		{"after, result known", []nudge.Kind{nudge.AfterMeet}, with(func(m *nudge.Member) { m.Meets[0].ResultEntered = true }), []string{"2027-06-19 +1w-review"}},
		{"test day in the gym", []nudge.Kind{nudge.Checklist, nudge.Openers, nudge.WeighIn, nudge.AfterMeet},
			with(func(m *nudge.Member) { m.Meets[0].Kind = planner.Test }), nil},
	} {
		if got := papers(c.club, c.kinds...); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Nobody is told to make weight: the next class comes first, and first meets and
// the young lift in the class they weigh.
func TestClassComesBeforeAnyWordOfMakingWeight(t *testing.T) {
	above := func(m *nudge.Member) { m.Lifter.Class = planner.Class{Limit: 69 * planner.Kilogram} }
	text := told(t, with(above), day(time.May, 29), "direct/ana/2027-05-29").Message.Text
	class, weight := strings.Index(text, "next class"), strings.Index(text, "Making weight")
	if !strings.Contains(text, "1 kg above it") || class < 0 || weight < class || !strings.Contains(text, "can hurt") {
		t.Errorf("an experienced lifter reads %q", text)
	}
	for name, change := range map[string]func(*nudge.Member){
		"first meet": func(m *nudge.Member) { m.Lifter.HasCompeted = false },
		"under 18":   func(m *nudge.Member) { m.Lifter.Born = planner.NewDate(2010, time.January, 1) },
	} {
		f := with(func(m *nudge.Member) { above(m); change(m) })
		text := told(t, f, day(time.May, 29), "direct/ana/2027-05-29").Message.Text
		if !strings.Contains(text, "lift in the class you weigh") || strings.Contains(text, "Making weight") {
			t.Errorf("%s reads %q", name, text)
		}
	}
}

// Paperwork is personal: bodyweight, class, weigh-in and entries never stand in the
// club's post.
func TestPaperworkIsNeverPublic(t *testing.T) {
	f := with(func(m *nudge.Member) {
		m.Lifter.Nudges, m.Lifter.Class, m.Meets[0].EntryCloses = planner.Channel, planner.Class{Limit: 69 * planner.Kilogram}, day(time.May, 20)
	})
	h := newHouse(t, f)
	h.walk(yearFrom, yearTo)
	for _, p := range h.board.posts {
		for _, word := range []string{"class", "weigh", "entry", "opener", "kit"} {
			if strings.Contains(strings.ToLower(p.Message.Text), word) {
				t.Errorf("%s says %q", p.Key, p.Message.Text)
			}
		}
	}
	if len(h.board.posts) < 10 {
		t.Errorf("only %d posts", len(h.board.posts))
	}
}
