package store_test

import (
	"context"
	"errors"
	"sync"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// glance runs do as a Glance and fails the test on an error.
func glance(t testing.TB, s *store.Store, do func(*store.Tx) error) {
	t.Helper()
	if err := s.Glance(t.Context(), do); err != nil {
		t.Fatalf("reading: %v", err)
	}
}

// calendar is everything of a lifter that is remembered, beside the club's settings.
type calendar struct {
	hour     int
	lifter   planner.Lifter
	meets    []planner.Meet
	agreed   store.Plan
	proposed store.Plan
	away     []store.Away
	off      []store.LiftOff
}

func calendarOf(tx *store.Tx, handle string) (c calendar, err error) {
	club, err := tx.Club()
	if err != nil {
		return c, err
	}
	c.hour = club.Hour
	if c.lifter, _, err = tx.LifterByHandle(handle); err != nil {
		return c, err
	}
	if c.meets, err = tx.Meets(c.lifter.ID); err != nil {
		return c, err
	}
	if c.agreed, _, err = tx.AgreedPlan(c.lifter.ID); err != nil {
		return c, err
	}
	if c.proposed, _, err = tx.ProposedPlan(c.lifter.ID); err != nil {
		return c, err
	}
	if c.away, err = tx.Aways(c.lifter.ID); err != nil {
		return c, err
	}
	c.off, err = tx.LiftsOff(c.lifter.ID, planner.NewDate(2027, 3, 5))
	return c, err
}

// TestGlanceSeesEveryCommitBeforeIt changes each kind of row that is remembered and
// compares a Glance, asked before so that memory is full, with a View.
func TestGlanceSeesEveryCommitBeforeIt(t *testing.T) {
	s := storetest.New(t)
	both := func(step string) (c calendar) {
		t.Helper()
		var want calendar
		for range 2 { // the second time from memory
			glance(t, s, func(tx *store.Tx) (err error) { c, err = calendarOf(tx, "ana"); return err })
			view(t, s, func(tx *store.Tx) (err error) { want, err = calendarOf(tx, "ana"); return err })
			same(t, step, c.lifter, want.lifter)
			same(t, step, c.meets, want.meets)
			same(t, step, c.agreed, want.agreed)
			same(t, step, c.proposed, want.proposed)
			same(t, step, c.hour, want.hour)
			same(t, step, c.away, want.away)
			same(t, step, c.off, want.off)
		}
		return c
	}
	both("nobody there")
	ana := join(t, s, "ana")
	if both("joined").lifter.ID != ana {
		t.Error("who joined is not seen")
	}
	update(t, s, func(tx *store.Tx) error {
		club := store.DefaultClub()
		club.Hour = 17
		return tx.SaveClub(club)
	})
	if both("settings").hour != 17 {
		t.Error("a setting is not seen")
	}
	var meet planner.MeetID
	update(t, s, func(tx *store.Tx) (err error) {
		meet, err = tx.AddMeet(planner.Meet{Lifter: ana, Name: "River Open", Date: planner.NewDate(2027, 6, 12), Kind: planner.Main}, now)
		return err
	})
	var proposed store.Plan
	update(t, s, func(tx *store.Tx) (err error) {
		proposed, err = tx.ProposePlan(store.Plan{Lifter: ana, Detail: []byte(`{}`), Season: planner.Season{Blocks: []planner.Block{
			{Kind: planner.Strength, Start: planner.NewDate(2027, 3, 2), End: planner.NewDate(2027, 6, 11), Weeks: 14}}}}, now)
		return err
	})
	if c := both("proposed"); len(c.meets) != 1 || c.proposed.ID == 0 || c.agreed.ID != 0 {
		t.Errorf("after the proposal: %+v", c)
	}
	update(t, s, func(tx *store.Tx) error { _, err := tx.AgreePlan(proposed.ID, now); return err })
	if c := both("agreed"); c.proposed.ID != 0 || c.agreed.ID != proposed.ID {
		t.Errorf("after the agreement: %+v", c)
	}
	update(t, s, func(tx *store.Tx) error { return tx.BeginBlock(proposed.ID, 0, planner.NewDate(2027, 3, 3), now) })
	if c := both("begun"); c.agreed.Season.Begun[0] != planner.NewDate(2027, 3, 3) {
		t.Errorf("begun on %v", c.agreed.Season.Begun)
	}
	update(t, s, func(tx *store.Tx) error {
		if _, err := tx.AddAway(store.Away{Lifter: ana, From: planner.NewDate(2027, 4, 1), To: planner.NewDate(2027, 4, 14)}, now); err != nil {
			return err
		}
		return tx.TakeLiftOff(store.LiftOff{Lifter: ana, Lift: planner.Squat, From: planner.NewDate(2027, 3, 1), Until: planner.NewDate(2027, 4, 1)}, now)
	})
	if c := both("away"); len(c.away) != 1 || len(c.off) != 1 {
		t.Errorf("away %v, off %v", c.away, c.off)
	}
	update(t, s, func(tx *store.Tx) error { return tx.DropMeet(meet, now) })
	if c := both("dropped"); len(c.meets) != 0 {
		t.Error("a dropped meet is still seen")
	}
}

// TestGlanceIsTakenAgainWhenSomethingWasCommitted commits in the middle of one: the
// answer must not mix what was before with what came after.
func TestGlanceIsTakenAgainWhenSomethingWasCommitted(t *testing.T) {
	s := storetest.New(t)
	join(t, s, "ana")
	runs, hour, days := 0, 0, 0
	glance(t, s, func(tx *store.Tx) error {
		runs++
		club, err := tx.Club()
		if err != nil {
			return err
		}
		if runs == 1 {
			writeBoth(t, s, 5)
		}
		l, _, err := tx.LifterByHandle("ana")
		hour, days = club.Hour, l.Days
		return err
	})
	if runs != 2 || hour != 5 || days != 5 {
		t.Errorf("run %d times, and saw hour %d beside %d days", runs, hour, days)
	}
}

// writeBoth writes one number into two tables in one transaction.
func writeBoth(t testing.TB, s *store.Store, n int) {
	update(t, s, func(tx *store.Tx) error {
		club := store.DefaultClub()
		club.Hour = n
		if err := tx.SaveClub(club); err != nil {
			return err
		}
		l, _, err := tx.LifterByHandle("ana")
		if err != nil {
			return err
		}
		l.Days = n
		return tx.SaveLifter(l, now)
	})
}

// TestGlancesBesideAWriterNeverMixStates reads from eight goroutines while one
// writes: two numbers that are always written together are always read together, and
// nobody reads an older one than was committed before.
func TestGlancesBesideAWriterNeverMixStates(t *testing.T) {
	s := storetest.New(t)
	join(t, s, "ana")
	writeBoth(t, s, 0)
	const last = 7
	var done sync.WaitGroup
	for range 8 {
		done.Go(func() {
			for before := 0; before < last; {
				var hour, days int
				err := s.Glance(context.Background(), func(tx *store.Tx) error {
					club, err := tx.Club()
					if err != nil {
						return err
					}
					l, _, err := tx.LifterByHandle("ana")
					hour, days = club.Hour, l.Days
					return err
				})
				if err != nil || hour != days || hour < before {
					t.Errorf("read hour %d beside %d days after %d (%v)", hour, days, before, err)
					return
				}
				before = hour
			}
		})
	}
	for n := 1; n <= last; n++ {
		for range 20 { // the same again: what counts is that commits come and go
			writeBoth(t, s, n)
		}
	}
	done.Wait()
}

func TestGlanceCannotWrite(t *testing.T) {
	s := storetest.New(t)
	err := s.Glance(t.Context(), func(tx *store.Tx) error {
		_, err := tx.AddLifter(planner.Lifter{Handle: "ana"}, now)
		return err
	})
	if !errors.Is(err, store.ErrWriteInView) {
		t.Fatalf("got %v", err)
	}
	join(t, s, "ana") // nothing is left of it: the handle is free
}

// TestWhatAGlanceReturnsIsOnesOwn changes what was read and reads it again.
func TestWhatAGlanceReturnsIsOnesOwn(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	block := planner.Block{Kind: planner.Strength, Start: planner.NewDate(2027, 3, 2), End: planner.NewDate(2027, 6, 11), Weeks: 14}
	update(t, s, func(tx *store.Tx) error {
		if _, err := tx.AddMeet(planner.Meet{Lifter: ana, Name: "River Open", Date: planner.NewDate(2027, 6, 12), Kind: planner.Main}, now); err != nil {
			return err
		}
		_, err := tx.ProposePlan(store.Plan{Lifter: ana, Detail: []byte(`{}`), Season: planner.Season{Blocks: []planner.Block{block}}}, now)
		return err
	})
	for range 2 {
		glance(t, s, func(tx *store.Tx) error {
			c, err := calendarOf(tx, "ana")
			if err != nil {
				return err
			}
			if c.meets[0].Name != "River Open" || c.proposed.Season.Blocks[0].Weeks != 14 || c.proposed.Season.Begun[0] != 0 {
				t.Errorf("changed by another reader: %+v", c)
			}
			c.meets[0].Name, c.proposed.Season.Blocks[0].Weeks, c.proposed.Season.Begun[0] = "", 0, 1
			return nil
		})
	}
}

func TestAnEndedContextGlancesAtNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	err := storetest.New(t).Glance(ctx, func(*store.Tx) error { t.Error("it was run"); return nil })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// TestATransactionReadsItsOwnWrites, and nobody else reads them unless it commits.
func TestATransactionReadsItsOwnWrites(t *testing.T) {
	s := storetest.New(t)
	join(t, s, "ana")
	days := func(tx *store.Tx) int {
		l, _, err := tx.LifterByHandle("ana")
		if err != nil {
			t.Fatal(err)
		}
		return l.Days
	}
	save := func(tx *store.Tx, n int) {
		l, _, err := tx.LifterByHandle("ana")
		if err == nil {
			l.Days = n
			err = tx.SaveLifter(l, now)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	stop := errors.New("stop")
	for n, want := range []error{nil, stop, nil} {
		was := 0
		glance(t, s, func(tx *store.Tx) error { was = days(tx); return nil })
		err := s.Update(t.Context(), func(tx *store.Tx) error {
			if _, err := tx.FreshEvent("e", now); err != nil || days(tx) != was {
				t.Errorf("before the write: %d days, want %d (%v)", days(tx), was, err)
			}
			save(tx, n+1)
			if days(tx) != n+1 {
				t.Errorf("after the write: %d days, want %d", days(tx), n+1)
			}
			return want
		})
		if err != want {
			t.Fatal(err)
		}
		if want == nil {
			was = n + 1
		}
		glance(t, s, func(tx *store.Tx) error {
			if days(tx) != was {
				t.Errorf("others read %d days, want %d", days(tx), was)
			}
			return nil
		})
	}
}
