package load

import (
	"math"
	"slices"

	"blockbell/planner"
)

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
	if p.tooSoon(l, d) {
		cost += 16
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
// least five days apart; heavy deadlifts at least 7, from 60 years 10.
func (p *peak) placeEarlier(l planner.Lift) {
	apart := 5
	if l == planner.Deadlift && p.j.age >= 60 {
		apart = heavyApart
	} else if l == planner.Deadlift {
		apart = 7 // it recovers slowest (survey of Travis et al. 2021)
	}
	for i := len(p.days) - 1; i >= 0 && len(p.heavy[l]) > 0; i-- {
		d := p.days[i]
		latest := p.heavy[l][len(p.heavy[l])-1]
		main := slices.Contains(p.j.layout[d.at], slot{l, 0})
		if main && !p.tooSoon(l, d.date) && d.date.DaysUntil(latest) >= apart && !p.beside(l, d.date) {
			p.heavy[l] = append(p.heavy[l], d.date)
		}
	}
}

// heavyApart is the fewest days between two heavy deadlifts from 60 years on (common
// practice: 10 to 14).
const heavyApart = 10

// tooSoon tells whether a heavy day would come too near to the strength block before.
func (p *peak) tooSoon(l planner.Lift, d planner.Date) bool {
	return l == planner.Deadlift && p.j.age >= 60 && p.before != 0 && p.before.DaysUntil(d) < heavyApart
}

// heavyBefore is the last heavy deadlift of a strength block that ends with the day
// before this one; zero where its last week has none.
func (j *job) heavyBefore() (last planner.Date) {
	if j.before.Kind != planner.Strength || j.before.End.AddDays(1) != j.block.Start {
		return 0
	}
	before := j.Request
	before.Today, before.Block, before.Previous, before.Table = j.before.End, planner.Block{}, nil, nil
	k, err := newJob(before)
	if err != nil || k.restsDeadlift(planner.Deadlift, k.stage) {
		return 0
	}
	for _, t := range k.dates(k.start, k.end) {
		if slices.Contains(k.layout[t.at], slot{planner.Deadlift, 0}) {
			last = t.date
		}
	}
	return last
}

// beside tells whether a heavy day of the other lower-body lift is a neighbour.
func (p *peak) beside(l planner.Lift, d planner.Date) bool {
	other := map[planner.Lift]planner.Lift{planner.Squat: planner.Deadlift, planner.Deadlift: planner.Squat}[l]
	return slices.ContainsFunc(p.heavy[other], func(o planner.Date) bool { return abs(o.DaysUntil(d)) == 1 })
}
