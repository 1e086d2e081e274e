package planner

import (
	"testing"
	"time"
)

// The steps of the way back are common practice.
func TestReturnEasesInByDaysAway(t *testing.T) {
	last := NewDate(2027, 3, 7) // a Sunday
	light := NewDate(2027, 3, 17)
	for _, c := range []struct {
		away, back int // days away, day of the return from 1
		want       Return
		ok         bool
	}{
		{6, 1, Return{}, false},
		{7, 1, Return{Week: 1, Weeks: 1, SetsPercent: 100, LoadPercent: 95, Repeat: true}, true},
		{13, 7, Return{Week: 1, Weeks: 1, SetsPercent: 100, LoadPercent: 95, Repeat: true}, true},
		{13, 8, Return{}, false},
		{14, 1, Return{Week: 1, Weeks: 2, SetsPercent: 60, LoadPercent: 90, LightUntil: light}, true},
		{27, 9, Return{Week: 2, Weeks: 2, SetsPercent: 80, LoadPercent: 95, LightUntil: light}, true},
		{27, 10, Return{Week: 2, Weeks: 2, SetsPercent: 80, LoadPercent: 95}, true},
		{27, 15, Return{}, false},
		{28, 1, Return{Week: 1, Weeks: 3, SetsPercent: 50, LoadPercent: 85, LightUntil: light}, true},
		{55, 21, Return{Week: 3, Weeks: 3, SetsPercent: 90, LoadPercent: 95}, true},
		{56, 1, Return{Week: 1, Weeks: 4, SetsPercent: 50, LoadPercent: 80, Anew: true}, true},
		{56, 28, Return{Week: 4, Weeks: 4, SetsPercent: 100, LoadPercent: 95, Anew: true}, true},
		{200, 29, Return{}, false},
		{14, 0, Return{}, false}, // still away
	} {
		got, ok := ReturnOn([]Away{{From: last.AddDays(1 - c.away), To: last}}, last.AddDays(c.back), time.Monday)
		if c.ok {
			c.want.Away = Away{From: last.AddDays(1 - c.away), To: last}
		}
		if got != c.want || ok != c.ok {
			t.Errorf("%d days away, day %d back: %+v, %v; want %+v, %v", c.away, c.back, got, ok, c.want, c.ok)
		}
	}
}

// The weeks back are training weeks: a rest of a week after which four days are left
// is the first, a shorter one goes with the week behind it.
func TestReturnGoesByTrainingWeeks(t *testing.T) {
	monday := NewDate(2027, 3, 8)
	for back, want := range map[int][]int{0: {1, 2, 0}, 2: {1, 2, 0}, 3: {1, 2, 0}, 4: {1, 1, 2}, 6: {1, 1, 2}} {
		away := []Away{{From: monday.AddDays(back - 20), To: monday.AddDays(back - 1)}}
		for week, n := range want {
			day := monday.AddDays(7*week + 6)
			if r, _ := ReturnOn(away, day, time.Monday); r.Week != n {
				t.Errorf("back on day %d of a week, %d weeks on: week %d of the return, want %d", back+1, week, r.Week, n)
			}
		}
	}
	// Two times that follow each other are one, and an old one does not matter.
	away := []Away{{From: monday.AddDays(-7), To: monday.AddDays(-1)}, {From: monday.AddDays(-20), To: monday.AddDays(-8)}, {From: monday.AddDays(-200), To: monday.AddDays(-100)}}
	if r, ok := ReturnOn(away, monday, time.Monday); !ok || r.Days() != 20 || r.Week != 1 || r.Weeks != 2 {
		t.Errorf("two in a row: %+v", r)
	}
}
