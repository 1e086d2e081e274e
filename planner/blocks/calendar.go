package blocks

import (
	"sort"

	"blockbell/planner"
)

// Limits of one plan. Beyond three years nothing on a calendar is decided yet.
const (
	maxWeeks = 156
	maxMeets = 12
)

// weeksIn counts the training weeks that begin in [from, to].
func weeksIn(from, to planner.Date, weekStart planner.Weekday) int {
	first := from.OnOrAfter(weekStart)
	if first > to {
		return 0
	}
	return first.DaysUntil(to)/7 + 1
}

// shortestWeek is how many days without a week start still make a training week
// of their own, where a stretch has no other.
const shortestWeek = 4

// stretch is the time between two anchors: from the day of the plan, or the day
// after a main meet, to the day before the next main meet. Its training weeks
// are season.weeks[lo:hi].
type stretch struct {
	start, end planner.Date
	lo, hi     int
	kind       planner.MeetKind // Main, or Test where a test day closes a rolling cycle
	limit      int              // peaking limit of its meet
}

func (s stretch) weeks() int { return s.hi - s.lo }
func (s stretch) days() int  { return s.start.DaysUntil(s.end) + 1 }

// stop is a tune-up or test day inside a stretch.
type stop struct {
	date   planner.Date
	kind   planner.MeetKind
	name   string
	week   int // the training week it falls in
	before int // training weeks that begin before it
	next   int // first training week of a block that follows it
	close  bool
}

// calendar is the time that a plan covers, cut into training weeks.
type calendar struct {
	weeks     []planner.Date // first day of each training week
	stretches []stretch
	stops     []stop
	marks     []Mark
	after     []int // training weeks before each mark, parallel to marks
	meets     []planner.SeasonMeet
	notes     []string
	relaxed   []string
	peaking   bool
}

// tuneUpGap is how many days before a main meet a tune-up may lie at the latest.
const tuneUpGap = 21

// layOut cuts the time from today through the meets into stretches and weeks.
// Mains and others must be sorted and distinct in date. Without mains, others are
// test days, and rolling is the training weeks of a cycle. peaking tells that a peaking block runs: it takes the days of
// a short first stretch with it.
func layOut(today planner.Date, mains, others []planner.Meet, ws planner.Weekday, rolling int, peaking bool) calendar {
	c := calendar{peaking: peaking}
	from := today
	for _, m := range mains {
		c.add(from, m.Date.AddDays(-1), ws, planner.Main)
		from = m.Date.AddDays(1)
	}
	if len(mains) == 0 {
		c.addRolling(today, others, ws, rolling)
	}
	for _, m := range mains {
		c.mark(Mark{Date: m.Date, Kind: planner.Main})
	}
	for _, m := range others {
		if m.Date <= c.end() {
			c.addStop(m)
		}
	}
	c.sortMarks()
	return c
}

func (c *calendar) add(start, end planner.Date, ws planner.Weekday, kind planner.MeetKind) {
	s := stretch{start: start, end: end, lo: len(c.weeks), kind: kind}
	for d := start.OnOrAfter(ws); d <= end; d = d.AddDays(7) {
		c.weeks = append(c.weeks, d)
	}
	if len(c.weeks) == s.lo && s.days() >= shortestWeek && !(c.peaking && len(c.stretches) == 0) {
		c.weeks = append(c.weeks, start)
	}
	s.hi = len(c.weeks)
	c.stretches = append(c.stretches, s)
}

func (c *calendar) end() planner.Date { return c.stretches[len(c.stretches)-1].end }

// weeksBefore returns how many training weeks begin before d.
func (c *calendar) weeksBefore(d planner.Date) int {
	return sort.Search(len(c.weeks), func(i int) bool { return c.weeks[i] >= d })
}

func (c *calendar) mark(m Mark) {
	c.marks = append(c.marks, m)
}

func (c *calendar) stretchAt(d planner.Date) stretch {
	for _, s := range c.stretches {
		if d >= s.start && d <= s.end {
			return s
		}
	}
	return stretch{}
}

// addStop places a tune-up or test day. Its week is the one that runs on its
// day; days before the first training week belong to that week.
func (c *calendar) addStop(m planner.Meet) {
	s := c.stretchAt(m.Date)
	p := c.weeksBefore(m.Date)
	st := stop{date: m.Date, kind: m.Kind, name: m.Name, week: p - 1, before: p, next: p}
	if p < s.hi && c.weeks[p] == m.Date {
		st.week, st.next = p, p+1
	}
	st.week = max(st.week, s.lo)
	// A peak for the stop must leave room for something after it, and a stop
	// close to the main meet is no end of a peak of its own.
	st.close = s.kind == planner.Main && m.Date.DaysUntil(s.end) < tuneUpGap-1
	if m.Kind == planner.TuneUp && st.close {
		c.relaxed = append(c.relaxed, "The practice meet on "+m.Date.Short()+" is less than 3 weeks before the main meet on "+
			s.end.AddDays(1).Short()+": lift it lightly, nothing above your planned opener.")
	}
	c.stops = append(c.stops, st)
	c.mark(Mark{Date: m.Date, Kind: m.Kind})
}

func (c *calendar) sortMarks() {
	sort.SliceStable(c.marks, func(i, j int) bool { return c.marks[i].Date < c.marks[j].Date })
	sort.SliceStable(c.stops, func(i, j int) bool { return c.stops[i].date < c.stops[j].date })
	c.after = make([]int, len(c.marks))
	for i, m := range c.marks {
		c.after[i] = c.weeksBefore(m.Date)
	}
}
