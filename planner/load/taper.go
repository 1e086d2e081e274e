package load

import (
	"math"
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
	j     *job
	days  []trainingDay // the whole block, the last session last
	last  planner.Date  // last session, light
	mock  planner.Date  // the mock meet before a first meet; zero for none
	heavy map[planner.Lift][]planner.Date
	ref   map[planner.Lift]int // weekly sets before the taper
}

func (j *job) out(d planner.Date) int { return d.DaysUntil(j.meet) }

func (j *job) newPeak() *peak {
	p := &peak{j: j, heavy: map[planner.Lift][]planner.Date{}, ref: map[planner.Lift]int{}}
	from := j.block.Start
	p.days = j.dates(from, j.meet.AddDays(-2))
	p.closeDown()
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

// placeHeavy chooses the heavy days of each lift, latest first: the last one inside
// its window, the earlier ones on the lift's main day of the week. Heavy squats and
// deadlifts never fall on neighbouring days.
func (p *peak) placeHeavy() {
	last := map[planner.Lift]planner.Date{}
	last[planner.Squat], last[planner.Deadlift] = p.placeLower()
	last[planner.Bench], _ = p.nearestDay(planner.Bench)
	for _, l := range planner.CompetitionLifts() {
		if last[l] != 0 {
			p.heavy[l] = []planner.Date{last[l]}
		}
	}
	for _, l := range planner.CompetitionLifts() {
		p.placeEarlier(l)
	}
}

// placeLower chooses the last heavy squat and deadlift together: at least two days
// apart, else on one day.
func (p *peak) placeLower() (squat, deadlift planner.Date) {
	cost := math.MaxInt
	for _, a := range p.candidates(planner.Squat) {
		for _, b := range p.candidates(planner.Deadlift) {
			gap := abs(a.date.DaysUntil(b.date))
			if gap == 1 {
				continue
			}
			c := p.miss(planner.Squat, a.date) + p.miss(planner.Deadlift, b.date)
			if gap == 0 {
				c += 5
			}
			if b.date > a.date {
				c++ // the deadlift recovers slowest, so it comes first
			}
			if c < cost {
				cost, squat, deadlift = c, a.date, b.date
			}
		}
	}
	if !p.j.counts(planner.Squat) || !p.j.counts(planner.Deadlift) {
		for _, l := range []planner.Lift{planner.Squat, planner.Deadlift} {
			if d, ok := p.nearestDay(l); ok && p.j.counts(l) {
				if l == planner.Squat {
					squat, deadlift = d, 0
				} else {
					squat, deadlift = 0, d
				}
			}
		}
	}
	return squat, deadlift
}

// miss is how far a day lies from where the last heavy day of a lift should be;
// days outside the window cost more, and so do days that never have the lift.
func (p *peak) miss(l planner.Lift, d planner.Date) int {
	aim, window := p.j.lastHeavy(l)
	out := p.j.out(d)
	cost := 2*abs(out-aim) + 8*max(0, window.lo-out, out-window.hi)
	at := slices.Index(p.j.days, d.Weekday())
	if at < 0 || !slices.ContainsFunc(p.j.layout[at], func(s slot) bool { return s.lift == l }) {
		cost++
	}
	return cost
}

// candidates are the days on which the last heavy session may fall: in the last
// two weeks and never nearer to the meet than the window.
func (p *peak) candidates(l planner.Lift) []trainingDay {
	if !p.j.counts(l) {
		return nil
	}
	_, window := p.j.lastHeavy(l)
	var days []trainingDay
	for _, d := range p.days {
		if out := p.j.out(d.date); d.date < p.last && out >= window.lo && out <= taperFrom {
			days = append(days, d)
		}
	}
	return days
}

// nearestDay is the best last heavy day of a lift alone.
func (p *peak) nearestDay(l planner.Lift) (planner.Date, bool) {
	var best planner.Date
	for _, d := range p.candidates(l) {
		if best == 0 || p.miss(l, d.date) < p.miss(l, best) {
			best = d.date
		}
	}
	return best, best != 0
}

// placeEarlier adds the lift's main day of each week before its last heavy day, at
// least five days apart; heavy deadlifts at least 7 from 50 years, 10 from 60.
func (p *peak) placeEarlier(l planner.Lift) {
	apart := 5
	if l == planner.Deadlift && p.j.age >= 60 {
		apart = 10
	} else if l == planner.Deadlift && p.j.age >= 50 {
		apart = 7
	}
	for i := len(p.days) - 1; i >= 0 && len(p.heavy[l]) > 0; i-- {
		d := p.days[i]
		latest := p.heavy[l][len(p.heavy[l])-1]
		main := slices.Contains(p.j.layout[d.at], slot{l, 0})
		if main && d.date.DaysUntil(latest) >= apart && !p.beside(l, d.date) {
			p.heavy[l] = append(p.heavy[l], d.date)
		}
	}
}

// beside tells whether a heavy day of the other lower-body lift is a neighbour.
func (p *peak) beside(l planner.Lift, d planner.Date) bool {
	other := map[planner.Lift]planner.Lift{planner.Squat: planner.Deadlift, planner.Deadlift: planner.Squat}[l]
	return slices.ContainsFunc(p.heavy[other], func(o planner.Date) bool { return abs(o.DaysUntil(d)) == 1 })
}
