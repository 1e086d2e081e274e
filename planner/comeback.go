package planner

import "slices"

// Return is how training goes on after a time away, in one training week of it. All
// of it is common practice; no trial compares ways back for lifters.
type Return struct {
	Away            // the time away; those that follow each other are one
	Week, Weeks int // of the way back, from 1
	// SetsPercent and LoadPercent are shares of what was planned or done before.
	SetsPercent, LoadPercent int
	Repeat                   bool // do the last week before the break once more
	Anew                     bool // build up anew: four weeks of many, lighter sets before heavier ones
	LightUntil               Date // first day for 85 % and more again; zero: no such rule
}

// Days is how long the time away lasted.
func (r Return) Days() int { return r.From.DaysUntil(r.To) + 1 }

// Back is the first day of training again.
func (r Return) Back() Date { return r.To.AddDays(1) }

// Away lasts from this many days on: up to it, training goes on as planned.
const shortestAway = 7

// lightDays is how many days of a return have nothing at 85 % or more.
const lightDays = 9

// waysBack are the weeks back by days away, from the longest down.
var waysBack = []struct {
	days  int
	light bool
	anew  bool
	again bool
	weeks [][2]int // percent of sets and of load
}{
	{days: 56, anew: true, weeks: [][2]int{{50, 80}, {70, 85}, {90, 90}, {100, 95}}},
	{days: 28, light: true, weeks: [][2]int{{50, 85}, {70, 90}, {90, 95}}},
	{days: 14, light: true, weeks: [][2]int{{60, 90}, {80, 95}}},
	{days: shortestAway, again: true, weeks: [][2]int{{100, 95}}},
}

// ReturnOn tells what holds on a day for a lifter who was away at the given times;
// false where training goes on as planned. The weeks of the return are training
// weeks: the one of the first day back where at least four days of it are left, and
// else that and the one after it together. Nothing at 85 % or more before the tenth
// day after two weeks away or more.
func ReturnOn(told []Away, day Date, weekStart Weekday) (Return, bool) {
	for _, a := range slices.Backward(longAways(told, day)) {
		if a.To >= day {
			continue
		}
		if r, ok := returnFrom(a, day, weekStart); ok {
			return r, true
		}
	}
	return Return{}, false
}

// returnFrom is ReturnOn for one time away that is over.
func returnFrom(a Away, day Date, weekStart Weekday) (Return, bool) {
	r := Return{Away: a}
	first := r.Back().OnOrBefore(weekStart)
	if awayWeek([]Away{a}, first) {
		first = first.AddDays(7)
	}
	n := max(0, first.DaysUntil(day.OnOrBefore(weekStart))/7)
	for _, w := range waysBack {
		if r.Days() < w.days {
			continue
		}
		if n >= len(w.weeks) {
			return Return{}, false
		}
		r.Week, r.Weeks, r.Repeat, r.Anew = n+1, len(w.weeks), w.again, w.anew
		r.SetsPercent, r.LoadPercent = w.weeks[n][0], w.weeks[n][1]
		if w.light && r.Back().DaysUntil(day) < lightDays {
			r.LightUntil = r.Back().AddDays(lightDays)
		}
		return r, true
	}
	return Return{}, false
}
