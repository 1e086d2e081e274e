package nudge_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// absences are what each kind must do on a day away: with a last day told, and while
// nobody knows it. It is written out here once more so that a new kind must be decided on.
var absences = map[nudge.Kind][2]bool{ // told with a last day known, told without
	nudge.MeetNear: {true, true}, nudge.TaperStart: {true, false}, nudge.LastHeavy: {false, false}, nudge.DeloadWeek: {false, false},
	nudge.EntryCloses: {true, true}, nudge.Openers: {true, false}, nudge.WeighIn: {true, false}, nudge.Checklist: {true, false},
	nudge.BlockBegin: {false, false}, nudge.BlockEnd: {false, false}, nudge.BlockWaits: {false, false}, nudge.PeakingLong: {false, false},
	nudge.AfterMeet: {true, false}, nudge.Approval: {true, true}, nudge.DoneForYou: {true, true}, nudge.Silence: {false, false},
	nudge.LicenceEnds: {true, true}, nudge.BlockLate: {false, false},
	nudge.VeryTired: {false, false}, nudge.Plateau: {false, false}, nudge.Stale: {false, false}, nudge.WorkFit: {false, false},
}

// everything is a club in which every kind of nudge falls due at some time of 2027 for a
// lifter: a meet that moves away under a long peak, an entry, a class, a coach's part.
func everything(kind nudge.Kind) nudge.Facts {
	m := ana()
	switch kind {
	case nudge.VeryTired:
		m = said(m, day(time.March, 7), "tt")
	case nudge.Stale:
		m = said(longMuscle(), day(time.February, 7), "..ss")
	case nudge.Plateau:
		m.Stalls = []nudge.Stall{stall(day(time.March, 10), day(time.March, 10))}
	case nudge.WorkFit:
		m = worked(m, day(time.March, 13), 7, 3, 10)
	default:
		m.LastLogged = day(time.March, 1)
	}
	m.Licence = day(time.April, 30)
	m.Meets[0].EntryCloses = day(time.May, 20)
	m.Lifter.Class = planner.Class{Limit: 69 * planner.Kilogram}
	m.Done = []nudge.Done{{ID: 1, What: "A meet was added.", By: "Cap", At: day(time.March, 2).At(time.UTC, 12, 0)}}
	m.Asked = []nudge.Asked{{Plan: 9, Lifter: "Ben", At: day(time.March, 2).At(time.UTC, 12, 0)}}
	f := club(m)
	switch kind {
	case nudge.BlockWaits, nudge.BlockLate:
		f.Ask = true
	case nudge.PeakingLong:
		f.Members[0].Meets[0].Date = day(time.October, 2)
	}
	return f
}

// TestEveryKindKnowsWhatToDoAway: on a day on which a kind falls due, the lifter is away.
func TestEveryKindKnowsWhatToDoAway(t *testing.T) {
	for _, spec := range nudge.Kinds() {
		want, decided := absences[spec.Kind]
		if !decided || spec.Away == "" {
			t.Errorf("nobody decided what becomes of %s while its lifter is away", spec.Kind)
			continue
		}
		of := func(f nudge.Facts) []nudge.Nudge {
			return slices.DeleteFunc(nudge.Due(f, yearFrom, yearTo), func(n nudge.Nudge) bool { return n.Kind != spec.Kind })
		}
		here := of(everything(spec.Kind))
		if len(here) == 0 {
			t.Errorf("%s never falls due in the club of this test", spec.Kind)
			continue
		}
		first := here[0]
		for i, away := range []nudge.Away{{From: first.Day.AddDays(-2), To: first.Day.AddDays(2)}, {From: first.Day.AddDays(-2)}} {
			t.Run(fmt.Sprint(spec.Kind, " ", i), func(t *testing.T) {
				f := everything(spec.Kind)
				f.Members[0].Aways = []nudge.Away{away}
				told := slices.ContainsFunc(of(f), func(n nudge.Nudge) bool { return n.Key == first.Key && n.Day == first.Day })
				if told != want[i] {
					t.Errorf("away from %s to %s: told %v, want %v", away.From, away.To, told, want[i])
				}
				if i == 1 {
					for _, n := range of(f) {
						if n.Day >= away.From && n.Place == nudge.Named {
							t.Errorf("named in the club's post on %s: %s", n.Day, n.Key)
						}
					}
				}
			})
		}
	}
}

// Where blocks wait to be begun, somebody who comes back to one that has waited through
// a time away is asked on the first day back, and not before.
func TestWhoComesBackIsAsked(t *testing.T) {
	f := everything(nudge.BlockWaits)
	f.Members[0].Aways = []nudge.Away{{From: day(time.February, 15), To: day(time.March, 14)}}
	var keys []string
	for _, n := range nudge.Due(f, yearFrom, day(time.March, 20).At(time.UTC, 8, 0)) {
		if n.Kind == nudge.BlockWaits {
			keys = append(keys, n.Day.String()+" "+n.Key)
		}
	}
	if want := []string{"2027-03-15 ana/block-waits/b20270104/2027-02-21/back"}; !slices.Equal(keys, want) {
		t.Errorf("asked %q, want %q", keys, want)
	}
}
