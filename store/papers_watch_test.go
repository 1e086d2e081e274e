package store_test

import (
	"slices"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// What is told of papers rests on the licence, the review and the place at a meet.
func TestPapersAskForALook(t *testing.T) {
	s := storetest.New(t)
	ana, ben := join(t, s, "ana"), join(t, s, "ben")
	var meet planner.MeetID
	update(t, s, func(tx *store.Tx) (err error) { meet, err = tx.AddMeet(aMeet(ana, 0), now); return err })
	for _, step := range []struct {
		name   string
		change func(tx *store.Tx) error
	}{
		{"licence told", func(tx *store.Tx) error { return tx.SaveLicence(ana, store.Licence{Until: march1}) }},
		{"licence renewed", func(tx *store.Tx) error { return tx.SaveLicence(ana, store.Licence{Until: march1.AddDays(365)}) }},
		{"licence forgotten", func(tx *store.Tx) error { return tx.SaveLicence(ana, store.Licence{}) }},
		{"place told", func(tx *store.Tx) error { return tx.SaveRoster(meet, store.Roster{Session: "1"}) }},
		{"place changed", func(tx *store.Tx) error { return tx.SaveRoster(meet, store.Roster{Session: "2"}) }},
		{"looked back", func(tx *store.Tx) error { return tx.SaveReview(meet, store.Review{Strength: 1}, now) }},
	} {
		watchAll(t, s, ana, ben)
		update(t, s, step.change)
		if got := unwatched(t, s, now); len(got) != 1 || got[0] != ana {
			t.Errorf("%s: to be looked at %v, want Ana alone", step.name, got)
		}
	}
}

// The meets of somebody who has not joined are told to who speaks for them, so these
// are looked at again when one changes.
func TestMeetsOfPlaceholdersAskForALookAtWhoSpeaksForThem(t *testing.T) {
	s := storetest.New(t)
	coach, captain, other := join(t, s, "coach"), join(t, s, "captain"), join(t, s, "other")
	var ward planner.LifterID
	var meet planner.MeetID
	update(t, s, func(tx *store.Tx) error {
		l, err := tx.Lifter(captain)
		if err != nil {
			return err
		}
		l.Captain = true
		return tx.SaveLifter(l, now)
	})
	for _, step := range []struct {
		name   string
		change func(tx *store.Tx) error
		want   []planner.LifterID
	}{
		{"added", func(tx *store.Tx) (err error) {
			ward, err = tx.AddPlaceholder(planner.Lifter{Name: "Ana", Coach: coach}, now)
			return err
		}, []planner.LifterID{coach, captain}},
		{"meet added", func(tx *store.Tx) (err error) { meet, err = tx.AddMeet(aMeet(ward, 0), now); return err }, []planner.LifterID{coach, captain}},
		{"meet dropped", func(tx *store.Tx) error { return tx.DropMeet(meet, now) }, []planner.LifterID{coach, captain}},
		{"another coach", func(tx *store.Tx) error {
			l, err := tx.Lifter(ward)
			if err != nil {
				return err
			}
			l.Coach = other
			return tx.SaveLifter(l, now)
		}, []planner.LifterID{coach, captain, other}},
	} {
		all := []planner.LifterID{coach, captain, other}
		if ward != 0 {
			all = append(all, ward)
		}
		watchAll(t, s, all...)
		update(t, s, step.change)
		got := slices.DeleteFunc(unwatched(t, s, now.Add(time.Hour)), func(id planner.LifterID) bool { return id == ward })
		slices.Sort(got)
		for _, id := range step.want {
			if !slices.Contains(got, id) {
				t.Errorf("%s: to be looked at %v, want %v", step.name, got, step.want)
			}
		}
	}
}
