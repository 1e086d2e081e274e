package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// overlong is a lifter whose peaking has outlived its plan: the meet was moved to
// the autumn. That is told once a week.
func overlong() nudge.Member {
	m := ana()
	m.Meets = slices.Clone(m.Meets)
	m.Meets[0].Date = day(time.December, 4)
	return m
}

// longPosts lists the direct posts that speak of long peaking.
func longPosts(h house) (posts []chat.Post) {
	for _, p := range h.board.posts {
		if strings.Contains(strings.Join(p.Facts, " "), "/peaking-long/") {
			posts = append(posts, p)
		}
	}
	return posts
}

func pressOn(h house, p chat.Post, label string, now time.Time) {
	h.t.Helper()
	b, _ := pressed(h, p, label, 1)
	h.update(func(tx *store.Tx) error { _, err := tx.UseButton(b.Token, 1, now); return err })
}

// Two go unanswered, the third asks, and without an answer there is no fourth.
func TestUnansweredKindAsksOnceAndStops(t *testing.T) {
	h := newHouse(t, club(overlong()))
	from, to := day(time.June, 1).At(time.UTC, 0, 0), day(time.September, 1).At(time.UTC, 0, 0)
	h.walk(from, to)
	posts := longPosts(h)
	if len(posts) != 3 {
		t.Fatalf("told %d times, want two, then the question", len(posts))
	}
	for i, p := range posts {
		asks := slices.Contains(labels(p.Message), "Keep them") && strings.Contains(p.Message.Text, "Fewer of them?")
		if asks != (i == 2) {
			t.Errorf("post %d asks: %t (%q)", i+1, asks, p.Message.Text)
		}
	}
	var skipped int
	h.update(func(tx *store.Tx) error {
		facts, err := tx.Facts(1, 100)
		for _, f := range facts {
			if f.Kind == "peaking-long" && f.State == store.FactSkipped && f.Reason == "the last ones went unanswered" {
				skipped++
			}
		}
		return err
	})
	if skipped < 4 {
		t.Errorf("%d skipped with the reason, want the weeks after the question", skipped)
	}
	// Asked for again, it comes again, and asks again after two more.
	h.update(func(tx *store.Tx) error { return tx.KeepNudge(1, "peaking-long", to) })
	h.walk(to, to.AddDate(0, 2, 0))
	if posts = longPosts(h); len(posts) != 6 || !slices.Contains(labels(posts[5].Message), "Keep them") {
		t.Errorf("after it was asked for: %d told", len(posts))
	}
}

// Whoever presses something has answered.
func TestAnsweredKindGoesOn(t *testing.T) {
	h := newHouse(t, club(overlong()))
	from, to := day(time.June, 1).At(time.UTC, 0, 0), day(time.September, 1).At(time.UTC, 0, 0)
	for at := from; at.Before(to); at = at.AddDate(0, 0, 7) {
		had := len(longPosts(h))
		h.walk(at, at.AddDate(0, 0, 7))
		if posts := longPosts(h); len(posts) > had {
			pressOn(h, posts[len(posts)-1], "Remind me tomorrow", at.AddDate(0, 0, 7))
		}
	}
	posts := longPosts(h)
	if len(posts) < 8 {
		t.Fatalf("told %d times in three months, want each week", len(posts))
	}
	for _, p := range posts {
		if slices.Contains(labels(p.Message), "Keep them") {
			t.Errorf("%s asks although it was answered", p.Key)
		}
	}
}

// crowded is a lifter with many things to be told around the end of a block.
func crowded() nudge.Member {
	m := ana()
	m.Meets = append(slices.Clone(m.Meets),
		planner.Meet{ID: 20, Name: "Harbour Cup", Date: day(time.March, 31), Kind: planner.TuneUp, EntryCloses: day(time.February, 26)},
		planner.Meet{ID: 21, Name: "Hill Cup", Date: day(time.April, 1), Kind: planner.TuneUp},
		planner.Meet{ID: 22, Name: "Lake Cup", Date: day(time.March, 19), Kind: planner.TuneUp, ResultEntered: true},
		planner.Meet{ID: 23, Name: "Moor Cup", Date: day(time.April, 3), Kind: planner.TuneUp})
	return m
}

// personal kinds that can wait, by the ledger keys of a post.
func canWait(p chat.Post) bool {
	for _, key := range p.Facts {
		for _, k := range nudge.Kinds() {
			if k.Audience == nudge.Personal && !k.Urgent && strings.Contains(key, "/"+string(k.Kind)+"/") && !strings.Contains(key, "again-") {
				return true
			}
		}
	}
	return false
}

// At most two personal messages in any seven days, beyond what cannot wait; the
// rest waits as long as it is worth saying, and then the ledger says why it was
// not said.
func TestBudgetOfAWeek(t *testing.T) {
	h := newHouse(t, club(crowded()))
	h.walk(day(time.January, 4).At(time.UTC, 9, 0), day(time.June, 30).At(time.UTC, 0, 0))
	var at []time.Time
	urgent := 0
	for _, p := range h.board.posts {
		if p.To.Person == "" {
			continue
		}
		if canWait(p) {
			at = append(at, p.At)
		} else {
			urgent++
		}
	}
	for i := 2; i < len(at); i++ {
		if gap := at[i].Sub(at[i-2]); gap < 7*24*time.Hour {
			t.Errorf("three messages that can wait within %s: %s, %s, %s", gap, at[i-2], at[i-1], at[i])
		}
	}
	if len(at) < 6 || urgent == 0 {
		t.Errorf("%d messages that can wait and %d that cannot: too few to prove anything", len(at), urgent)
	}
	held := 0
	h.update(func(tx *store.Tx) error {
		facts, err := tx.Facts(1, 200)
		for _, f := range facts {
			if f.Reason == "told enough that week" {
				held++
				if spec := specOf(f.Kind); spec.Urgent || spec.Audience != nudge.Personal {
					t.Errorf("%s was held back", f.Key)
				}
			}
		}
		return err
	})
	if held == 0 {
		t.Error("nothing was held back, so nothing was proved")
	}
}

func specOf(kind string) nudge.Spec {
	for _, k := range nudge.Kinds() {
		if string(k.Kind) == kind {
			return k
		}
	}
	return nudge.Spec{}
}

// A clock that was wrong for a while repeats nothing and loses nothing that is
// still to come.
func TestClockThatRanAhead(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.run(eight)
	h.run(eight.AddDate(3, 0, 0))
	said := len(h.board.posts)
	h.run(eight.Add(time.Hour))
	if len(h.board.posts) != said {
		t.Fatalf("posted again after the clock went back: %q", h.board.keys())
	}
	h.walk(eight.Add(time.Hour), eight.AddDate(0, 1, 0))
	if keys := strings.Join(h.board.keys(), " "); !strings.Contains(keys, "club/2027-02-22") {
		t.Errorf("the begin of the next block was lost: %s", keys)
	}
}
