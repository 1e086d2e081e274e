package nudge_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// house is a runner over a real database and a platform in memory.
type house struct {
	t testing.TB
	*nudge.Runner
	board *board
}

// newHouse fills a fresh database with the club of the facts.
func newHouse(t testing.TB, f nudge.Facts) house {
	t.Helper()
	h := house{t: t, board: &board{}}
	h.Runner = &nudge.Runner{Store: storetest.New(t), Poster: h.board}
	h.update(func(tx *store.Tx) error { return fill(tx, f) })
	return h
}

func fill(tx *store.Tx, f nudge.Facts) error {
	c := store.DefaultClub()
	c.Zone, c.WeekStart, c.Hour, c.Minute, c.WomenShorter = f.Zone.String(), f.WeekStart, f.Hour, f.Minute, f.WomenShorter
	if c.Advance = store.AdvanceAgreed; f.Ask {
		c.Advance = store.AdvanceAsk
	}
	if err := tx.SaveClub(c); err != nil {
		return err
	}
	for _, m := range f.Members {
		if err := addMember(tx, m); err != nil {
			return err
		}
	}
	return nil
}

// addMember stores a member; the meets of the season are added first, on the days
// they were planned for, and then moved or dropped.
func addMember(tx *store.Tx, m nudge.Member) error {
	made := m.Agreed
	m.Lifter.Zone = m.Zone.String()
	id, err := tx.AddLifter(m.Lifter, made)
	if err != nil {
		return err
	}
	if err := tx.SaveTraining(id, m.Making.Training); err != nil {
		return err
	}
	if err := tx.SetLifterPublic(id, m.Public); err != nil {
		return err
	}
	m.Season.Meets = slices.Clone(m.Season.Meets) // renumbered below
	now := map[planner.MeetID]planner.Meet{}
	for _, e := range m.Meets {
		now[e.ID] = e
	}
	for i, e := range m.Season.Meets {
		entry, stands := now[e.ID], false
		if _, stands = now[e.ID]; !stands {
			entry = planner.Meet{Name: e.Name, Kind: e.Kind, Date: e.Date}
		}
		delete(now, e.ID)
		entry.Lifter, entry.Event, entry.Equipment = id, planner.Full, planner.Raw
		entry.ID, err = tx.AddMeet(entry, made)
		if err != nil {
			return err
		}
		if !stands {
			if err := tx.DropMeet(entry.ID, made); err != nil {
				return err
			}
		}
		m.Season.Meets[i].ID = entry.ID
	}
	for _, e := range m.Meets { // entries that no plan was made for
		if _, left := now[e.ID]; !left {
			continue
		}
		e.Lifter, e.Event, e.Equipment = id, planner.Full, planner.Raw
		if _, err := tx.AddMeet(e, made); err != nil {
			return err
		}
	}
	if m.Plan == 0 {
		return nil
	}
	p, err := tx.ProposePlan(store.Plan{Lifter: id, Season: m.Season, Detail: json.RawMessage(`{}`)}, made)
	if err != nil {
		return err
	}
	if p, err = tx.AgreePlan(p.ID, made); err != nil {
		return err
	}
	for i, d := range m.Season.Begun {
		if i > 0 && !d.IsZero() {
			if err := tx.BeginBlock(p.ID, i, d, made); err != nil {
				return err
			}
		}
	}
	return nil
}

func (h house) update(do func(*store.Tx) error) {
	h.t.Helper()
	if err := h.Store.Update(h.t.Context(), do); err != nil {
		h.t.Fatal(err)
	}
}

// run runs once, and fails the test on an error.
func (h house) run(now time.Time) {
	h.t.Helper()
	if err := h.Run(h.t.Context(), now); err != nil {
		h.t.Fatalf("run at %s: %v", now, err)
	}
}

// walk runs from due to due and returns how often it ran.
func (h house) walk(from, to time.Time) int {
	h.t.Helper()
	for runs := 0; ; runs++ {
		at, ok, err := h.Next(h.t.Context(), from, to)
		if err != nil {
			h.t.Fatal(err)
		}
		if !ok {
			return runs
		}
		if !at.After(from) || at.After(to) {
			h.t.Fatalf("next after %s until %s is %s", from, to, at)
		}
		h.run(at)
		from = at
	}
}

// fact returns what the ledger says of a key.
func (h house) fact(key string) store.Fact {
	h.t.Helper()
	var f store.Fact
	h.update(func(tx *store.Tx) (err error) {
		var known bool
		if f, known, err = tx.KnownFact(key); !known && err == nil {
			f.State = "unknown"
		}
		return err
	})
	return f
}

// post returns what the outbox says of a key.
func (h house) post(key string) store.OutPost {
	h.t.Helper()
	var p store.OutPost
	h.update(func(tx *store.Tx) (err error) {
		p, _, err = tx.Post(key)
		return err
	})
	return p
}
