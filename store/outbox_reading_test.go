package store_test

import (
	"encoding/json"
	"testing"
	"time"

	"blockbell/store"
	"blockbell/store/storetest"
)

// NextPost must agree with ClaimPosts: nothing can be claimed a moment before it,
// something can be at it.
func TestNextPostIsWhenSomethingCanBeClaimed(t *testing.T) {
	s := storetest.New(t)
	at := time.Date(2027, 2, 18, 8, 0, 0, 0, time.UTC)
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		if _, waits, err := tx.NextPost(); err != nil || waits {
			t.Errorf("an empty outbox has something waiting (%v)", err)
		}
		if _, found, err := tx.Post("club/2027-02-18"); err != nil || found {
			t.Errorf("a post that was never queued is found (%v)", err)
		}
		p := store.OutPost{Key: "club/2027-02-18", Channel: "#news", Body: json.RawMessage(`{}`), Due: at}
		if _, err := tx.QueuePost(p, nil, at); err != nil {
			return err
		}
		expectNext(t, tx, at)
		if _, err := tx.ClaimPosts(at, 2*time.Minute, 1); err != nil {
			return err
		}
		expectNext(t, tx, at.Add(2*time.Minute))
		if err := tx.DelayPost(p.Key, at.Add(time.Hour), "busy"); err != nil {
			return err
		}
		expectNext(t, tx, at.Add(time.Hour))
		if got, found, err := tx.Post(p.Key); err != nil || !found || got.Attempts != 1 || got.Reason != "busy" {
			t.Errorf("read back %+v, %t, %v; want one attempt and the reason", got, found, err)
		}
		if err := tx.BuryPost(p.Key, "too late", at); err != nil {
			return err
		}
		if _, waits, err := tx.NextPost(); err != nil || waits {
			t.Errorf("a buried post still waits (%v)", err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func expectNext(t *testing.T, tx *store.Tx, want time.Time) {
	t.Helper()
	got, waits, err := tx.NextPost()
	if err != nil || !waits || !got.Equal(want) {
		t.Errorf("next post %s, %t, %v; want %s", got, waits, err, want)
	}
	early, err := tx.ClaimPosts(want.Add(-time.Millisecond), time.Minute, 1)
	if err != nil || len(early) != 0 {
		t.Errorf("%d posts claimed a moment before %s (%v)", len(early), want, err)
	}
}
