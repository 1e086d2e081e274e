package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestClassTableIsReplacedWhole(t *testing.T) {
	s := storetest.New(t)
	read := func() (c store.ClassTable) {
		view(t, s, func(tx *store.Tx) (err error) { c, err = tx.ClassTable(); return err })
		return c
	}
	if c := read(); len(c.Classes) != 0 {
		t.Errorf("a club that told nothing has %+v", c)
	}
	for _, want := range []store.ClassTable{
		{Name: "Rule book", Since: march1, Classes: map[planner.Category][]planner.Class{planner.Women: {{Limit: 63000}, {Limit: 84000}, {Limit: 84000, Plus: true}}, planner.Men: {{Limit: 93000}}}},
		{Name: "Next one", Classes: map[planner.Category][]planner.Class{planner.Men: {{Limit: 94000}}}},
		{Classes: map[planner.Category][]planner.Class{}},
	} {
		update(t, s, func(tx *store.Tx) error { return tx.SaveClassTable(want) })
		same(t, "the table", read(), want)
	}
}

func TestWhoLeftComesBackAsTheyWere(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	update(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(ana)
		if err != nil {
			return err
		}
		l.Nudges = planner.Direct
		if err := tx.SaveLifter(l, now); err != nil {
			return err
		}
		if err := tx.MarkLeft(ana, bo, now); err != nil {
			return err
		}
		return tx.MarkLeft(bo, 0, now)
	})
	update(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(ana)
		public, perr := tx.LifterPublic(ana)
		if l.Nudges != planner.Ask || public || err != nil || perr != nil {
			t.Errorf("while away: %s, public %v", l.Nudges, public)
		}
		back, err := tx.Returned(ana, now)
		if !back {
			t.Error("she had not left")
		}
		return err
	})
	update(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(ana)
		public, _ := tx.LifterPublic(ana)
		if l.Nudges != planner.Direct || !public {
			t.Errorf("back: %s, public %v", l.Nudges, public)
		}
		return err
	})
	erased := func(before time.Time) (n int) {
		update(t, s, func(tx *store.Tx) (err error) { n, err = tx.EraseLeft(before); return err })
		return n
	}
	if n := erased(now.Add(-time.Second)); n != 0 {
		t.Errorf("%d erased too early", n)
	}
	if n := erased(now); n != 1 {
		t.Errorf("%d erased, want bo only", n)
	}
	view(t, s, func(tx *store.Tx) error { _, err := tx.Lifter(ana); return err })
}
