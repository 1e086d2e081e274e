package load_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// After 8 weeks away and more the sets come back by three a lift and week at most (common
// practice), and in the first four weeks to no more than a muscle block begins with.
func TestSetsComeBackSlowlyAfterAVeryLongBreak(t *testing.T) {
	for _, level := range []planner.Level{planner.Novice, planner.Intermediate, planner.Advanced, planner.Elite} {
		r := load.Request{WeekStart: time.Monday, Aways: []planner.Away{{From: monday.AddDays(-63), To: monday.AddDays(-1)}}}
		r.Lifter = planner.Lifter{Level: level, Days: 4, HasCompeted: true, Born: planner.NewDate(2000, 1, 1)}
		r.Season = []planner.Block{{Kind: planner.Hypertrophy, Start: monday, End: monday.AddDays(27), Weeks: 4}}
		r.Estimates = map[planner.Lift]load.Estimate{planner.Squat: {Kg: 200}, planner.Bench: {Kg: 140}, planner.Deadlift: {Kg: 240}}
		most := map[planner.Lift]int{planner.Squat: 10, planner.Bench: 12, planner.Deadlift: 6} // where the muscle block of the advanced begins
		last := map[planner.Lift]int{}
		for week := range 4 {
			r.Today = monday.AddDays(7 * week)
			p := mustWeek(t, r)
			for _, l := range planner.CompetitionLifts() {
				n := p.LiftSets[l]
				if n > most[l] || week > 0 && n > last[l]+3 {
					t.Errorf("%s, week %d: %d sets of %s after %d", level, week+1, n, l, last[l])
				}
				last[l] = n
			}
		}
	}
}
