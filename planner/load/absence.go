package load

import (
	"slices"

	"blockbell/planner"
)

// trained returns the request with the weeks of its season's blocks counted as they
// are trained: without weeks away.
func (r Request) trained() Request {
	r.Season = counted(r.Season, r.WeekStart, r.Aways)
	return r
}

// counted returns blocks with the weeks in them that are trained.
func counted(season []planner.Block, ws planner.Weekday, away []planner.Away) []planner.Block {
	if len(away) == 0 {
		return season
	}
	out := slices.Clone(season)
	for i, b := range out {
		_, out[i].Weeks = planner.WeekIn(b, b.End, ws, away)
	}
	return out
}

// withoutAway takes the sessions off on which the lifter is away.
func (j *job) withoutAway(days []Day) []Day {
	return slices.DeleteFunc(days, func(d Day) bool {
		return slices.ContainsFunc(j.Aways, func(a planner.Away) bool { return a.On(d.Date) })
	})
}

// trainedBefore is the last day before a day that lies in no time away.
func (r Request) trainedBefore(day planner.Date) planner.Date {
	day = day.AddDays(-1)
	for range r.Aways { // they may follow each other, in any order
		for _, a := range r.Aways {
			if a.On(day) {
				day = a.From.AddDays(-1)
			}
		}
	}
	return day
}
