package planner

import "testing"

// The steps of the way back are common practice.
func TestReturnEasesInByDaysAway(t *testing.T) {
	last := NewDate(2027, 3, 7)
	for _, c := range []struct {
		away, back int // days away, day of the return from 1
		want       Return
		ok         bool
	}{
		{6, 1, Return{}, false},
		{7, 1, Return{Week: 1, Weeks: 1, SetsPercent: 100, LoadPercent: 95, Repeat: true}, true},
		{13, 7, Return{Week: 1, Weeks: 1, SetsPercent: 100, LoadPercent: 95, Repeat: true}, true},
		{13, 8, Return{}, false},
		{14, 1, Return{Week: 1, Weeks: 2, SetsPercent: 60, LoadPercent: 90, LightUntil: NewDate(2027, 3, 17)}, true},
		{27, 9, Return{Week: 2, Weeks: 2, SetsPercent: 80, LoadPercent: 95, LightUntil: NewDate(2027, 3, 17)}, true},
		{27, 10, Return{Week: 2, Weeks: 2, SetsPercent: 80, LoadPercent: 95}, true},
		{27, 15, Return{}, false},
		{28, 1, Return{Week: 1, Weeks: 3, SetsPercent: 50, LoadPercent: 85}, true},
		{55, 21, Return{Week: 3, Weeks: 3, SetsPercent: 90, LoadPercent: 95}, true},
		{56, 1, Return{Week: 1, Weeks: 4, SetsPercent: 50, LoadPercent: 85, Anew: true}, true},
		{56, 28, Return{Week: 4, Weeks: 4, SetsPercent: 100, LoadPercent: 100, Anew: true}, true},
		{200, 29, Return{}, false},
		{14, 0, Return{}, false}, // still away
	} {
		got, ok := ReturnOn(last.AddDays(1-c.away), last, last.AddDays(c.back))
		if got != c.want || ok != c.ok {
			t.Errorf("%d days away, day %d back: %+v, %v; want %+v, %v", c.away, c.back, got, ok, c.want, c.ok)
		}
	}
}
