package nudge_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// What was missed does not ring at night: the next run that may speak is at the
// hour of the next day, and Next names exactly that.
func TestMissedByDayWaitsForTheMorning(t *testing.T) {
	for _, tt := range []struct {
		name string
		up   time.Time
		want time.Time
	}{
		{"back in the evening", eight.Add(13 * time.Hour), eight.Add(24 * time.Hour)},
		{"back before dawn", eight.Add(19*time.Hour + 20*time.Second), eight.Add(24 * time.Hour)},
		{"back at noon", eight.Add(4*time.Hour + 20*time.Second), eight.Add(4*time.Hour + time.Minute)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := ana()
			m.Making.Training.Weeks = store.OwnWeeks // no easy week of the plan is in the way
			h := newHouse(t, club(m))
			at, ok, err := h.Next(t.Context(), tt.up, tt.up.AddDate(0, 0, 2))
			if err != nil || !ok || !at.Equal(tt.want) {
				t.Fatalf("next is %s, %t, %v; want %s", at, ok, err, tt.want)
			}
			h.run(at.Add(-time.Second))
			if early := len(h.board.posts); early != 0 && tt.want.Sub(tt.up) > time.Hour {
				t.Errorf("posted before: %q", h.board.keys())
			}
			h.run(at)
			if want := []string{"direct/ana/" + planner.DateOf(at).String()}; !slices.Equal(h.board.keys(), want) {
				t.Errorf("posted %q, want %q", h.board.keys(), want)
			}
		})
	}
}

// A reminder of something that stood by name in the club's post is the lifter's
// own affair: it is counted, not named again.
func TestReminderOfNewsIsNotByName(t *testing.T) {
	h := newHouse(t, club(friend(1, "ana", "Ana")))
	begins := day(time.February, 22).At(time.UTC, 8, 0)
	h.run(begins)
	_, own := pressed(h, h.board.posts[0], "Remind me tomorrow", 1)
	h.update(func(tx *store.Tx) error { return tx.Snooze(1, own[0].Key, begins.Add(20*time.Hour)) })
	h.walk(begins, begins.Add(30*time.Hour))
	if got := h.board.posts[len(h.board.posts)-1].Message.Text; len(h.board.posts) != 2 || got != "1 lifter has something new." {
		t.Errorf("%d posts, the last says %q", len(h.board.posts), got)
	}
}

// A meet entered on the day of one of its steps, after the club's post of that day,
// is not told a day late: the words would be wrong by then.
func TestStepThatCameUpAfterTheDaysPostIsSkipped(t *testing.T) {
	h := newHouse(t, club(friend(1, "ana", "Ana")))
	h.run(eight)
	noon := eight.Add(4 * time.Hour)
	h.update(func(tx *store.Tx) error {
		_, err := tx.AddMeet(planner.Meet{Lifter: 1, Name: "Harbour Cup", Date: day(time.February, 25), Kind: planner.Test, Event: planner.Full, Equipment: planner.Raw}, noon)
		return err
	})
	h.walk(noon, noon.Add(30*time.Hour))
	if len(h.board.posts) != 1 {
		t.Errorf("posted %q", h.board.keys())
	}
	var skipped []store.Fact
	h.update(func(tx *store.Tx) error {
		facts, err := tx.Facts(1, 50)
		for _, f := range facts {
			if strings.HasSuffix(f.Key, "/2027-02-25/-1w") && f.State == store.FactSkipped && f.Reason == "told too late for the day's post" {
				skipped = append(skipped, f)
			}
		}
		return err
	})
	if len(skipped) != 1 {
		t.Errorf("%d facts skipped as told too late, want 1", len(skipped))
	}
}

// What was posted is written down even when the context ends in that moment.
func TestPostIsConfirmedAlthoughTheContextEnds(t *testing.T) {
	h := newHouse(t, club(ana()))
	ctx, die := context.WithCancel(t.Context())
	h.board.after = func(chat.Post) error {
		die()
		return nil
	}
	if err := h.Run(ctx, eight); err == nil {
		t.Error("the run does not tell that its context ended")
	}
	expectSent(t, h, 1)
}
