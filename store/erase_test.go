package store_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
	"blockbell/store/storetest"
)

// liveFully leaves a trace of a member in every table that can hold one.
func liveFully(t testing.TB, s *store.Store, handle string, friend planner.LifterID) planner.LifterID {
	t.Helper()
	l := aLifter(friend)
	l.Handle, l.Name = handle, "Name of "+handle
	var id planner.LifterID
	update(t, s, func(tx *store.Tx) (err error) { id, err = tx.AddLifter(l, now); return err })
	write(t, s, id, handle+"-m1", now, aSet(march1), aSet(march1))
	propose(t, s, id)
	queue(t, s, handle+"/1", id)
	update(t, s, func(tx *store.Tx) error {
		meet, err := tx.AddMeet(aMeet(id, friend), now)
		if err != nil {
			return err
		}
		message, _, err := tx.AddTerminalMessage(store.TerminalMessage{At: now, Kind: "direct", To: "@" + handle})
		if err != nil {
			return err
		}
		b := store.Button{Token: handle + "-b", Label: "x", Owner: id, Action: "a", Made: now}
		for _, do := range []func() error{
			func() error { return tx.DropSet(id, march1, 2, id, now) },
			func() error { return tx.AddBodyweight(id, march1, 62500, now) },
			func() error { return tx.AddButton(b) },
			func() error { _, err := tx.UseButton(b.Token, id, now); return err },
			func() error { return tx.Audit(friend, id, "level of "+handle, now) },
			func() error { return tx.SetNudge(id, "silence", false) },
			func() error { return tx.Snooze(id, handle+"/1", now) },
			func() error { _, err := tx.FirstCall(id, march1, now); return err },
			func() error { return importOne(tx, id, handle) },
			func() error { _, err := tx.PressTerminal(message, "t", handle, now); return err },
			func() error { return decide(tx, id, friend, handle) },
			func() error { return train(tx, id, friend) },
			func() error { return paper(tx, id, friend, meet, handle) },
			func() error { _, err := tx.ProposePlan(store.Plan{Lifter: id, Season: aSeason(meet)}, now); return err },
		} {
			if err := do(); err != nil {
				return err
			}
		}
		return nil
	})
	return id
}

// paper leaves a member's licence, place at a meet, review, and leave from the club.
func paper(tx *store.Tx, id, friend planner.LifterID, meet planner.MeetID, handle string) error {
	for _, do := range []func() error{
		func() error { return tx.SaveLicence(id, store.Licence{Until: march1, Number: handle}) },
		func() error { return tx.SaveRoster(meet, store.Roster{Session: handle}) },
		func() error { return tx.SaveReview(meet, store.Review{Strength: 1, Well: handle}, now) },
		func() error { return tx.MarkLeft(id, friend, now) },
		func() error { return takeOver(tx, id, friend, handle) },
	} {
		if err := do(); err != nil {
			return err
		}
	}
	return nil
}

// takeOver leaves what came to a member from a placeholder.
func takeOver(tx *store.Tx, id, friend planner.LifterID, handle string) error {
	from, err := tx.AddPlaceholder(planner.Lifter{Name: "Other name of " + handle}, now)
	if err != nil {
		return err
	}
	return tx.TakeOver(from, id, friend, now)
}

// train leaves what a member's weeks are made from and what was shown of them.
func train(tx *store.Tx, id, friend planner.LifterID) error {
	if err := tx.SaveTraining(id, store.Training{Weekdays: []planner.Weekday{time.Monday}}); err != nil {
		return err
	}
	if _, err := tx.AddWeekChange(id, load.Override{Of: load.Movement{Lift: planner.Squat}, Sets: 1}, friend, now); err != nil {
		return err
	}
	if err := tx.SaveTrainingWeek(id, store.TrainingWeek{Start: march1, Plan: []byte("{}"), Edits: []byte("[]")}, now); err != nil {
		return err
	}
	return tx.Prescribe(id, load.Day{Date: march1}, now)
}

// decide leaves what a member and a friend decide about the member's season.
func decide(tx *store.Tx, id, friend planner.LifterID, handle string) error {
	p, err := tx.ProposePlan(store.Plan{Lifter: id, Season: aSeason(0)}, now)
	if err != nil {
		return err
	}
	for _, do := range []func() error{
		func() error { _, err := tx.AddAway(store.Away{Lifter: id, From: march1, By: friend}, now); return err },
		func() error {
			return tx.TakeLiftOff(store.LiftOff{Lifter: id, Lift: planner.Squat, From: march1, Until: march1.AddDays(7), By: friend}, now)
		},
		func() error {
			_, err := tx.AddPin(store.Pin{Lifter: id, Weeks: 4, Until: march1, By: friend}, now)
			return err
		},
		func() error {
			return tx.SetBound(store.Bound{Lifter: id, Kind: planner.Peaking, Most: 4, By: friend}, now)
		},
		func() error { return tx.AskApproval(p, store.CoachDecides, now) },
		func() error {
			_, err := tx.SettleApproval(p.ID, store.ApprovalDeclined, "another time", friend, now)
			return err
		},
		func() error {
			_, err := tx.AddNote(store.Note{Lifter: id, By: friend, What: "did something for " + handle}, now)
			return err
		},
		func() error { return tx.SetLifterDay(id, store.QuietDay, march1) },
	} {
		if err := do(); err != nil {
			return err
		}
	}
	return nil
}

