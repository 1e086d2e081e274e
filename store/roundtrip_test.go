package store_test

import (
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// full fails the test where a field of the struct v is unset: a field added to
// the vocabulary must be added to the fixture, and so to the database.
func full(t testing.TB, v any, except ...string) {
	t.Helper()
	r := reflect.ValueOf(v)
fields:
	for i := range r.NumField() {
		name := r.Type().Field(i).Name
		for _, e := range except {
			if name == e {
				continue fields
			}
		}
		if r.Field(i).IsZero() {
			t.Fatalf("the fixture %T leaves %s unset", v, name)
		}
	}
}

// same fails the test where got is not want.
func same(t testing.TB, what string, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s came back otherwise (-want +got):\n%s", what, d)
	}
}

func aLifter(coach planner.LifterID) planner.Lifter {
	return planner.Lifter{
		Handle: "Ana", Name: "Ana Reis", Captain: true, Coach: coach, Group: "evening", Category: planner.Women,
		Born: planner.NewDate(1996, 2, 29), Bodyweight: 62500, Class: planner.Class{Limit: 84000, Plus: true},
		Level: planner.Intermediate, Zone: "Europe/Lisbon", Unit: planner.LB, Days: 4, Squat: 140000, Bench: 77500,
		Deadlift: 165000, Nudges: planner.Direct, LongBlocks: true, HasCompeted: true,
		BenchStyle: planner.TouchAndGo, DeadliftStyle: planner.Sumo,
	}
}

func TestLifterKeepsEveryField(t *testing.T) {
	s := storetest.New(t)
	cap := join(t, s, "cap")
	want := aLifter(cap)
	full(t, want, "ID")
	update(t, s, func(tx *store.Tx) (err error) {
		want.ID, err = tx.AddLifter(want, now)
		return err
	})
	s = storetest.Reopen(t, s)
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.Lifter(want.ID)
		same(t, "a lifter", got, want)
		return err
	})

	want = planner.Lifter{ID: want.ID, Handle: "ana2"} // everything unset again
	update(t, s, func(tx *store.Tx) error { return tx.SaveLifter(want, now) })
	view(t, s, func(tx *store.Tx) error {
		all, err := tx.Lifters()
		same(t, "the members", all, []planner.Lifter{{ID: cap, Handle: "cap"}, want})
		return err
	})
}

func TestHandlesKnowNoCase(t *testing.T) {
	s := storetest.New(t)
	id := join(t, s, "@Ámbar")
	view(t, s, func(tx *store.Tx) error {
		for _, handle := range []string{"ámbar", "@ÁMBAR", " Ámbar "} {
			l, ok, err := tx.LifterByHandle(handle)
			if err != nil || !ok || l.ID != id || l.Handle != "Ámbar" {
				t.Errorf("%q finds %+v, %v, %v", handle, l, ok, err)
			}
		}
		_, ok, err := tx.LifterByHandle("bo")
		if ok {
			t.Error("somebody who never joined was found")
		}
		return err
	})
	err := s.Update(t.Context(), func(tx *store.Tx) error {
		_, err := tx.AddLifter(planner.Lifter{Handle: "ÁMBAR"}, now)
		return err
	})
	wantKind(t, err, planner.Conflict)
}

func TestUnknownLifterIsNotFound(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	day := planner.NewDate(2027, 3, 1)
	for name, do := range map[string]func(*store.Tx) error{
		"Lifter":          func(tx *store.Tx) error { _, err := tx.Lifter(99); return err },
		"SaveLifter":      func(tx *store.Tx) error { return tx.SaveLifter(planner.Lifter{ID: 99, Handle: "x"}, now) },
		"coach":           func(tx *store.Tx) error { return tx.SaveLifter(planner.Lifter{ID: ana, Handle: "a", Coach: 99}, now) },
		"LifterPublic":    func(tx *store.Tx) error { _, err := tx.LifterPublic(99); return err },
		"SetLifterPublic": func(tx *store.Tx) error { return tx.SetLifterPublic(99, true) },
		"AddSets":         func(tx *store.Tx) error { _, err := tx.AddSets(99, "m", []planner.Set{aSet(day)}, now); return err },
		"AddMeet":         func(tx *store.Tx) error { _, err := tx.AddMeet(aMeet(99, 0), now); return err },
		"AddBodyweight":   func(tx *store.Tx) error { return tx.AddBodyweight(99, day, 62500, now) },
		"ProposePlan":     func(tx *store.Tx) error { _, err := tx.ProposePlan(store.Plan{Lifter: 99}, now); return err },
		"SetNudge":        func(tx *store.Tx) error { return tx.SetNudge(99, "silence", false) },
		"Snooze":          func(tx *store.Tx) error { return tx.Snooze(99, "k", now) },
		"Audit":           func(tx *store.Tx) error { return tx.Audit(ana, 99, "level", now) },
		"AddButton": func(tx *store.Tx) error {
			return tx.AddButton(store.Button{Token: "t", Action: "a", Owner: 99, Made: now})
		},
		"SkipFacts": func(tx *store.Tx) error {
			return tx.SkipFacts([]store.Fact{{Key: "k", Lifter: 99, Due: now}}, "late", now)
		},
	} {
		t.Run(name, func(t *testing.T) { wantKind(t, s.Update(t.Context(), do), planner.NotFound) })
	}
}

