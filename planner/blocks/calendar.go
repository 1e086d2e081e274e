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
	kind       planner.MeetKind // what closes it: Main, Test, leaving, or "" for a virtual test day
	limit      int              // peaking limit of its meet
	from       opening
}

// leaving closes a stretch that a time away ends.
const leaving planner.MeetKind = "leaving"

// opening is what a stretch begins after.
type opening int

const (
	fromToday opening = iota
	fromMeet
	fromAway
)

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
	early  bool // before the first training week, while the running block is in its last
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
	runs      bool // a block runs and has begun a training week
	main      int  // stretch of the run-up to the first main meet; -1 without one
	aways     []AwayWeek
	lapses    [][]lapse    // weeks away by the training weeks before them
	lapsed    []int        // weeks away between the last training week and each mark, parallel to marks
	until     planner.Date // end of an agreed cycle without a meet; zero where none is
	day       planner.Date
	ws        planner.Weekday
	parts     []Away // times away that end a stretch
	told      []Away
}

// tuneUpGap is how many days before a main meet a tune-up may lie at the latest.
const tuneUpGap = 21

// layOut cuts the time from today through the meets into stretches and weeks.
// Mains and others must be sorted and distinct in date. Without mains, others are
// test days, and rolling is the training weeks of a cycle. A running peaking block
// takes the days of a short first stretch with it.
func (s *season) layOut(mains, others []planner.Meet, rolling int) calendar {
	c := calendar{peaking: s.peaks(), runs: s.Running != nil && s.done > 0, day: s.Today, ws: s.Rules.WeekStart, parts: s.splits(), told: s.spans, main: -1}
	if n := len(s.Agreed); n > 0 && s.Agreed[n-1].Kind == planner.Strength {
		c.until = s.Agreed[n-1].End
	}
	from, after := s.Today, fromToday
	for i, m := range mains {
		c.add(from, m.Date.AddDays(-1), planner.Main, after)
		if i == 0 {
			c.main = len(c.stretches) - 1
		}
		from, after = m.Date.AddDays(1), fromMeet
	}
	if len(mains) == 0 {
		c.addRolling(others, rolling)
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

// add lays out the days from start to end, which times away may cut into several
// stretches. The last one, even of no days, is closed by kind.
func (c *calendar) add(start, end planner.Date, kind planner.MeetKind, after opening) {
	for _, a := range c.parts {
		if a.To < start || a.From > end {
			continue
		}
		if a.From > start {
			c.addStretch(start, a.From.AddDays(-1), a.To, leaving, after)
		}
		c.skip(max(a.From, start), min(a.To, end))
		start, after = a.To.AddDays(1), fromAway
	}
	c.addStretch(start, end, end, kind, after)
}

// skip lists the weeks away that begin in [from, to].
func (c *calendar) skip(from, to planner.Date) {
	for d := from.OnOrAfter(c.ws); d <= to; d = d.AddDays(7) {
		if w, _, away := weekAway(c.told, d, d.AddDays(6), c.ws); away {
			c.lapse(d, w)
		}
	}
}

// addStretch adds the days from start to end; the last of their weeks may reach
// beyond, up to last.
func (c *calendar) addStretch(start, end, last planner.Date, kind planner.MeetKind, after opening) {
	s := stretch{start: start, end: end, lo: len(c.weeks), kind: kind, from: after}
	began := false
	for d := start.OnOrAfter(c.ws); d <= end; d = d.AddDays(7) {
		c.addWeek(d, last)
		began = true
	}
	if !began && s.days() >= shortestWeek && !(c.peaking && len(c.stretches) == 0) {
		c.addWeek(start, last)
	}
	s.hi = len(c.weeks)
	c.stretches = append(c.stretches, s)
}

// addWeek adds a training week that begins on d, or a week away.
func (c *calendar) addWeek(d, last planner.Date) {
	if w, _, away := weekAway(c.told, d, last, c.ws); away {
		c.lapse(d, w)
		return
	}
	c.weeks = append(c.weeks, d)
}

func (c *calendar) end() planner.Date { return c.stretches[len(c.stretches)-1].end }

// weeksBefore returns how many training weeks begin before d.
func (c *calendar) weeksBefore(d planner.Date) int {
	return sort.Search(len(c.weeks), func(i int) bool { return c.weeks[i] >= d })
}

func (c *calendar) mark(m Mark) {
	c.marks = append(c.marks, m)
}

// stretchAt returns the stretch that d lies in; false on the day of a main meet and
// in a time away that ends a stretch.
func (c *calendar) stretchAt(d planner.Date) (stretch, bool) {
	for _, s := range c.stretches {
		if d >= s.start && d <= s.end {
			return s, true
		}
	}
	return stretch{}, false
}

// addStop places a tune-up or test day. Its week is the one that runs on its
// day; days before the first training week belong to that week.
func (c *calendar) addStop(m planner.Meet) {
	s, inside := c.stretchAt(m.Date)
	c.mark(Mark{Date: m.Date, Kind: m.Kind})
	if !inside {
		c.notes = append(c.notes, capital(named(m, m.Date.Short()))+" falls into time away.")
		return
	}
	p := c.weeksBefore(m.Date)
	st := stop{date: m.Date, kind: m.Kind, name: m.Name, week: p - 1, before: p, next: p}
	if p < s.hi && c.weeks[p] == m.Date {
		st.week, st.next = p, p+1
	}
	st.early = p == 0 && c.runs && s.lo == 0 && st.week < 0
	st.week = max(st.week, s.lo)
	// A peak for the stop must leave room for something after it, and a stop
	// close to the main meet is no end of a peak of its own.
	st.close = s.kind == planner.Main && m.Date.DaysUntil(s.end) < tuneUpGap-1
	if m.Kind == planner.TuneUp && st.close {
		c.relaxed = append(c.relaxed, "The practice meet on "+m.Date.Short()+" is less than 3 weeks before the main meet on "+
			s.end.AddDays(1).Short()+": lift it lightly, nothing above your planned opener.")
	}
	c.stops = append(c.stops, st)
}

func (c *calendar) sortMarks() {
	sort.SliceStable(c.marks, func(i, j int) bool { return c.marks[i].Date < c.marks[j].Date })
	sort.SliceStable(c.stops, func(i, j int) bool { return c.stops[i].date < c.stops[j].date })
	c.after, c.lapsed = make([]int, len(c.marks)), make([]int, len(c.marks))
	for i, m := range c.marks {
		c.after[i] = c.weeksBefore(m.Date)
		if t := c.after[i]; t < len(c.lapses) {
			for _, l := range c.lapses[t] {
				if l.start < m.Date {
					c.lapsed[i]++
				}
			}
		}
	}
}
