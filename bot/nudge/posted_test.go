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

// enter adds a meet of a lifter for the day after eight.
func enter(h house, lifter planner.LifterID, name string, now time.Time) {
	h.t.Helper()
	h.update(func(tx *store.Tx) error {
		_, err := tx.AddMeet(planner.Meet{Lifter: lifter, Name: name, Date: day(time.February, 19), Kind: planner.TuneUp, Event: planner.Full, Equipment: planner.Raw}, now)
		return err
	})
}

// Three lifters enter tomorrow's meet at noon. The first opens the day's post; of
// the others, one is told directly and one is not told, which the ledger explains.
func TestCountdownAfterTheDaysPostDoesNotVanish(t *testing.T) {
	plain := func(id planner.LifterID, handle string, where planner.Where) nudge.Member {
		m := friend(id, handle, handle)
		m.Plan, m.Season, m.Meets, m.Lifter.Nudges = 0, planner.Season{}, nil, where
		return m
	}
	h := newHouse(t, club(plain(1, "ana", planner.Channel), plain(2, "ben", planner.Direct), plain(3, "cy", planner.Channel)))
	noon := eight.Add(4 * time.Hour)
	for i, at := range []time.Time{noon, noon.Add(time.Minute), noon.Add(2 * time.Minute)} {
		enter(h, planner.LifterID(i+1), "Harbour Cup", at)
		h.run(at)
	}
	enter(h, 2, "Hill Cup", noon.Add(3*time.Minute))
	h.run(noon.Add(3 * time.Minute))
	want := []string{"club/2027-02-18", "direct/ben/2027-02-18", "direct/ben/2027-02-18/2"}
	if !slices.Equal(h.board.keys(), want) {
		t.Fatalf("posted %q, want %q", h.board.keys(), want)
	}
	for i, said := range []string{"Practice meet Harbour Cup is tomorrow: ana", "Practice meet Harbour Cup is tomorrow", "Practice meet Hill Cup is tomorrow"} {
		if p := h.board.posts[i]; !strings.Contains(p.Message.Text, said) {
			t.Errorf("%s says %q, want %q", p.Key, p.Message.Text, said)
		}
	}
	if f := h.fact(factOf(h, 3)); f.State != store.FactSkipped || f.Reason != "told too late for the day's post" {
		t.Errorf("of Cy the ledger says %+v", f)
	}
	if runs := h.walk(noon.Add(3*time.Minute), noon.Add(12*time.Hour)); runs != 0 {
		t.Errorf("%d more runs, want none", runs)
	}
}

// factOf is the key of a lifter's fact of the day before a meet.
func factOf(h house, lifter planner.LifterID) (key string) {
	h.t.Helper()
	h.update(func(tx *store.Tx) error {
		facts, err := tx.Facts(lifter, 10)
		for _, f := range facts {
			if strings.HasSuffix(f.Key, "/-1d") {
				key = f.Key
			}
		}
		return err
	})
	return key
}

// What came up after its hour does not claim to be older than it is.
func TestPostAppearsNoEarlierThanItWasQueued(t *testing.T) {
	h := newHouse(t, club(friend(1, "ana", "Ana")))
	noon := eight.Add(4 * time.Hour)
	h.run(noon)
	if p := h.board.posts[0]; !p.At.Equal(noon) {
		t.Errorf("%s appears at %s, want %s", p.Key, p.At, noon)
	}
}

// Whose block ends is nobody else's affair, least of all where the meet behind a
// peak was moved or dropped.
func TestEndOfABlockIsNeverToldByName(t *testing.T) {
	moved, dropped, asks := friend(1, "ana", "Ana"), friend(2, "ben", "Ben"), friend(3, "cy", "Cy")
	moved.Meets[0].Date = day(time.July, 24)
	dropped.Meets = nil
	asks.Lifter.Nudges = planner.Ask
	h := newHouse(t, club(moved, dropped, asks))
	at := day(time.June, 8).At(time.UTC, 8, 0)
	h.run(at)
	if p := h.board.posts[len(h.board.posts)-1]; p.Message.Text != "2 lifters have something new." {
		t.Errorf("the club reads %q", p.Message.Text)
	}
	h.update(func(tx *store.Tx) error {
		m, err := nudge.Mine(tx, 1, at.Add(time.Hour))
		if want := "River Open is no longer on Sat 12 June"; !strings.Contains(m.Text, want) {
			t.Errorf("Mine says %q, want in it %q", m.Text, want)
		}
		return err
	})
	if f := h.fact("cy/block-end/b20270510/2027-06-11/-3d"); f.State != store.FactSkipped {
		t.Errorf("of who asked to be left alone the ledger says %+v", f)
	}
}

// Three days before a meet nobody wants to hear of the next plan.
func TestEndOfAPeakDoesNotSpeakOfTheNextPlan(t *testing.T) {
	m := ana()
	m.Season.Blocks = m.Season.Blocks[:3]
	p := told(t, club(m), day(time.June, 8), "direct/ana/2027-06-08")
	if want := "the day before River Open.\nThat is the date in the plan you agreed to.\nNothing to add now: what is left is in /week."; !strings.HasSuffix(p.Message.Text, want) {
		t.Errorf("Ana reads %q, want at its end %q", p.Message.Text, want)
	}
}

// A gathered button says whom it does something for.
func TestButtonsOfTheClubPostNameWhomTheyAreFor(t *testing.T) {
	h := newHouse(t, club(friend(1, "ana", "Ana"), friend(2, "ben", "Ben")))
	h.update(func(tx *store.Tx) error {
		_, err := tx.AddLifter(planner.Lifter{Handle: "cap", Name: "Cap", Unit: planner.KG}, eight)
		return err
	})
	h.run(day(time.February, 22).At(time.UTC, 8, 0))
	for _, b := range h.board.posts[0].Message.Buttons {
		if !slices.Equal(b.For, []string{"ana", "ben"}) || b.Owner != "" {
			t.Errorf("%q is for %q, owner %q", b.Label, b.For, b.Owner)
		}
	}
}

// Where a short block has come and gone while another waited, what waits is the
// block that the plan has today.
func TestWhatWaitsIsTheBlockOfTheDay(t *testing.T) {
	f := club(ana())
	f.Ask = true
	s := &f.Members[0].Season
	short := planner.Block{Kind: planner.Recovery, Start: day(time.February, 22), End: day(time.February, 25), Weeks: 1}
	s.Blocks[1].Start = day(time.February, 26)
	s.Blocks = slices.Insert(s.Blocks, 1, short)
	s.Begun = make([]planner.Date, len(s.Blocks))
	h := newHouse(t, f)
	h.run(day(time.February, 27).At(time.UTC, 8, 0))
	p := h.board.posts[len(h.board.posts)-1]
	if want := "By plan the next is strength block, from Fri 26 February"; !strings.Contains(p.Message.Text, want) {
		t.Errorf("Ana reads %q, want %q", p.Message.Text, want)
	}
	if _, own := pressed(h, p, "Begin it", 1); len(own) != 1 || own[0].Index != 2 {
		t.Errorf("'Begin it' settles %+v, want block 2", own)
	}
}
