package blocks

import "blockbell/planner"

// oAway is one run of days away on end, first and last day.
type oAway struct{ from, to planner.Date }

func (a oAway) days() int { return int(a.to-a.from) + 1 }

// oLapse is a week away: how many training weeks begin before it, its first day and
// which week of its run it is.
type oLapse struct {
	before int
	start  planner.Date
	week   int
}

// awayRuns goes through the days one by one; runs under 7 days change nothing.
func awayRuns(r Request) (runs []oAway) {
	first, last := planner.Date(1<<30), planner.Date(0)
	for _, a := range r.Away {
		first, last = min(first, a.From), max(last, a.To)
	}
	var run *oAway
	for d := first; d <= last+1; d++ {
		gone := false
		for _, a := range r.Away {
			gone = gone || d >= a.From && d <= a.To
		}
		switch {
		case gone && run == nil:
			run = &oAway{d, d}
		case gone:
			run.to = d
		case run != nil:
			if run.days() >= 7 {
				runs = append(runs, *run)
			}
			run = nil
		}
	}
	return runs
}

// gone counts the days away in the week from d, up to last, and returns their run.
func (o *oracle) gone(d, last planner.Date) (run *oAway, ok bool) {
	for i, a := range o.runs {
		n := 0
		for x := d; x < d+7 && x <= last; x++ {
			if x >= a.from && x <= a.to {
				n++
			}
		}
		if n >= 4 {
			return &o.runs[i], true
		}
	}
	return nil, false
}

// weekOf is which week of its run the week from d is: the weeks of it before.
func (o *oracle) weekOf(run oAway, d planner.Date) (n int) {
	for x := run.from - 6; x <= d-7; x++ {
		if x.Weekday() != o.r.Rules.WeekStart {
			continue
		}
		days := 0
		for y := x; y < x+7; y++ {
			if y >= run.from && y <= run.to {
				days++
			}
		}
		if days >= 4 {
			n++
		}
	}
	return n
}

// trainedIn counts the training weeks that begin in [from, to).
func (o *oracle) trainedIn(from, to planner.Date) (n int) {
	for d := from; d < to; d++ {
		if _, gone := o.gone(d, d+6); d.Weekday() == o.r.Rules.WeekStart && !gone {
			n++
		}
	}
	return n
}

// lookBack finds what runs on the day of the plan: four weeks away end a block, and
// what was trained since is a new one.
func (o *oracle) lookBack() {
	r := o.r
	if r.Running == nil {
		return
	}
	start, ended := r.Running.Start, false
	for _, a := range o.runs {
		if a.days() >= 28 && a.from <= r.Today && a.to >= start {
			start, ended = a.to+1, true
		}
	}
	o.done = o.trainedIn(start, r.Today)
	if ended && o.done == 0 {
		return
	}
	o.run, o.runStart = letters[r.Running.Kind], start
	first := start
	for first.Weekday() != r.Rules.WeekStart {
		first++
	}
	if h := r.History; len(h) > 0 {
		run, gone := o.gone(first-7, first-1)
		if !gone || run.days() < 28 {
			o.before = letters[h[len(h)-1].Kind]
		}
	}
}

// cuts tells whether a run of days away ends blocks in the time of the plan.
func (o *oracle) cuts(a oAway) bool {
	return a.to >= o.r.Today && (a.days() >= 28 || a.from <= o.r.Today && o.run == 0)
}

// addDays lays out the days from a first one to the eve of a meet, or to the end of
// a cycle. last is the main meet before them.
func (o *oracle) addDays(from, meet planner.Date, limit int, last planner.Date) {
	afterMeet, afterAway := last != 0, false
	for _, a := range o.runs {
		if !o.cuts(a) || a.to < from || a.from >= meet {
			continue
		}
		if a.from > from {
			o.addPart(oStretch{from: from, limit: limit, leave: true, rest: afterMeet}, a.from, a.to)
		}
		for d := max(from, a.from); d <= a.to && d < meet; d++ {
			if run, gone := o.gone(d, d+6); gone && d.Weekday() == o.r.Rules.WeekStart {
				o.lapses = append(o.lapses, oLapse{len(o.weeks), d, o.weekOf(*run, d)})
			}
		}
		from, afterMeet, afterAway = a.to+1, false, true
	}
	s := oStretch{from: from, limit: limit, main: true, afterAway: afterAway}
	if afterMeet {
		s.gap = int(meet - last)
		for d := from; d < meet; d++ {
			if _, gone := o.gone(d, meet-1); gone && d.Weekday() == o.r.Rules.WeekStart {
				s.gap -= 7
			}
		}
		s.rest = s.gap > 17
	}
	o.addPart(s, meet, meet-1)
}

func (o *oracle) addPart(s oStretch, end, last planner.Date) {
	s.lo = len(o.weeks)
	any := false
	add := func(d planner.Date) {
		any = true
		if run, gone := o.gone(d, last); gone {
			o.lapses = append(o.lapses, oLapse{len(o.weeks), d, o.weekOf(*run, d)})
			return
		}
		o.weeks = append(o.weeks, d)
	}
	for d := s.from; d < end; d++ {
		if d.Weekday() == o.r.Rules.WeekStart {
			add(d)
		}
	}
	if !any && end-s.from >= 4 && !(o.run == 'P' && len(o.stretches) == 0) {
		add(s.from)
	}
	s.hi, s.end = len(o.weeks), end
	o.stretches = append(o.stretches, s)
}

// bars finds the training weeks too soon after a time away to peak in.
func (o *oracle) bars() {
	o.barred = make([]bool, len(o.weeks))
	for _, a := range o.runs {
		n := 2
		if a.days() < 14 {
			continue
		}
		if a.days() >= 56 {
			n = 4
		}
		meet := planner.Date(0)
		for _, s := range o.stretches {
			if !s.leave && s.end > a.to && meet == 0 {
				meet = s.end
			}
		}
		if meet == 0 || meet-(a.to+1) < 35 {
			continue
		}
		for t, d := range o.weeks {
			if since := int(d - a.to - 1); d > a.from && since < 7*n {
				o.barred[t] = true // it begins less than n weeks after the first day back
			}
		}
	}
}

// lead is how many weeks of a stretch pass until peaking is allowed for good.
func (o *oracle) lead(s oStretch) (n int) {
	for t := s.lo; t < s.hi; t++ {
		if o.barred[t] {
			n = t - s.lo + 1
		}
	}
	return n
}

// cap is the most weeks a bound leaves a kind; 999 where none speaks of it.
func (o *oracle) cap(kind byte) int {
	most := 999
	for _, b := range o.r.Bounds {
		if letters[b.Kind] == kind {
			most = min(most, b.Max)
		}
	}
	return most
}

// anew tells whether a stretch begins within four weeks of the return from 56 days
// away or more, and is long enough to begin with a muscle block.
func (o *oracle) anew(stretch int) bool {
	s := o.stretches[stretch]
	n := s.hi - s.lo
	if s.gap > 0 || s.leave || s.rest || stretch == 0 && o.run != 0 || o.cap('H') == 0 {
		return false
	}
	share := map[planner.Level]int{planner.New: 55, planner.Novice: 55, planner.Intermediate: 50}[o.m.Level]
	if share == 0 {
		share = 40
	}
	for _, a := range o.runs {
		if since := s.from - a.to; a.days() < 56 || since < 1 || since > 28 {
			continue
		}
		if s.main {
			return n >= 10
		}
		leastS := 3
		if n >= 14 {
			leastS = 4
		}
		return n*share/100 >= 4 && n >= 4+leastS
	}
	return false
}
