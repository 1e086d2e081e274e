package load

import (
	"slices"

	"blockbell/planner"
)

// taperDays is the length of the taper before a meet (surveys: 7 to 10 days in
// raw lifters, about 17 in interviews with elite lifters, Travis et al. 2021,
// Pritchard et al. 2016; by level and mass: common practice).
func (j *job) taperDays() int {
	switch {
	case j.event == planner.BenchOnly:
		return 8
	case j.mass() > 105*planner.Kilogram || j.level == planner.Elite:
		return 15
	}
	return [3]int{7, 11, 14}[tier(j.level)]
}

// mass is what the rows by mass go by: bodyweight, or the class where none is told.
func (j *job) mass() planner.Grams {
	if j.Lifter.Bodyweight > 0 {
		return j.Lifter.Bodyweight
	}
	if j.Lifter.Class.Plus {
		return j.Lifter.Class.Limit + 1
	}
	return j.Lifter.Class.Limit
}

// lastHeavy is how many days before the meet a lift is last lifted heavy:
// aimed at, and the window it may fall in (surveys: squat and deadlift 7 to 10
// days, bench under 7, Travis et al. 2021; by level: common practice).
func (j *job) lastHeavy(l planner.Lift) (aim int, window span) {
	window = [3]span{{7, 10}, {4, 7}, {7, 14}}[index(l)]
	aims := [3][3]int{{7, 5, 8}, {8, 6, 9}, {9, 6, 11}}[tier(j.level)]
	if j.mass() > 120*planner.Kilogram || j.age >= 50 {
		aims = [3]int{10, 7, 13}
	}
	return aims[index(l)], window
}

// peak is the calendar of a peaking block, counted back from its meet.
type peak struct {
	j      *job
	days   []trainingDay // the whole block, the last session last
	last   planner.Date  // last session, light
	before planner.Date  // last heavy deadlift of the strength block before, from 60 years on; zero for none
	mock   planner.Date  // the mock meet before a first meet; zero for none
	heavy  map[planner.Lift][]planner.Date
	ref    map[planner.Lift]int // weekly sets before the taper
	// sets are those of this week by grade on days before the last two weeks, mockSets
	// those of the mock meet.
	sets     map[planner.Lift][]int
	mockSets map[planner.Lift]int
	more     map[planner.Lift]int // sets that the last heavy day has besides
}

func (j *job) out(d planner.Date) int { return d.DaysUntil(j.meet) }

func (j *job) newPeak() *peak {
	p := &peak{j: j, heavy: map[planner.Lift][]planner.Date{}, ref: map[planner.Lift]int{}}
	from := j.block.Start
	p.days = j.dates(from, j.meet.AddDays(-2))
	p.closeDown()
	if j.age >= 60 {
		p.before = j.heavyBefore()
	}
	for _, l := range planner.CompetitionLifts() {
		p.ref[l] = j.beforeTaper(l)
	}
	p.placeHeavy()
	return p
}

// beforeTaper is the weekly sets of a lift that the taper is a share of: those of
// the last week before it.
func (j *job) beforeTaper(l planner.Lift) int {
	if !j.counts(l) {
		return j.upkeepSets(l)
	}
	weeks := max(1, j.block.Weeks-1)
	if j.taperDays() > 10 {
		weeks = max(1, j.block.Weeks-2)
	}
	st := stage{kind: planner.Peaking, week: weeks, loading: weeks - 1}
	return j.target(st, l)
}

// Days before a meet of the last session (means of three surveys: 3 to 3.9; 2 to
// 4 days of rest do best in the review of Pritchard et al. 2015).
const (
	lastSessionAim = 3
	lastSessionMin = 2
	lastSessionMax = 4
)

// closeDown fixes the last session: the training day 2 to 4 days out nearest to
// 3, or a session moved to 3 days out where there is none.
func (p *peak) closeDown() {
	best := -1
	for i, d := range p.days {
		out := p.j.out(d.date)
		if out < lastSessionMin || out > lastSessionMax {
			continue
		}
		if best < 0 || abs(out-lastSessionAim) < abs(p.j.out(p.days[best].date)-lastSessionAim) {
			best = i
		}
	}
	if best < 0 {
		p.last = p.j.meet.AddDays(-lastSessionAim)
		if p.last < p.j.block.Start {
			return
		}
		p.days = slices.DeleteFunc(p.days, func(d trainingDay) bool { return d.date > p.last })
		p.days = append(p.days, trainingDay{p.last, len(p.j.days) - 1})
		return
	}
	p.last = p.days[best].date
	p.days = p.days[:best+1]
}
