package load

import (
	"slices"

	"blockbell/planner"
)

// ordinary is a session before the last two weeks. In the week of a mock meet, which
// stands for the main sessions, the other days are light.
func (p *peak) ordinary(t trainingDay) (work []Work) {
	j := p.j
	for _, s := range j.layout[t.at] {
		sets := p.sets[s.lift]
		switch {
		case s.grade >= len(sets) || sets[s.grade] == 0 || p.givesWay(s.lift, t.date):
		case s.grade == 0 && p.mocked() && j.counts(s.lift):
			work = append(work, j.slotWork(j.stage, slot{s.lift, 1}, sets[0])...)
		default:
			work = append(work, p.slot(s, t.date, sets[s.grade])...)
		}
	}
	return work
}

// mocked tells whether the mock meet lies in this week.
func (p *peak) mocked() bool { return p.mock != 0 && p.mock >= p.j.start && p.mock <= p.j.end }

// givesWay tells whether a squat or deadlift rests on a day because its neighbour is
// a heavy one of the same lift, or because the mock meet is tomorrow.
func (p *peak) givesWay(l planner.Lift, on planner.Date) bool {
	if l == planner.Bench {
		return false
	}
	beside := slices.ContainsFunc(p.heavy[l], func(d planner.Date) bool { return abs(d.DaysUntil(on)) == 1 })
	return beside && !slices.Contains(p.heavy[l], on) || p.mock != 0 && on == p.mock.AddDays(-1)
}

// Most sets of a lift in one session of peaking, and what the mock meet adds to its
// single where the week has no other day for it (common practice).
const (
	sessionMost = 5
	mockBackOff = 3
)

// layWeek fixes the sets of each lift by grade on the days of this week before the
// last two weeks, and those of the mock meet.
func (p *peak) layWeek() {
	p.sets, p.mockSets, p.more = map[planner.Lift][]int{}, map[planner.Lift]int{}, map[planner.Lift]int{}
	for _, l := range planner.CompetitionLifts() {
		p.sets[l] = slices.Clone(p.j.spreadSets(l))
		if p.mocked() && p.j.counts(l) {
			p.mockSets[l] = p.leastMock(l)
		}
		if mixed := p.j.out(p.j.end) <= taperFrom; p.j.counts(l) && p.j.back == nil && (mixed || p.mocked()) {
			p.balance(l)
		}
	}
}

// leastMock is the sets of a lift that the mock meet has anyway.
func (p *peak) leastMock(l planner.Lift) int {
	if l == planner.Deadlift && p.j.age >= 50 && !p.j.finding(p.j.stage, l) {
		return 1
	}
	return 2
}

// balance holds a lift to its sets of the week where a part of it lies in the last two
// weeks or the mock meet takes a day: what is too much goes, lightest first, and what
// is short of the low end of its range is made up for, on the days that are left or
// after the single of the mock meet.
func (p *peak) balance(l planner.Lift) {
	j, sets := p.j, p.sets[l]
	usable := p.gradesBefore(l, len(sets))
	planned := p.mockSets[l] + p.inside(l)
	for g := range sets {
		if !slices.Contains(usable, g) || g == 0 && p.mockSets[l] > 0 {
			sets[g] = 0
		}
		planned += sets[g]
	}
	want, _ := j.setsOf(l)
	for i := len(usable) - 1; i >= 0; i-- {
		less := max(0, min(sets[usable[i]], planned-want))
		sets[usable[i]], planned = sets[usable[i]]-less, planned-less
	}
	if early := j.out(j.start) - taperFrom; early < 4 && j.tapering() {
		return // most of the week is taper
	}
	least := j.leastSets(planner.Peaking, l)
	for _, g := range usable {
		more := max(0, min(sessionMost-sets[g], least-planned))
		sets[g], planned = sets[g]+more, planned+more
	}
	if p.mockSets[l] > 0 {
		p.mockSets[l] += max(0, min(least-planned, 1+mockBackOff-p.mockSets[l]))
	} else if !j.tapering() {
		p.more[l] = max(0, least-planned)
	}
}

// inside is the sets of a lift on the days of this week that lie in the last two
// weeks.
func (p *peak) inside(l planner.Lift) (n int) {
	sets := p.allot(l)
	for _, t := range p.days {
		if t.date >= p.j.start && t.date <= p.j.end {
			n += sets[t.date]
		}
	}
	return n
}

// gradesBefore lists the grades below n that a lift has on the days of this week
// before the last two weeks, the main one first.
func (p *peak) gradesBefore(l planner.Lift, n int) (grades []int) {
	j := p.j
	for _, t := range p.days {
		if t.date < j.start || t.date > j.end || j.out(t.date) <= taperFrom || t.date == p.mock || p.givesWay(l, t.date) {
			continue
		}
		for _, s := range j.layout[t.at] {
			if s.lift == l && s.grade < n {
				grades = append(grades, s.grade)
			}
		}
	}
	slices.Sort(grades)
	return grades
}
