package store_test

import (
	"maps"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestWhatAMessageSaidIsKeptAndForgotten(t *testing.T) {
	s := storetest.New(t)
	var cap, ana planner.LifterID
	update(t, s, func(tx *store.Tx) (err error) {
		l := aLifter(0)
		l.Handle, l.Name = "cap", "Cap"
		if cap, err = tx.AddLifter(l, now); err != nil {
			return err
		}
		l.Handle, l.Name = "ana", "Ana"
		ana, err = tx.AddLifter(l, now)
		return err
	})
	keep := func(by planner.LifterID, message string, said map[planner.LifterID]string) {
		update(t, s, func(tx *store.Tx) error { return tx.KeepSaid(by, message, said, now) })
	}
	said := func(by planner.LifterID, message string) (got map[planner.LifterID]string) {
		update(t, s, func(tx *store.Tx) (err error) { got, err = tx.Said(by, message); return err })
		return got
	}
	keep(cap, "m1", map[planner.LifterID]string{ana: "aa", cap: "cc"})
	keep(cap, "m12", map[planner.LifterID]string{0: "dd"})
	keep(ana, "m2", map[planner.LifterID]string{0: "ee"})
	if got := said(cap, "m1"); !maps.Equal(got, map[planner.LifterID]string{ana: "aa", cap: "cc"}) {
		t.Errorf("m1 said %v", got)
	}
	keep(cap, "m1", map[planner.LifterID]string{ana: "bb"})
	if got := said(cap, "m1"); !maps.Equal(got, map[planner.LifterID]string{ana: "bb"}) {
		t.Errorf("m1 says now %v", got)
	}
	if got := said(cap, "m12"); got[0] != "dd" {
		t.Errorf("m12 said %v", got)
	}
	if got := said(ana, "m1"); len(got) != 0 {
		t.Errorf("somebody else's m1 said %v", got)
	}
	update(t, s, func(tx *store.Tx) error { return tx.EraseLifter(ana) })
	if a, b, c := said(ana, "m2"), said(cap, "m1"), said(cap, "m12"); len(a)+len(b) != 0 || len(c) != 1 {
		t.Errorf("after ana was erased: %v %v %v", a, b, c)
	}
}

func TestWhichSetAMessagePutRight(t *testing.T) {
	s := storetest.New(t)
	id := planner.LifterID(7)
	one, two := aSet(march1), aSet(march1)
	one.Seq, two.Seq = 1, 12
	update(t, s, func(tx *store.Tx) error {
		if some, _, err := tx.RightOf(id, "m1", one); some || err != nil {
			t.Errorf("before: %v %v", some, err)
		}
		if err := tx.KeepRight(id, "m1", one, now); err != nil {
			return err
		}
		if some, this, err := tx.RightOf(id, "m1", one); !some || !this || err != nil {
			t.Errorf("its set: %v %v %v", some, this, err)
		}
		some, this, err := tx.RightOf(id, "m1", two)
		if !some || this {
			t.Errorf("another set: %v %v", some, this)
		}
		return err
	})
}