func TestPublicUntilSaidOtherwise(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	read := func() (ok bool) {
		view(t, s, func(tx *store.Tx) (err error) { ok, err = tx.LifterPublic(ana); return err })
		return ok
	}
	if !read() {
		t.Error("a new member is not public")
	}
	update(t, s, func(tx *store.Tx) error { return tx.SetLifterPublic(ana, false) })
	update(t, s, func(tx *store.Tx) error { return tx.SaveLifter(planner.Lifter{ID: ana, Handle: "ana"}, now) })
	if read() {
		t.Error("a member who wished not to be named is public")
	}
}

func aMeet(lifter, handler planner.LifterID) planner.Meet {
	return planner.Meet{
		Lifter: lifter, Name: "River Open", Date: planner.NewDate(2027, 6, 12), Kind: planner.Main, Event: planner.PushPull,
		Equipment: planner.SinglePly, RuleSet: "own", WeighInHours: 24, Class: planner.Class{Limit: 84000, Plus: true},
		Qualifying: 380000, EntryCloses: planner.NewDate(2027, 5, 1), Place: "Porto", Zone: "Europe/Lisbon",
		Handler: handler, Entered: true, ResultTotal: 382500, ResultEntered: true,
	}
}

func TestMeetKeepsEveryField(t *testing.T) {
	s := storetest.New(t)
	ana, cap := join(t, s, "ana"), join(t, s, "cap")
	want := aMeet(ana, cap)
	full(t, want, "ID")
	update(t, s, func(tx *store.Tx) (err error) {
		want.ID, err = tx.AddMeet(want, now)
		return err
	})
	meets := func() (mine, all []planner.Meet) {
		view(t, s, func(tx *store.Tx) (err error) {
			if mine, err = tx.Meets(ana); err != nil {
				return err
			}
			all, err = tx.AllMeets()
			return err
		})
		return mine, all
	}
	mine, all := meets()
	same(t, "a lifter's meet", mine, []planner.Meet{want})
	same(t, "everybody's meets", all, []planner.Meet{want})

	want = planner.Meet{ID: want.ID, Lifter: ana, Name: "Gym test", Date: planner.NewDate(2027, 7, 1), Kind: planner.Test}
	update(t, s, func(tx *store.Tx) error { return tx.SaveMeet(want, now) })
	mine, _ = meets()
	same(t, "a changed meet", mine, []planner.Meet{want})

	update(t, s, func(tx *store.Tx) error { return tx.DropMeet(want.ID, now) })
	if mine, all = meets(); len(mine)+len(all) != 0 {
		t.Errorf("a dropped meet is still on the calendar: %v %v", mine, all)
	}
	wantKind(t, s.Update(t.Context(), func(tx *store.Tx) error { return tx.DropMeet(want.ID, now) }), planner.NotFound)
	wantKind(t, s.Update(t.Context(), func(tx *store.Tx) error { return tx.SaveMeet(want, now) }), planner.NotFound)
}

func TestOneEntryPerNameAndDay(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	add := func(m planner.Meet) (id planner.MeetID, err error) {
		err = s.Update(t.Context(), func(tx *store.Tx) (err error) { id, err = tx.AddMeet(m, now); return err })
		return id, err
	}
	first, err := add(aMeet(ana, 0))
	if err != nil {
		t.Fatal(err)
	}
	twin := aMeet(ana, 0)
	twin.Name = "river open"
	_, err = add(twin)
	wantKind(t, err, planner.Conflict)
	other := aMeet(ana, 0)
	other.Name = "River Open, bench only"
	if _, err := add(other); err != nil {
		t.Errorf("a second entry on one day is legal, but: %v", err)
	}
	update(t, s, func(tx *store.Tx) error { return tx.DropMeet(first, now) })
	if _, err := add(twin); err != nil {
		t.Errorf("a dropped entry stands in the way of a new one: %v", err)
	}
}

func TestClubKeepsEveryField(t *testing.T) {
	s := storetest.New(t)
	read := func() (c store.Club) {
		view(t, s, func(tx *store.Tx) (err error) { c, err = tx.Club(); return err })
		return c
	}
	same(t, "a club that set nothing", read(), store.Club{
		Zone: "UTC", WeekStart: time.Monday, Hour: 8, LogChannel: "#training-log", NudgeChannel: "#announcements",
		Advance: "agreed", WomenShorter: true, Equation: "brzycki", SmallestStep: 2500, Weeks: store.BotWeeks, Unit: planner.KG,
	})
	want := store.Club{
		Zone: "Asia/Kathmandu", WeekStart: time.Saturday, Hour: 19, Minute: 45, LogChannel: "c1", NudgeChannel: "c2",
		CaptainRole: "r3", Advance: store.AdvanceAsk, WomenShorter: true, Equation: "wathan", SmallestStep: 500,
		Weeks: store.OwnWeeks, Unit: planner.LB,
	}
	full(t, want)
	for _, want.WomenShorter = range []bool{true, false} {
		update(t, s, func(tx *store.Tx) error { return tx.SaveClub(want) })
		same(t, "the settings", read(), want)
	}
}

func TestBodyweightIsOnePerDay(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	d := planner.NewDate(2027, 3, 1)
	update(t, s, func(tx *store.Tx) error {
		for _, w := range []struct {
			who  planner.LifterID
			day  planner.Date
			mass planner.Grams
		}{{ana, d, 62400}, {ana, d.AddDays(1), 62900}, {ana, d, 62500}, {bo, d, 92000}} {
			if err := tx.AddBodyweight(w.who, w.day, w.mass, now); err != nil {
				return err
			}
		}
		return nil
	})
	view(t, s, func(tx *store.Tx) error {
		got, err := tx.Bodyweights(ana, d, d.AddDays(1))
		same(t, "weighings", got, []store.Bodyweight{{Day: d, Mass: 62500}, {Day: d.AddDays(1), Mass: 62900}})
		return err
	})
}
