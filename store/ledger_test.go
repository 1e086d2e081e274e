package store_test

import (
	"encoding/json"
	"fmt"
	"sync"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

const lease = 30 * time.Second

// aPost is a direct message due now.
func aPost(key string) store.OutPost {
	return store.OutPost{Key: key, Channel: "c1", Person: "ana", Body: json.RawMessage(`{"text":"Block ends."}`), Due: now}
}

// queue puts a post with one fact of the same key into the ledger.
func queue(t testing.TB, s *store.Store, key string, who planner.LifterID) (fresh bool) {
	t.Helper()
	update(t, s, func(tx *store.Tx) (err error) {
		fresh, err = tx.QueuePost(aPost(key), []store.Fact{{Key: key, Lifter: who, Kind: "block-end", Due: now}}, now)
		return err
	})
	return fresh
}

// claim takes what is due at a moment.
func claim(t testing.TB, s *store.Store, at time.Time, limit int) (posts []store.OutPost) {
	t.Helper()
	update(t, s, func(tx *store.Tx) (err error) { posts, err = tx.ClaimPosts(at, lease, limit); return err })
	return posts
}

// state returns the state and reason of a fact.
func state(t testing.TB, s *store.Store, key string) string {
	t.Helper()
	var f store.Fact
	var ok bool
	view(t, s, func(tx *store.Tx) (err error) { f, ok, err = tx.KnownFact(key); return err })
	if !ok {
		return "unknown"
	}
	return string(f.State) + " " + f.Reason
}

func TestQueuePostOnce(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	if !queue(t, s, "ana/1", ana) || queue(t, s, "ana/1", ana) {
		t.Fatal("a post is fresh the first time and only then")
	}
	second := aPost("digest")
	update(t, s, func(tx *store.Tx) error {
		_, err := tx.QueuePost(second, []store.Fact{
			{Key: "ana/1", Lifter: ana, Kind: "block-end", Due: now.Add(time.Hour)}, // known already
			{Key: "club/2", Kind: "digest", Due: now},
		}, now)
		return err
	})
	got := claim(t, s, now, 10)
	want := []store.OutPost{aPost("ana/1"), second}
	for i, facts := range [][]string{{"ana/1"}, {"club/2"}} {
		want[i].State, want[i].Attempts, want[i].ClaimedUntil, want[i].Facts = store.PostClaimed, 1, now.Add(lease), facts
	}
	same(t, "claimed posts", got, want)
	view(t, s, func(tx *store.Tx) error {
		f, _, err := tx.KnownFact("ana/1")
		same(t, "a fact", f, store.Fact{Key: "ana/1", Lifter: ana, Kind: "block-end", Due: now, State: store.FactPlanned, Post: "ana/1"})
		return err
	})
}

func TestClaimOnlyWhatIsDueInOrder(t *testing.T) {
	s := storetest.New(t)
	update(t, s, func(tx *store.Tx) error {
		for i, key := range []string{"c", "a", "b", "later"} {
			p := aPost(key)
			p.Due = now.Add(time.Duration(i/3)*time.Minute - time.Duration(i)*time.Second)
			if _, err := tx.QueuePost(p, nil, now); err != nil {
				return err
			}
		}
		return nil
	})
	var keys []string
	for _, limit := range []int{2, 2} {
		for _, p := range claim(t, s, now, limit) {
			keys = append(keys, p.Key)
		}
	}
	same(t, "claims", keys, []string{"b", "a", "c"})
}

func TestClaimIsExclusive(t *testing.T) {
	s := storetest.New(t)
	const posts, workers = 40, 8
	for i := range posts {
		queue(t, s, fmt.Sprint("p", i), 0)
	}
	var mu sync.Mutex
	times := map[string]int{}
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() {
			for {
				var got []store.OutPost
				err := s.Update(t.Context(), func(tx *store.Tx) (err error) { got, err = tx.ClaimPosts(now, lease, 3); return err })
				if err != nil {
					t.Error(err)
				}
				if len(got) == 0 {
					return
				}
				mu.Lock()
				for _, p := range got {
					times[p.Key]++
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	if len(times) != posts {
		t.Errorf("%d posts were claimed, want %d", len(times), posts)
	}
	for key, n := range times {
		if n != 1 {
			t.Errorf("%s was claimed %d times", key, n)
		}
	}
}

func TestClaimAgainAfterTheLease(t *testing.T) {
	s := storetest.New(t)
	queue(t, s, "p", 0)
	claim(t, s, now, 1)
	s = storetest.Reopen(t, s) // the sender died
	if got := claim(t, s, now.Add(lease-time.Millisecond), 1); len(got) != 0 {
		t.Error("a post was claimed twice within the lease")
	}
	got := claim(t, s, now.Add(lease), 1)
	if len(got) != 1 || got[0].Attempts != 2 {
		t.Errorf("after the lease: %+v, want the second attempt", got)
	}
}

func TestConfirmSettlesFacts(t *testing.T) {
	s := storetest.New(t)
	queue(t, s, "p", 0)
	claim(t, s, now, 1)
	confirm := func(key string) error {
		return s.Update(t.Context(), func(tx *store.Tx) error { return tx.ConfirmPost(key, "c1/77", now) })
	}
	for range 2 { // the second time after a look-back
		if err := confirm("p"); err != nil {
			t.Fatal(err)
		}
	}
	if got := state(t, s, "p"); got != "sent " {
		t.Errorf("the fact is %q", got)
	}
	if got := claim(t, s, now.Add(time.Hour), 1); len(got) != 0 {
		t.Error("a sent post was claimed")
	}
	wantKind(t, confirm("unknown"), planner.NotFound)
	bury := func(tx *store.Tx) error { return tx.BuryPost("p", "too late", now) }
	wantKind(t, s.Update(t.Context(), bury), planner.Conflict)
	delay := func(tx *store.Tx) error { return tx.DelayPost("p", now, "busy") }
	wantKind(t, s.Update(t.Context(), delay), planner.Conflict)
}

func TestDelayedPostIsDueAgain(t *testing.T) {
	s := storetest.New(t)
	queue(t, s, "p", 0)
	claim(t, s, now, 1)
	update(t, s, func(tx *store.Tx) error { return tx.DelayPost("p", now.Add(time.Minute), "busy") })
	if got := claim(t, s, now.Add(59*time.Second), 1); len(got) != 0 {
		t.Error("a delayed post was claimed too early")
	}
	got := claim(t, s, now.Add(time.Minute), 1)
	if len(got) != 1 || got[0].Attempts != 2 || got[0].Reason != "busy" {
		t.Errorf("after the delay: %+v", got)
	}
}

func TestBuriedPostSkipsItsFacts(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	queue(t, s, "p", ana)
	update(t, s, func(tx *store.Tx) error { return tx.BuryPost("p", "too late", now) })
	update(t, s, func(tx *store.Tx) error { return tx.BuryPost("p", "again", now) })
	if got := state(t, s, "p"); got != "skipped too late" {
		t.Errorf("the fact is %q", got)
	}
	if got := claim(t, s, now.Add(time.Hour), 1); len(got) != 0 {
		t.Error("a dead post was claimed")
	}
	confirm := func(tx *store.Tx) error { return tx.ConfirmPost("p", "r", now) }
	wantKind(t, s.Update(t.Context(), confirm), planner.Conflict)
}

func TestSkippedFactsStayAsTheyAre(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	queue(t, s, "told", ana)
	update(t, s, func(tx *store.Tx) error {
		return tx.SkipFacts([]store.Fact{
			{Key: "told", Lifter: ana, Kind: "silence", Due: now},
			{Key: "missed", Lifter: ana, Kind: "silence", Due: now.Add(time.Hour)},
		}, "was down", now)
	})
	for key, want := range map[string]string{"told": "planned ", "missed": "skipped was down", "other": "unknown"} {
		if got := state(t, s, key); got != want {
			t.Errorf("%s is %q, want %q", key, got, want)
		}
	}
	view(t, s, func(tx *store.Tx) error {
		facts, err := tx.Facts(ana, 10)
		if len(facts) != 2 || facts[0].Key != "missed" || facts[1].Key != "told" {
			t.Errorf("facts newest first: %+v", facts)
		}
		return err
	})
}

func TestWishesAreKept(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	update(t, s, func(tx *store.Tx) error {
		for _, err := range []error{
			tx.SetNudge(ana, "silence", false), tx.SetNudge(ana, "silence", false), tx.SetNudge(ana, "plateau", false),
			tx.SetNudge(ana, "plateau", true), tx.Snooze(ana, "k", now), tx.Snooze(ana, "k", now.Add(time.Hour)),
		} {
			if err != nil {
				return err
			}
		}
		return nil
	})
	view(t, s, func(tx *store.Tx) error {
		off, err := tx.NudgeOff(ana)
		if err != nil {
			return err
		}
		same(t, "kinds turned off", off, map[string]bool{"silence": true})
		until, err := tx.Snoozes(ana)
		same(t, "snoozes", until, map[string]time.Time{"k": now.Add(time.Hour)})
		return err
	})
}
