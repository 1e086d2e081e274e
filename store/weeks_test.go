package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
	"blockbell/store/storetest"
)

func TestTrainingAndGymKeepEveryField(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	want := store.Training{Weeks: store.ClubWeeks, Weekdays: []planner.Weekday{time.Sunday, time.Wednesday, time.Saturday}, Cautious: true, Supervised: true}
	gym := load.Gym{Unit: planner.LB, Bar: planner.Pounds(45), Collars: planner.Pounds(5), Discs: []planner.Grams{planner.Pounds(45), planner.Pounds(2.5)}, Missing: []load.Gear{load.Boxes}}
	view(t, s, func(tx *store.Tx) error {
		none, err := tx.Training(ana)
		same(t, "nothing set", none, store.Training{})
		return err
	})
	update(t, s, func(tx *store.Tx) error {
		if err := tx.SaveGym(gym); err != nil {
			return err
		}
		return tx.SaveTraining(ana, want)
	})
	bare := load.Gym{Unit: planner.KG, Bar: 20 * planner.Kilogram}
	other := storetest.New(t)
	update(t, other, func(tx *store.Tx) error { return tx.SaveGym(bare) })
	view(t, other, func(tx *store.Tx) error {
		g, err := tx.Gym()
		same(t, "a gym with the usual discs", g, bare)
		return err
	})
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.Training(ana)
		same(t, "training", got, want)
		if err != nil {
			return err
		}
		g, err := tx.Gym()
		same(t, "gym", g, gym)
		return err
	})
}

func TestPrescribedDaysAndWeeks(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	day := func(d planner.Date, sets int) load.Day {
		return load.Day{Date: d, Work: []load.Work{{Lift: planner.Squat, Name: "squat", Role: load.Top, Sets: sets, Reps: 5, Reserve: 2.5, Weight: 100000}}}
	}
	update(t, s, func(tx *store.Tx) error {
		for _, d := range []load.Day{day(march1, 1), day(march1.AddDays(2), 2), day(march1, 3), day(march1.AddDays(4), 4)} {
			if err := tx.Prescribe(ana, d, now); err != nil {
				return err
			}
		}
		return tx.Unprescribe(ana, march1.AddDays(2))
	})
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.Prescribed(ana, march1, march1.AddDays(3))
		same(t, "the day as it was shown last", got, []load.Day{day(march1, 3)})
		return err
	})
	week := store.TrainingWeek{Start: march1, Basis: "b", Plan: []byte(`{"Week":2}`), Edits: []byte(`[]`)}
	update(t, s, func(tx *store.Tx) error { return tx.SaveTrainingWeek(ana, week, now) })
	view(t, s, func(tx *store.Tx) error {
		got, ok, err := tx.TrainingWeek(ana, march1)
		if !ok {
			t.Error("the week is gone")
		}
		same(t, "week", got, week)
		return err
	})
}

func TestWeekChangesAndClubWeeks(t *testing.T) {
	s := storetest.New(t)
	ana, coach := join(t, s, "ana"), join(t, s, "cap")
	o := load.Override{Of: load.Movement{Lift: planner.Bench, Variant: "close grip"}, Load: -5}
	var id int64
	update(t, s, func(tx *store.Tx) (err error) {
		if err := tx.SaveClubWeek(planner.Strength, "block strength", now); err != nil {
			return err
		}
		id, err = tx.AddWeekChange(ana, o, coach, now)
		return err
	})
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.WeekChanges(ana)
		same(t, "changes", got, []store.WeekChange{{ID: id, By: coach, Override: o}})
		if err != nil {
			return err
		}
		lines, ok, err := tx.ClubWeek(planner.Strength)
		if lines != "block strength" || !ok {
			t.Errorf("the club's week came back as %q, %v", lines, ok)
		}
		return err
	})
	update(t, s, func(tx *store.Tx) error {
		if was, err := tx.DropWeekChange(coach, id); was || err != nil {
			t.Errorf("dropped somebody else's change: %v, %v", was, err)
		}
		if was, err := tx.DropWeekChange(ana, id); !was || err != nil {
			t.Errorf("not dropped: %v, %v", was, err)
		}
		was, err := tx.DropClubWeek(planner.Strength)
		if !was {
			t.Error("the club's week was not dropped")
		}
		return err
	})
}
