package store_test

import (
	"encoding/json"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestButtonWorksOncePerLifter(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	want := store.Button{
		Token: "t1", Label: "Accept plan", Owner: ana, Action: "plan.accept", Args: json.RawMessage(`{"plan":3}`),
		Made: now, Expires: now.Add(time.Hour),
	}
	full(t, want)
	anyone := store.Button{Token: "t2", Action: "mine.show", Made: now}
	update(t, s, func(tx *store.Tx) error {
		if err := tx.AddButton(want); err != nil {
			return err
		}
		return tx.AddButton(anyone)
	})
	twin := func(tx *store.Tx) error { return tx.AddButton(want) }
	wantKind(t, s.Update(t.Context(), twin), planner.Conflict)
	s = storetest.Reopen(t, s)
	view(t, s, func(tx *store.Tx) error {
		for _, b := range []store.Button{want, anyone} {
			got, ok, err := tx.Button(b.Token)
			if err != nil || !ok {
				t.Fatalf("button %s: %v, %v", b.Token, ok, err)
			}
			same(t, "a button", got, b)
		}
		_, ok, err := tx.Button("t3")
		if ok {
			t.Error("a button nobody made was found")
		}
		return err
	})
	use := func(token string, who planner.LifterID) (first bool, err error) {
		err = s.Update(t.Context(), func(tx *store.Tx) (err error) { first, err = tx.UseButton(token, who, now); return err })
		return first, err
	}
	for i, want := range []bool{true, false} {
		for _, who := range []planner.LifterID{ana, bo} {
			if first, err := use("t2", who); err != nil || first != want {
				t.Errorf("press %d of lifter %d: first %v, %v", i+1, who, first, err)
			}
		}
	}
	_, err := use("t3", ana)
	wantKind(t, err, planner.NotFound)
}

func TestForgetButtonsTakesTheExpiredOnly(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	update(t, s, func(tx *store.Tx) error {
		for token, expires := range map[string]time.Time{"old": now, "new": now.Add(time.Hour), "ever": {}} {
			if err := tx.AddButton(store.Button{Token: token, Action: "a", Made: now, Expires: expires}); err != nil {
				return err
			}
		}
		if _, err := tx.UseButton("old", ana, now); err != nil {
			return err
		}
		n, err := tx.ForgetButtons(now.Add(time.Minute))
		if n != 1 {
			t.Errorf("%d buttons were forgotten, want 1", n)
		}
		return err
	})
}

func TestEventIsFreshOnce(t *testing.T) {
	s := storetest.New(t)
	fresh := func(id string, at time.Time) (ok bool) {
		update(t, s, func(tx *store.Tx) (err error) { ok, err = tx.FreshEvent(id, at); return err })
		return ok
	}
	if !fresh("e1", now) || fresh("e1", now) || !fresh("e2", now.Add(time.Hour)) {
		t.Error("an event is fresh the first time and only then")
	}
	s = storetest.Reopen(t, s)
	if fresh("e1", now) {
		t.Error("an event was forgotten by a restart")
	}
	update(t, s, func(tx *store.Tx) error { return tx.ForgetEvents(now.Add(time.Minute)) })
	if !fresh("e1", now) || fresh("e2", now) {
		t.Error("the old event and only the old one is to be forgotten")
	}
}

func TestEventIsFreshAgainWhenItsWorkFailed(t *testing.T) {
	s := storetest.New(t)
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		if _, err := tx.FreshEvent("e1", now); err != nil {
			return err
		}
		_, err := tx.Lifter(99)
		return err
	})
	wantKind(t, err, planner.NotFound)
	update(t, s, func(tx *store.Tx) error {
		fresh, err := tx.FreshEvent("e1", now)
		if !fresh {
			t.Error("an event whose work was undone is taken for done")
		}
		return err
	})
}

func TestAuditTrailIsNewestFirst(t *testing.T) {
	s := storetest.New(t)
	ana, cap := join(t, s, "ana"), join(t, s, "cap")
	want := []store.AuditEntry{
		{By: 0, About: 0, What: "settings", At: now.Add(time.Second)},
		{By: cap, About: ana, What: "level", At: now},
	}
	update(t, s, func(tx *store.Tx) error {
		for _, e := range []store.AuditEntry{{What: "older", At: now}, want[1], want[0]} {
			if err := tx.Audit(e.By, e.About, e.What, e.At); err != nil {
				return err
			}
		}
		return nil
	})
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.AuditTrail(2)
		same(t, "the trail", got, want)
		return err
	})
}

func TestTerminalMemory(t *testing.T) {
	s := storetest.New(t)
	want := store.TerminalMessage{
		Key: "k1", At: now, Kind: "direct", To: "@ana", Private: true, Body: json.RawMessage(`{"text":"Hi"}`),
	}
	full(t, want, "ID")
	plain := store.TerminalMessage{At: now, Kind: "reply", To: "#training-log"}
	update(t, s, func(tx *store.Tx) error {
		if _, ok, err := tx.Clock(); ok || err != nil {
			t.Errorf("a clock nobody set: %v, %v", ok, err)
		}
		for _, m := range []*store.TerminalMessage{&want, &plain} {
			id, fresh, err := tx.AddTerminalMessage(*m)
			if err != nil || !fresh {
				t.Fatalf("adding %q: %v, %v", m.Key, fresh, err)
			}
			m.ID = id
		}
		if id, fresh, err := tx.AddTerminalMessage(want); err != nil || fresh || id != want.ID {
			t.Errorf("a second post under one key: %d, %v, %v", id, fresh, err)
		}
		return tx.SetClock(now)
	})
	s = storetest.Reopen(t, s)
	var events []int64
	update(t, s, func(tx *store.Tx) error {
		for range 2 {
			n, err := tx.NextTerminalEvent()
			if err != nil {
				return err
			}
			events = append(events, n)
		}
		return tx.SetClock(now.Add(time.Hour))
	})
	same(t, "event numbers", events, []int64{1, 2})
	view(t, s, func(tx *store.Tx) error {
		at, ok, err := tx.Clock()
		if err != nil || !ok || !at.Equal(now.Add(time.Hour)) {
			t.Errorf("the clock stands at %v, %v, %v", at, ok, err)
		}
		got, err := tx.TerminalMessages(2)
		same(t, "messages", got, []store.TerminalMessage{plain, want})
		byKey, ok, _ := tx.TerminalMessageByKey("k1")
		if !ok {
			t.Error("the message is not found by its key")
		}
		same(t, "a message by key", byKey, want)
		return err
	})
}

func TestTerminalPressOnce(t *testing.T) {
	s := storetest.New(t)
	var id int64
	update(t, s, func(tx *store.Tx) (err error) {
		id, _, err = tx.AddTerminalMessage(store.TerminalMessage{At: now, Kind: "post", To: "#c"})
		return err
	})
	press := func(message int64, person string) (first bool, err error) {
		err = s.Update(t.Context(), func(tx *store.Tx) (err error) {
			first, err = tx.PressTerminal(message, "t", person, now)
			return err
		})
		return first, err
	}
	for _, c := range []struct {
		who  string
		want bool
	}{{"ana", true}, {"bo", true}, {"ana", false}} {
		if first, err := press(id, c.who); err != nil || first != c.want {
			t.Errorf("%s presses: first %v, %v; want %v", c.who, first, err, c.want)
		}
	}
	_, err := press(99, "ana")
	wantKind(t, err, planner.NotFound)
}