func TestErasedMemberLeavesNoTrace(t *testing.T) {
	s := storetest.New(t)
	bo := liveFully(t, s, "bo", 0)
	before := export(t, s)
	zora := liveFully(t, s, "zora", bo)
	update(t, s, func(tx *store.Tx) error { // the other way round: bo leans on zora
		l, err := tx.Lifter(bo)
		if err != nil {
			return err
		}
		l.Coach = zora
		if err := tx.SaveLifter(l, now); err != nil {
			return err
		}
		if err := leanOn(tx, bo, zora); err != nil {
			return err
		}
		return tx.FixSet(bo, march1, 1, aSet(march1), zora, now)
	})
	update(t, s, func(tx *store.Tx) error { return tx.EraseLifter(zora) })
	after := export(t, s)
	for table, rows := range after {
		for _, row := range rows {
			text := strings.ToLower(fmt.Sprint(row))
			if strings.Contains(text, "zora") {
				t.Errorf("%s still knows zora: %v", table, row)
			}
			for _, column := range []string{"lifter_id", "owner_id", "by_id", "about_id", "coach_id", "handler_id"} {
				if row[column] == float64(zora) {
					t.Errorf("%s.%s still points at the erased member", table, column)
				}
			}
		}
		want := len(before[table])
		if table == "set_history" {
			want++ // zora's correction of bo's set is part of bo's log
		}
		if len(rows) != want {
			t.Errorf("%s has %d rows, want %d", table, len(rows), want)
		}
	}
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
	s.Close()
	file, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(bytes.ToLower(file), []byte("zora")) {
		t.Error("the bytes of the file still hold the name")
	}
	s = storetest.Reopen(t, s)
	gone := func(tx *store.Tx) error { return tx.EraseLifter(zora) }
	wantKind(t, s.Update(t.Context(), gone), planner.NotFound)
	if next := join(t, s, "cleo"); next <= zora {
		t.Errorf("the number %d is used again", next)
	}
}

// leanOn lets a friend decide for a member what the member has decided before, so
// that the number of rows stays.
func leanOn(tx *store.Tx, id, friend planner.LifterID) error {
	err := tx.TakeLiftOff(store.LiftOff{Lifter: id, Lift: planner.Squat, From: march1, Until: march1.AddDays(7), By: friend}, now)
	if err != nil {
		return err
	}
	return tx.SetBound(store.Bound{Lifter: id, Kind: planner.Peaking, Most: 4, By: friend}, now)
}

// A post to several members is taken back when one is erased; what it would have
// told the others is due again.
func TestEraseFreesTheFactsOfOthers(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	shared := aPost("shared")
	shared.Person = ""
	facts := []store.Fact{{Key: "ana/1", Lifter: ana, Kind: "k", Due: now}, {Key: "bo/1", Lifter: bo, Kind: "k", Due: now}}
	again := func() (fresh bool) {
		update(t, s, func(tx *store.Tx) (err error) { fresh, err = tx.QueuePost(shared, facts, now); return err })
		return fresh
	}
	again()
	update(t, s, func(tx *store.Tx) error { return tx.EraseLifter(ana) })
	if got := state(t, s, "bo/1"); got != "unknown" {
		t.Errorf("bo's fact is %q, want it forgotten", got)
	}
	facts = facts[1:]
	if !again() || len(claim(t, s, now.Add(time.Minute), 9)) != 1 {
		t.Error("the post for the other member cannot be queued again")
	}
}

// A bot thrown out of its server keeps nothing of the club.
func TestErasedClubLeavesNoTrace(t *testing.T) {
	s := storetest.New(t)
	liveFully(t, s, "zora", liveFully(t, s, "bo", 0))
	update(t, s, func(tx *store.Tx) error {
		club, err := tx.Club()
		if err != nil {
			return err
		}
		club.LogChannel = "#zora-logs"
		announcement := aPost("club/announcement")
		announcement.Person = ""
		announcement.Body = []byte(`{"text":"zora begins"}`)
		for _, do := range []func() error{
			func() error { return tx.SaveClub(club) },
			func() error { return tx.SaveHome("100") },
			func() error { return tx.MarkRemoved(now) },
			func() error { return tx.SetBound(store.Bound{Kind: planner.Peaking, Most: 5}, now) },
			func() error { return tx.SetDecider("zora's group", store.BothDecide) },
			func() error { return tx.SaveSignIns([]time.Time{now}) },
			func() error { return tx.AddButton(store.Button{Token: "all", Label: "zora", Action: "a", Made: now}) },
			func() error { return tx.Audit(0, 0, "zora was named", now) },
			func() error { _, err := tx.FreshEvent("e", now); return err },
			func() error { _, err := tx.QueuePost(announcement, nil, now); return err },
			tx.EraseClub,
		} {
			if err := do(); err != nil {
				return err
			}
		}
		return nil
	})
	kept := map[string]bool{"origin": true, "sign_ins": true}
	for table, rows := range export(t, s) {
		if len(rows) > 0 && !kept[table] {
			t.Errorf("%s still has %v", table, rows)
		}
	}
	s.Close()
	file, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(bytes.ToLower(file), []byte("zora")) {
		t.Error("the bytes of the file still hold the name")
	}
}
