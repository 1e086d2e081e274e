package planner

// Return is how training goes on after a time away, in one week of it. All of it
// is common practice; no trial compares ways back for lifters.
type Return struct {
	Week, Weeks int // of the way back, from 1
	// SetsPercent and LoadPercent are shares of what was planned or done before.
	SetsPercent, LoadPercent int
	Repeat                   bool // do the last week before the break once more
	Anew                     bool // build up anew: at least four weeks of many, lighter sets
	LightUntil               Date // first day for 85 % and more again; zero: no such rule
}

// Away lasts from this many days on: up to it, training goes on as planned.
const shortestAway = 7

// waysBack are the weeks back by days away, from the longest down.
var waysBack = []struct {
	days  int
	light int // days of the return without 85 % or more
	anew  bool
	again bool
	weeks [][2]int // percent of sets and of load
}{
	{days: 56, anew: true, weeks: [][2]int{{50, 85}, {70, 90}, {90, 95}, {100, 100}}},
	{days: 28, weeks: [][2]int{{50, 85}, {70, 90}, {90, 95}}},
	{days: 14, light: 9, weeks: [][2]int{{60, 90}, {80, 95}}},
	{days: shortestAway, again: true, weeks: [][2]int{{100, 95}}},
}

// ReturnOn tells what holds on a day for a lifter who was away from first to last
// day, both inclusive; false where training goes on as planned. Weeks of the return
// are counted from the day after the last. Nothing at 85 % or more before the
// tenth day after two to four weeks away.
func ReturnOn(first, last, day Date) (Return, bool) {
	away, back := first.DaysUntil(last)+1, last.DaysUntil(day)-1
	if back < 0 {
		return Return{}, false
	}
	for _, w := range waysBack {
		if away < w.days {
			continue
		}
		n := back / 7
		if n >= len(w.weeks) {
			return Return{}, false
		}
		r := Return{Week: n + 1, Weeks: len(w.weeks), SetsPercent: w.weeks[n][0], LoadPercent: w.weeks[n][1], Repeat: w.again, Anew: w.anew}
		if w.light > 0 && back < w.light {
			r.LightUntil = last.AddDays(1 + w.light)
		}
		return r, true
	}
	return Return{}, false
}
