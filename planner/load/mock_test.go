package load_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// From 50 years heavy deadlifts, at 85 % and more, keep a week between them in
// peaking, from 60 ten days, also around the mock meet of a first meet (common
// practice).
func TestHeavyDeadliftsKeepApartAroundAMockMeet(t *testing.T) {
	mocks := 0
	for _, age := range []int{25, 55, 65} {
		for days := 2; days <= 6; days++ {
			for meetOn := time.Sunday; meetOn <= time.Saturday; meetOn++ {
				r := strengthRequest()
				r.Lifter.Days, r.Lifter.HasCompeted, r.Lifter.Born = days, false, planner.NewDate(2026-age, 6, 1)
				meet := monday.AddDays(28).OnOrAfter(meetOn)
				r.Season = []planner.Block{{Kind: planner.Peaking, Start: monday, End: meet.AddDays(-1), Weeks: 5}}
				r.Meets = []planner.Meet{{ID: 1, Date: meet, Kind: planner.Main}}
				var last planner.Date
				for r.Today = monday; r.Today < meet; r.Today = r.Today.AddDays(7) {
					for _, d := range mustWeek(t, r).Days {
						if mocked(d) {
							mocks++
						}
						if !heavyDeadlift(d) {
							continue
						}
						if gap := last.DaysUntil(d.Date); last != 0 && (age >= 50 && gap < 7 || age >= 60 && gap < 10) {
							t.Errorf("age %d, %d days, meet on %s: heavy deadlifts %s and %s", age, days, meetOn, last, d.Date)
						}
						last = d.Date
					}
				}
			}
		}
	}
	if mocks < 100 {
		t.Errorf("%d mock meets in 105 first meets", mocks)
	}
}

func mocked(d load.Day) bool { return len(d.Note) >= 9 && d.Note[:9] == "Mock meet" }

func heavyDeadlift(d load.Day) bool {
	for _, w := range d.Work {
		if w.Lift == planner.Deadlift && w.Percent >= 85 {
			return true
		}
	}
	return false
}
