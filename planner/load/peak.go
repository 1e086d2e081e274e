package load

import (
	"math"
	"slices"
	"strings"

	"blockbell/planner"
)

// The two weeks before a meet, and the share of the sets before them (surveys:
// volume cut by 41 to 50 % in the US and Canada, 50.5 in Croatian, 58.9 % in New
// Zealand lifters; the first of the two weeks: common practice).
const (
	taperFrom   = 14
	lastWeek    = 7
	shareBefore = 0.7
	shareLast   = 0.475
)

// peakSessions lays out the days of this week in a peaking block.
func (j *job) peakSessions() []Day {
	if j.betweenTwo() {
		return j.betweenMeets(j.gapBetweenMeets())
	}
	p := j.newPeak()
	p.mock = p.mockMeet()
	p.layWeek()
	var days []Day
	for _, t := range p.days {
		if t.date < j.start || t.date > j.end {
			continue
		}
		day := Day{Date: t.date}
		switch {
		case t.date == p.mock:
			day = p.mockDay(t.date)
		case j.out(t.date) > taperFrom:
			day.Work = p.ordinary(t)
		default:
			day = p.tapered(t)
		}
		days = append(days, day)
	}
	return days
}

// tapering tells whether a day of this week lies in the taper.
func (j *job) tapering() bool { return j.out(j.end) <= j.taperDays() }

// slot is the work of a slot on a date: heavy on the lift's heavy days, light
// where its main day is none of them.
func (p *peak) slot(s slot, on planner.Date, n int) []Work {
	j := p.j
	if s.grade == 0 && j.counts(s.lift) {
		if i := slices.Index(p.heavy[s.lift], on); i >= 0 {
			return j.slotHeavy(s.lift, n, i)
		}
		return j.slotWork(j.stage, slot{s.lift, 1}, n)
	}
	return j.slotWork(j.stage, s, n)
}

// slotHeavy is a heavy session of a lift in peaking.
func (j *job) slotHeavy(l planner.Lift, n, countdown int) []Work {
	if j.finding(j.stage, l) {
		return []Work{j.findWork(l, n)}
	}
	return j.peakWork(j.stage, slot{l, 0}, n, countdown)
}

// tapered is a session of the last two weeks.
func (p *peak) tapered(t trainingDay) Day {
	day := Day{Date: t.date}
	for _, l := range p.j.meetOrder() {
		n := p.allot(l)[t.date]
		if n == 0 {
			continue
		}
		i := slices.Index(p.heavy[l], t.date)
		switch {
		case i >= 0:
			day.Work = append(day.Work, p.j.slotHeavy(l, n+p.more[l], i)...)
			p.more[l] = 0
			if i == 0 && p.j.counts(l) {
				day.Note = join(day.Note, "Last heavy "+string(l)+" before the meet.")
			}
		case t.date == p.last:
			day.Work = append(day.Work, p.j.lastWork(l, n))
		default:
			day.Work = append(day.Work, p.j.slotWork(p.j.stage, slot{l, 1}, n)...)
		}
	}
	if t.date == p.last {
		day.Note = join(day.Note, "Last session before the meet: light and quick, then rest.")
	}
	return day
}

// meetOrder is the order of the lifts on meet day, those the meet does not count
// behind the others: nobody tires before what counts.
func (j *job) meetOrder() (order []planner.Lift) {
	for _, counted := range []bool{true, false} {
		for _, l := range planner.CompetitionLifts() {
			if j.counts(l) == counted {
				order = append(order, l)
			}
		}
	}
	return order
}

// join puts two texts side by side; either may be empty.
func join(a, b string) string { return strings.TrimSpace(a + " " + b) }

// lastWork is what a lift has in the last session: 70 to 75 % (survey of Travis et
// al. 2021: 75 to 80 % squat and bench, 70 to 75 % deadlift).
func (j *job) lastWork(l planner.Lift, n int) Work {
	if j.finding(j.stage, l) {
		return j.findWork(l, n)
	}
	aim := 74.0
	if l == planner.Deadlift {
		aim = 71
	}
	best, off := dose{2, 6}, math.Inf(1)
	for r := 4.0; r <= 12; r += 0.5 {
		d := dose{2, r}
		if miss := math.Abs(j.percent(d) - aim); miss < off && j.percent(d) >= 70 && j.percent(d) <= 75 {
			best, off = d, miss
		}
	}
	return j.work(Movement{l, ""}, Technique, n, best)
}

// allot gives each training day of the last two weeks its sets of a lift: the heavy
// day and the last session first, then the days the lift has anyway, then more to the
// heavy day.
func (p *peak) allot(l planner.Lift) map[planner.Date]int {
	share := 1.0
	if p.j.taperDays() > 10 {
		share = shareBefore
	}
	out := map[planner.Date]int{}
	p.allotWindow(l, lastWeek+1, taperFrom, share, out)
	p.allotWindow(l, 1, lastWeek, shareLast, out)
	return out
}

// allotWindow spreads a share of the weekly sets over the days from lo to hi days
// before the meet.
func (p *peak) allotWindow(l planner.Lift, lo, hi int, share float64, out map[planner.Date]int) {
	left := max(1, int(math.Round(share*float64(p.ref[l]))))
	give := func(d planner.Date, n int) {
		if n = min(n, left); n > 0 && out[d] == 0 {
			out[d], left = n, left-n
		}
	}
	inside := func(d planner.Date) bool { o := p.j.out(d); return o >= lo && o <= hi }
	last := inside(p.last)
	if last && !p.j.counts(l) {
		return // what the meet does not count rests in the last week
	}
	heavy := slices.IndexFunc(p.heavy[l], inside)
	if last && (heavy < 0 || left > 1) { // a heavy day comes first
		give(p.last, 2-min(1, heavy+1)) // one set beside a heavy day, else two
	}
	for _, d := range p.heavy[l] {
		if inside(d) {
			give(d, 2) // the top set and one behind it
		}
	}
	for i := len(p.days) - 1; i >= 0; i-- {
		if d := p.days[i].date; inside(d) && d != p.last && p.lightDay(l, p.days[i]) && left > 1 {
			give(d, 2)
		}
	}
	for _, d := range p.days { // what is left makes sessions longer, up to four sets
		if n := out[d.date]; n > 0 && inside(d.date) && d.date != p.last {
			more := min(left, max(0, 4-n))
			out[d.date], left = n+more, left-more
		}
	}
}

// lightDay tells whether a lift has light work on a day of the last two weeks: its
// usual days do, but legs and back rest after their last heavy day.
func (p *peak) lightDay(l planner.Lift, t trainingDay) bool {
	if l != planner.Bench && len(p.heavy[l]) > 0 && t.date > p.heavy[l][0] {
		return false
	}
	return slices.ContainsFunc(p.j.layout[t.at], func(s slot) bool { return s.lift == l })
}
