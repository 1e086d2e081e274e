package load

import (
	"slices"

	"blockbell/planner"
)

// Days before a first meet on which the lifter plays the meet once (common
// practice).
const (
	mockFrom = 14
	mockTo   = 21
	mockAim  = 17
	mockNote = "Mock meet:"
)

// mockMeet is the day of the mock meet before a first meet, zero for none; other
// heavy days give way to it.
func (p *peak) mockMeet() planner.Date {
	j := p.j
	if j.Lifter.HasCompeted || j.Version == Cautious {
		return 0
	}
	var best planner.Date
	for _, d := range p.days {
		out := j.out(d.date)
		if out < mockFrom || out > mockTo {
			continue
		}
		if best == 0 || abs(out-mockAim) < abs(j.out(best)-mockAim) {
			best = d.date
		}
	}
	if best == 0 {
		return 0
	}
	for l, days := range p.heavy {
		p.heavy[l] = slices.DeleteFunc(days, func(d planner.Date) bool { return d != days[0] && abs(d.DaysUntil(best)) < 4 })
	}
	return best
}

// mockDay is the mock meet: one single of each lift that counts, and lighter sets
// after it. From 50 years the
// deadlift is no heavy one, since its last heavy day comes too soon before or after
// (common practice: at least 7 days apart, from 60 years 10).
func (p *peak) mockDay(on planner.Date) Day {
	j := p.j
	day := Day{Date: on, Note: mockNote + " lift as on meet day, in meet order, with commands and full depth and pause. The last two warm-ups are the first two attempts."}
	for _, l := range planner.CompetitionLifts() {
		switch {
		case !j.counts(l):
		case j.finding(j.stage, l):
			day.Work = append(day.Work, j.findWork(l, p.mockSets[l]))
		case l == planner.Deadlift && j.age >= 50:
			day.Note = join(day.Note, "The deadlift stays easy: heavy ones come further apart at your age.")
			day.Work = append(day.Work, j.work(Movement{l, ""}, WorkSets, p.mockSets[l], j.fitted(j.stage, l, j.nearest(1, 83, 80, heavyFrom-1), heavyFrom-1)))
		default:
			day.Work = append(day.Work,
				j.work(Movement{l, ""}, Top, 1, j.fitted(j.stage, l, j.nearest(1, 88, 85, 90), firstMeetCeiling)),
				j.work(Movement{l, ""}, BackOff, p.mockSets[l]-1, j.fitted(j.stage, l, dose{4, 4}, 85)))
		}
	}
	return day
}
